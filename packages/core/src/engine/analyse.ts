import { checkNetwork } from './check-network.js';
import { EARTH, type Network } from './network.js';
import { eliminate } from './order.js';
import { runsOf } from './runs.js';

/**
 * What elimination does to a network, whatever its values: the order, the pattern of the factor, and where each value goes.
 *
 * "Position" k means the node eliminated k-th. A column's slots hold its branches to later positions.
 */
export interface Analysis {
  readonly nodeCount: number;
  readonly branchCount: number;
  /** Node at each position. */
  readonly order: Int32Array;
  /** Position of each node. */
  readonly position: Int32Array;
  /** First slot of each column; length nodeCount + 1. */
  readonly start: Int32Array;
  /** Position at the other end, per slot, rising within a column. */
  readonly row: Int32Array;
  /** The branch that a slot stands for; −1 for fill. */
  readonly slotBranch: Int32Array;
  /** Branches that no slot stands for, since they are parallel to another one, and the slots that they are added to. */
  readonly parallelBranch: Int32Array;
  readonly parallelSlot: Int32Array;
  /** Slot of each spark gap; −1 for a gap to earth. */
  readonly gapSlot: Int32Array;
  /** Runs of columns that are worked in one loop, see `runsOf`. */
  readonly runs: Int32Array;
  /** How many of the last positions are the source's terminals, plus first: 0, 1 (minus is earth) or 2. */
  readonly portCount: 0 | 1 | 2;
  /** Most slots of any column. */
  readonly widest: number;
}

/**
 * Checks a network, orders it and lays out its factor. The conductances' values play no part.
 *
 * Throws an {@link EngineError} with code `data` for illegal input.
 */
export function analyse(network: Network): Analysis {
  checkNetwork(network);
  const { nodeCount, branchFrom, branchTo, ports, pairs, gaps } = network;
  const branchCount = branchFrom.length;
  const kept = ports ? (ports.minus === EARTH ? [ports.plus] : [ports.plus, ports.minus]) : [];
  const portCount = kept.length as 0 | 1 | 2;
  const from = joined(branchFrom, pairs?.a, gaps?.a);
  const to = joined(branchTo, pairs?.b, gaps?.b);
  const graph = { nodeCount, from, to, branchCount, kept };
  const { order, position, start, slotNode, slotEdge, unplaced } = eliminate(graph);

  const slots = start[nodeCount]!;
  const row = slotNode.subarray(0, slots);
  const slotBranch = slotEdge.subarray(0, slots);
  const widest = placeRows(order, position, start, row, slotBranch);
  const pattern = { position, start, row };
  const parallel = unplaced.filter((edge) => {
    if (edge >= branchCount) return false;
    const slot = slotOf(pattern, branchFrom[edge]!, branchTo[edge]!);
    if (slotBranch[slot] !== -1) return true;
    slotBranch[slot] = edge;
    return false;
  });
  const parallelBranch = Int32Array.from(parallel);
  const parallelSlot = parallelBranch.map((branch) => slotOf(pattern, branchFrom[branch]!, branchTo[branch]!));
  const gapSlot = gaps
    ? gaps.a.map((a, i) => (gaps.b[i] === EARTH ? -1 : slotOf(pattern, a, gaps.b[i]!)))
    : new Int32Array(0);
  // Parallel branches and spark gaps feed the columns that they are added to from outside.
  const fed = new Uint8Array(nodeCount);
  const feed = (a: number, b: number) => {
    fed[Math.min(position[a]!, b === EARTH ? nodeCount : position[b]!)] = 1;
  };
  for (const branch of parallelBranch) feed(branchFrom[branch]!, branchTo[branch]!);
  for (let i = 0; gaps && i < gaps.a.length; i++) feed(gaps.a[i]!, gaps.b[i]!);
  return {
    nodeCount,
    branchCount,
    order,
    position,
    start,
    row,
    slotBranch,
    parallelBranch,
    parallelSlot,
    gapSlot,
    runs: runsOf(start, row, nodeCount - portCount, fed),
    portCount,
    widest,
  };
}

/** Where two joined nodes, a branch's ends or a declared pair, meet in the factor's pattern. */
export function slotOf(analysis: Pick<Analysis, 'position' | 'start' | 'row'>, a: number, b: number): number {
  const { position, start, row } = analysis;
  const early = Math.min(position[a]!, position[b]!);
  const late = Math.max(position[a]!, position[b]!);
  let s = start[early]!;
  while (row[s] !== late) s++;
  return s;
}

/** Puts positions in the place of nodes, rising within each column. Returns the most slots of any column. */
function placeRows(
  order: Int32Array,
  position: Int32Array,
  start: Int32Array,
  row: Int32Array,
  slotBranch: Int32Array,
): number {
  let widest = 0;
  let s = 0;
  for (let k = 0; k < order.length; k++) {
    const first = s;
    const end = start[k + 1]!;
    const successor = k + 1 < order.length ? order[k + 1]! : -1;
    for (; s < end; s++) {
      const node = row[s]!;
      // Mostly the next node of a chain, whose position need not be looked up.
      row[s] = node === successor ? k + 1 : position[node]!;
    }
    const width = end - first;
    if (width > widest) widest = width;
    if (width === 2) {
      const near = row[first]!;
      const far = row[first + 1]!;
      if (near < far) continue;
      row[first] = far;
      row[first + 1] = near;
      const branch = slotBranch[first]!;
      slotBranch[first] = slotBranch[first + 1]!;
      slotBranch[first + 1] = branch;
    } else if (width > 2) sortRows(row, first, end);
  }
  return widest;
}

/** Puts a wide column's rows in rising order; branches are not in its slots yet. */
function sortRows(row: Int32Array, first: number, end: number): void {
  for (let i = first + 1; i < end; i++) {
    const late = row[i]!;
    let t = i;
    for (; t > first && row[t - 1]! > late; t--) row[t] = row[t - 1]!;
    row[t] = late;
  }
}

function joined(...parts: (Int32Array | undefined)[]): Int32Array {
  const present = parts.filter((part) => part !== undefined);
  if (present.length === 1) return present[0]!;
  const whole = new Int32Array(present.reduce((length, part) => length + part.length, 0));
  let at = 0;
  for (const part of present) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
