import type { Graph } from './graph.js';
import { grown } from './grown.js';
import { leastDegree } from './least-degree.js';
import { EARTH } from './network.js';
import { areJoined, drop, edgesLeft, GONE, mergeParallel, RECORD, recordsOf, replace } from './records.js';

/** An elimination order and, column by column, the nodes that each eliminated node is still joined to then. */
export interface Elimination {
  /** Node eliminated k-th, and its inverse: when each node is. */
  readonly order: Int32Array;
  readonly position: Int32Array;
  /** First slot of column k; length nodeCount + 1. */
  readonly start: Int32Array;
  /** Per slot, the node at the other end; the array may be longer than there are slots. */
  readonly slotNode: Int32Array;
  /** Per slot, an edge of the first `branchCount` that it stands for; −1 for none. */
  readonly slotEdge: Int32Array;
  /** Edges that no slot stands for yet: where their ends meet there is a slot, for one of them or for another edge already. */
  readonly unplaced: readonly number[];
}

/**
 * Orders a graph for elimination: leaves are stripped, chains walked from end to end, the rest taken by least degree.
 *
 * Linear time for a graph that is nearly a tree; no recursion.
 */
export function eliminate(graph: Graph): Elimination {
  const { nodeCount, kept } = graph;
  const unplaced: number[] = [];
  const record = recordsOf(graph, unplaced);
  const stripped: Stripped = {
    order: new Int32Array(nodeCount),
    position: new Int32Array(nodeCount),
    start: new Int32Array(nodeCount + 1),
    // Two slots a node hold whatever leaves and chains leave behind; what is not written to costs little.
    slotNode: new Int32Array(2 * nodeCount + 2),
    slotEdge: new Int32Array(2 * nodeCount + 2),
    count: 0,
    fills: [],
  };
  const inner = nodeCount - kept.length;
  stripLeaves(graph, record, stripped);
  if (stripped.count < inner) {
    if (mergeParallel(record, unplaced)) stripLeaves(graph, record, stripped);
    stripChains(graph, record, stripped);
  }
  if (stripped.count < inner) stripRest(graph, record, stripped, unplaced);
  const { order, position, start, slotNode, slotEdge } = stripped;
  for (const node of kept) {
    let slots = start[stripped.count]!;
    position[node] = stripped.count;
    order[stripped.count++] = node;
    // Between two kept nodes there is always a slot.
    if (stripped.count < nodeCount) {
      slotNode[slots] = kept[1]!;
      slotEdge[slots++] = -1;
    }
    start[stripped.count] = slots;
  }
  return { order, position, start, slotNode, slotEdge, unplaced };
}

/** The elimination so far. */
interface Stripped {
  readonly order: Int32Array;
  readonly position: Int32Array;
  readonly start: Int32Array;
  slotNode: Int32Array;
  slotEdge: Int32Array;
  count: number;
  /** First slots of the columns of two that have left an edge between their neighbours. */
  readonly fills: number[];
}

/** Eliminates every node of one neighbour, or none, going on along the strand as long as there is one. */
function stripLeaves({ branchCount }: Graph, record: Int32Array, stripped: Stripped): void {
  const { order, position, start, slotNode, slotEdge } = stripped;
  let { count } = stripped;
  let slots = start[count]!;
  // From the last node down: fences are numbered away from the source, so whole runs come off, side by side in memory.
  for (let leaf = order.length - 1; leaf >= 0; leaf--) {
    let k = leaf;
    let r = k << RECORD;
    while (record[r] === 1) {
      let next = record[r + 1]!;
      let edge = record[r + 2]!;
      for (;;) {
        record[r] = GONE;
        position[k] = count;
        order[count++] = k;
        slotNode[slots] = next;
        slotEdge[slots++] = edge < branchCount ? edge : -1;
        start[count] = slots;
        r = next << RECORD;
        if (record[r] !== 2) break;
        // Along a strand no record needs to be kept up: of a node's two neighbours it is the other one.
        const before = k;
        k = next;
        next = record[r + 1]! ^ record[r + 3]! ^ before;
        edge ^= record[r + 2]! ^ record[r + 4]!;
      }
      drop(record, r, k, edge);
      k = next;
    }
    if (record[r] === 0) {
      record[r] = GONE;
      position[k] = count;
      order[count++] = k;
      start[count] = slots;
    }
  }
  stripped.count = count;
}

