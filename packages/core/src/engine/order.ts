import type { Graph } from './graph.js';
import { grown } from './grown.js';
import { leastDegree } from './least-degree.js';
import { EARTH } from './network.js';
import { areJoined, drop, GONE, isReady, RECORD, recordsOf, replace, STATE } from './records.js';

/** An elimination order and, column by column, the nodes that each eliminated node is still joined to then. */
export interface Elimination {
  /** Node eliminated k-th. */
  readonly order: Int32Array;
  /** First slot of column k; length nodeCount + 1. */
  readonly start: Int32Array;
  /** Per slot, the node at the other end; the array may be longer than there are slots. */
  readonly slotNode: Int32Array;
  /** Per slot, an edge that it stands for; −1 or a number from `from.length` up for none. */
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
  const { nodeCount, from, kept } = graph;
  const unplaced: number[] = [];
  const record = recordsOf(graph, unplaced);
  const stripped: Stripped = {
    order: new Int32Array(nodeCount),
    start: new Int32Array(nodeCount + 1),
    // Two slots a node hold whatever leaves and chains leave behind; what is not written to costs nothing.
    slotNode: new Int32Array(3 * nodeCount + 2),
    slotEdge: new Int32Array(3 * nodeCount + 2),
    count: 0,
    fillEnds: new Int32Array(2 * nodeCount),
    edgeCount: from.length,
  };
  const inner = nodeCount - kept.length;
  strip(record, stripped, 1, from.length);
  if (stripped.count < inner) strip(record, stripped, 2, from.length);
  if (stripped.count < inner) stripRest(graph, record, stripped, unplaced);
  const { order, start, slotNode, slotEdge } = stripped;
  for (const node of kept) {
    order[stripped.count++] = node;
    let slots = start[stripped.count - 1]!;
    // Between two kept nodes there is always a slot.
    if (stripped.count < nodeCount) {
      slotNode[slots] = kept[1]!;
      slotEdge[slots++] = -1;
    }
    start[stripped.count] = slots;
  }
  return { order, start, slotNode, slotEdge, unplaced };
}

/** The elimination so far. */
interface Stripped {
  readonly order: Int32Array;
  readonly start: Int32Array;
  slotNode: Int32Array;
  slotEdge: Int32Array;
  count: number;
  /** Ends of the fill edges, two numbers each, in the order of their numbers. */
  readonly fillEnds: Int32Array;
  edgeCount: number;
}

/** Eliminates every node of at most `most` neighbours, going on along the chain as long as there is one. */
function strip(record: Int32Array, stripped: Stripped, most: number, givenEdges: number): void {
  const { order, start, slotNode, slotEdge, fillEnds } = stripped;
  let { count, edgeCount } = stripped;
  let slots = start[count]!;
  const nodeCount = order.length;
  // From the last node down: fences are numbered away from the source, so whole runs come off, side by side in memory.
  for (let node = nodeCount - 1; node >= 0; node--) {
    let k = isReady(record, RECORD * node, most) ? node : -1;
    while (k >= 0) {
      const r = RECORD * k;
      const degree = record[r]!;
      record[r + STATE] = GONE;
      order[count++] = k;
      start[count] = slots + degree;
      if (degree === 0) break;
      const a = record[r + 1]!;
      const edgeA = record[r + 2]!;
      const ra = RECORD * a;
      slotNode[slots] = a;
      slotEdge[slots++] = edgeA;
      if (degree === 1) {
        drop(record, ra, k, edgeA);
        k = isReady(record, ra, most) ? a : -1;
        continue;
      }
      const b = record[r + 3]!;
      const edgeB = record[r + 4]!;
      const rb = RECORD * b;
      slotNode[slots] = b;
      slotEdge[slots++] = edgeB;
      if (areJoined(record, ra, rb)) {
        drop(record, ra, k, edgeA);
        drop(record, rb, k, edgeB);
      } else {
        const f = 2 * (edgeCount - givenEdges);
        fillEnds[f] = a;
        fillEnds[f + 1] = b;
        replace(record, ra, k, edgeA, b, edgeCount);
        replace(record, rb, k, edgeB, a, edgeCount++);
      }
      // Along two strands the neighbour reached by fill is the one to take first: it was met first, and so rows stay in step.
      const readyB = isReady(record, rb, most);
      if (readyB && edgeB >= givenEdges) k = b;
      else if (isReady(record, ra, most)) k = a;
      else k = readyB ? b : -1;
    }
  }
  stripped.count = count;
  stripped.edgeCount = edgeCount;
}

/** Hands what is left to the least-degree stage and takes its columns. */
function stripRest(graph: Graph, record: Int32Array, stripped: Stripped, unplaced: number[]): void {
  const { nodeCount, from, to, kept } = graph;
  const local = new Int32Array(nodeCount).fill(-1);
  const nodes: number[] = [];
  for (let node = 0; node < nodeCount; node++) {
    if (record[RECORD * node + STATE] !== GONE) local[node] = nodes.push(node) - 1;
  }
  const last = new Uint8Array(nodes.length);
  for (const node of kept) last[local[node]!] = 1;
  const rest = { nodeCount: nodes.length, from: [] as number[], to: [] as number[] };
  const add = (a: number, b: number) => {
    if (last[a] !== 0 && last[b] !== 0) return;
    rest.from.push(a);
    rest.to.push(b);
  };
  const placedLater = new Set(unplaced);
  for (let e = 0; e < from.length; e++) {
    const a = local[from[e]!]!;
    if (a < 0 || to[e] === EARTH) continue;
    const b = local[to[e]!]!;
    if (b < 0 || (placedLater.size > 0 && placedLater.has(e))) continue;
    unplaced.push(e);
    add(a, b);
  }
  const { fillEnds } = stripped;
  for (let f = 0; f < 2 * (stripped.edgeCount - from.length); f += 2) {
    const a = local[fillEnds[f]!]!;
    const b = local[fillEnds[f + 1]!]!;
    if (a >= 0 && b >= 0) add(a, b);
  }

  const columns = leastDegree(rest, last);
  const { order, start } = stripped;
  let slots = start[stripped.count]!;
  const length = slots + columns.members.length + 1;
  if (length > stripped.slotNode.length) {
    stripped.slotNode = grown(stripped.slotNode, length);
    stripped.slotEdge = grown(stripped.slotEdge, length);
  }
  stripped.slotEdge.fill(-1, slots, length);
  for (const member of columns.members) stripped.slotNode[slots++] = nodes[member]!;
  const before = start[stripped.count]!;
  columns.order.forEach((node, column) => {
    order[stripped.count++] = nodes[node]!;
    start[stripped.count] = before + columns.start[column + 1]!;
  });
}
