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
  const { order, start, slotNode, slotEdge, unplaced } = eliminate({ nodeCount, from, to, kept });

  const position = inverseOf(order);
  const slots = start[nodeCount]!;
  const row = slotNode.subarray(0, slots);
  const slotBranch = slotEdge.subarray(0, slots);
  const widest = placeRows(order, position, start, row, slotBranch, branchCount);
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

/** The place of each number in an order of all numbers below its length. */
function inverseOf(order: Int32Array): Int32Array {
  const place = new Int32Array(order.length);
  for (let k = 0; k < order.length; k++) place[order[k]!] = k;
  return place;
}

/**
 * Puts positions in the place of nodes, rising within each column, and −1 in that of edges which are no branches.
 * Returns the most slots of any column.
 */
function placeRows(
  order: Int32Array,
  position: Int32Array,
  start: Int32Array,
  row: Int32Array,
  slotBranch: Int32Array,
  branchCount: number,
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
      if (slotBranch[s]! >= branchCount) slotBranch[s] = -1;
    }
    if (end - first > widest) widest = end - first;
    if (end - first === 2) {
      if (row[first]! > row[first + 1]!) swap(row, slotBranch, first);
    } else if (end - first > 2) {
      for (let i = first + 1; i < end; i++) {
        for (let t = i - 1; t >= first && row[t]! > row[t + 1]!; t--) swap(row, slotBranch, t);
      }
    }
  }
  return widest;
}

function swap(row: Int32Array, slotBranch: Int32Array, s: number): void {
  const late = row[s]!;
  const branch = slotBranch[s]!;
  row[s] = row[s + 1]!;
  slotBranch[s] = slotBranch[s + 1]!;
  row[s + 1] = late;
  slotBranch[s + 1] = branch;
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