/** Eliminates every node of two neighbours or less, going on along the chain as long as there is one. */
function stripChains({ branchCount, from }: Graph, record: Int32Array, stripped: Stripped): void {
  const { order, position, start, slotNode, slotEdge, fills } = stripped;
  let { count } = stripped;
  let slots = start[count]!;
  for (let first = order.length - 1; first >= 0; first--) {
    let k = first;
    let r = k << RECORD;
    while (record[r]! <= 2) {
      const degree = record[r]!;
      let next = record[r + 1]!;
      let edge = record[r + 2]!;
      if (degree < 2) {
        record[r] = GONE;
        position[k] = count;
        order[count++] = k;
        if (degree === 1) {
          slotNode[slots] = next;
          slotEdge[slots++] = edge < branchCount ? edge : -1;
          r = next << RECORD;
          drop(record, r, k, edge);
          k = next;
        }
        start[count] = slots;
        continue;
      }
      let far = record[r + 3]!;
      let farEdge = record[r + 4]!;
      if (record[next << RECORD]! > 2) {
        far = next;
        farEdge = edge;
        next = record[r + 3]!;
        edge = record[r + 4]!;
      }
      const rFar = far << RECORD;
      const chain = k;
      let fill = farEdge;
      for (;;) {
        record[r] = GONE;
        position[k] = count;
        order[count++] = k;
        slotNode[slots] = next;
        slotEdge[slots] = edge < branchCount ? edge : -1;
        slotNode[slots + 1] = far;
        slotEdge[slots + 1] = fill < branchCount ? fill : -1;
        fill = from.length + slots;
        slots += 2;
        start[count] = slots;
        r = next << RECORD;
        if (record[r] !== 2) break;
        const other = record[r + 1]! ^ record[r + 3]! ^ k;
        if (other === far) break;
        // Along a chain no record needs to be kept up, see above; only the ends' are, at last.
        edge ^= record[r + 2]! ^ record[r + 4]!;
        k = next;
        next = other;
      }
      if (areJoined(record, r, rFar)) {
        drop(record, r, k, edge);
        drop(record, rFar, chain, farEdge);
      } else {
        fills.push(slots - 2);
        replace(record, r, k, edge, far, fill);
        replace(record, rFar, chain, farEdge, next, fill);
      }
      // Of the chain's two neighbours the one met first, so that the rows of two strands stay in step.
      const goFar = k !== chain && record[rFar]! <= 2;
      k = goFar ? far : next;
      if (goFar) r = rFar;
    }
  }
  stripped.count = count;
}

/** Hands what is left to the least-degree stage and takes its columns. */
function stripRest(graph: Graph, record: Int32Array, stripped: Stripped, unplaced: number[]): void {
  const { nodeCount, from, to, kept } = graph;
  const { order, position, start, fills } = stripped;
  const nodes: number[] = [];
  let edges = 0;
  for (let node = 0; node < nodeCount; node++) {
    const r = node << RECORD;
    if (record[r] === GONE) continue;
    edges += edgesLeft(record, r);
    // From here on the record only holds the node's number among those left.
    record[r + 1] = nodes.push(node) - 1;
  }
  edges /= 2;
  const last = new Uint8Array(nodes.length);
  for (const node of kept) last[record[(node << RECORD) + 1]!] = 1;
  const rest = { nodeCount: nodes.length, from: [] as number[], to: [] as number[] };
  const add = (a: number, b: number): boolean => {
    const ra = a << RECORD;
    const rb = b << RECORD;
    if (record[ra] === GONE || record[rb] === GONE) return false;
    edges--;
    const localA = record[ra + 1]!;
    const localB = record[rb + 1]!;
    if (last[localA] !== 0 && last[localB] !== 0) return true;
    rest.from.push(localA);
    rest.to.push(localB);
    return true;
  };
  for (const slot of fills) add(stripped.slotNode[slot]!, stripped.slotNode[slot + 1]!);
  const placedLater = new Set(unplaced);
  // Mostly fill has accounted for every edge, and those of the graph need not be gone through.
  for (let e = 0; edges > 0 && e < from.length; e++) {
    if (to[e] !== EARTH && !(placedLater.size > 0 && placedLater.has(e)) && add(from[e]!, to[e]!)) unplaced.push(e);
  }

  const columns = leastDegree(rest, last);
  const before = start[stripped.count]!;
  const length = before + columns.members.length + 1;
  if (length > stripped.slotNode.length) {
    stripped.slotNode = grown(stripped.slotNode, length);
    stripped.slotEdge = grown(stripped.slotEdge, length);
  }
  const { slotNode, slotEdge } = stripped;
  slotEdge.fill(-1, before, length);
  columns.members.forEach((member, i) => {
    slotNode[before + i] = nodes[member]!;
  });
  columns.order.forEach((node, column) => {
    position[nodes[node]!] = stripped.count;
    order[stripped.count++] = nodes[node]!;
    start[stripped.count] = before + columns.start[column + 1]!;
  });
}
