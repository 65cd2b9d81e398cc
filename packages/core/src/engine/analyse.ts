import { checkNetwork } from './check-network.js';
import { EARTH, type Network } from './network.js';
import { eliminate } from './order.js';

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
  /** For a column of two slots, the slot that joins its two positions; −1 elsewhere. */
  readonly fill: Int32Array;
  /** Runs of columns alike in width, three numbers a run: first column, column after the last, slots a column. */
  readonly runs: Int32Array;
  /** Slot that each branch is added to. */
  readonly branchSlot: Int32Array;
  /** Slot of each declared pair. */
  readonly pairSlot: Int32Array;
  /** Slot of each spark gap; −1 for a gap to earth. */
  readonly gapSlot: Int32Array;
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
  const none = new Int32Array(0);
  const from = joined(
    branchFrom,
    pairs?.a ?? none,
    gaps?.a ?? none,
    Int32Array.from(kept.slice(0, Math.max(0, portCount - 1))),
  );
  const to = joined(branchTo, pairs?.b ?? none, gaps?.b ?? none, Int32Array.from(kept.slice(1)));
  const { order, start, slotNode, slotEdge, fillEdge, mergedEdge, edgeCount } = eliminate({
    nodeCount,
    from,
    to,
    kept,
  });

  const position = new Int32Array(nodeCount);
  for (let k = 0; k < nodeCount; k++) position[order[k]!] = k;
  const slots = start[nodeCount]!;
  const row = new Int32Array(slots);
  for (let s = 0; s < slots; s++) row[s] = position[slotNode[s]!]!;
  const edgeSlot = new Int32Array(edgeCount);
  let widest = 0;
  for (let k = 0; k < nodeCount; k++) {
    const first = start[k]!;
    const end = start[k + 1]!;
    for (let s = first + 1; s < end; s++) {
      const r = row[s]!;
      const edge = slotEdge[s]!;
      let t = s - 1;
      for (; t >= first && row[t]! > r; t--) {
        row[t + 1] = row[t]!;
        slotEdge[t + 1] = slotEdge[t]!;
      }
      row[t + 1] = r;
      slotEdge[t + 1] = edge;
    }
    for (let s = first; s < end; s++) edgeSlot[slotEdge[s]!] = s;
    widest = Math.max(widest, end - first);
  }
  const fill = fillEdge;
  for (let k = 0; k < nodeCount; k++) if (fill[k] !== -1) fill[k] = edgeSlot[fill[k]!]!;
  const slotOf = (edge: number) => (mergedEdge[edge] === EARTH ? EARTH : edgeSlot[mergedEdge[edge]!]!);
  const pairCount = pairs?.a.length ?? 0;
  return {
    nodeCount,
    branchCount,
    order,
    position,
    start,
    row,
    fill,
    runs: runTable(start, nodeCount - portCount),
    branchSlot: Int32Array.from({ length: branchCount }, (_, e) => slotOf(e)),
    pairSlot: Int32Array.from({ length: pairCount }, (_, i) => slotOf(branchCount + i)),
    gapSlot: Int32Array.from({ length: gaps?.a.length ?? 0 }, (_, i) => slotOf(branchCount + pairCount + i)),
    portCount,
    widest,
  };
}

/** First column, column after the last and slots a column, for each run of columns of one width. */
function runTable(start: Int32Array, columns: number): Int32Array {
  const runs: number[] = [];
  for (let k = 0; k < columns; ) {
    const width = start[k + 1]! - start[k]!;
    let end = k + 1;
    while (end < columns && start[end + 1]! - start[end]! === width) end++;
    runs.push(k, end, width);
    k = end;
  }
  return Int32Array.from(runs);
}

function joined(...parts: Int32Array[]): Int32Array {
  const whole = new Int32Array(parts.reduce((length, part) => length + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
