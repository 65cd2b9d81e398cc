import { grown } from './grown.js';
import { LeastDegree } from './least-degree.js';
import { EARTH } from './network.js';
import { drop, GONE, isReady, names, RECORD, recordsOf, replace, STATE } from './records.js';

/** The edges of a graph and the nodes that have to come last. */
export interface Graph {
  readonly nodeCount: number;
  /** Ends of each edge; parallel edges are legal. An edge with its second end at `EARTH` is no part of the graph. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Nodes to be kept to the end, in this order; edges between two of them are left out. */
  readonly kept: readonly number[];
}

/** An elimination order and, column by column, the nodes that each eliminated node is still joined to then. */
export interface Elimination {
  /** Node eliminated k-th. */
  readonly order: Int32Array;
  /** First slot of column k; length nodeCount + 1. */
  readonly start: Int32Array;
  /** Per slot, the node at the other end; the array may be longer than there are slots. */
  readonly slotNode: Int32Array;
  /** Per slot, the edge it stands for; a number from `from.length` up is fill. */
  readonly slotEdge: Int32Array;
  /** Edges that share the slot of another edge, or lie between two kept nodes. */
  readonly merged: readonly number[];
}

/**
 * Orders a graph for elimination: leaves are stripped, chains walked from end to end, the rest taken by least degree.
 *
 * Linear time for a graph that is nearly a tree; no recursion.
 */
export function eliminate(graph: Graph): Elimination {
  const { nodeCount, from, kept } = graph;
  const merged: number[] = [];
  const record = recordsOf(graph, merged);
  const stripped: Stripped = {
    order: new Int32Array(nodeCount),
    start: new Int32Array(nodeCount + 1),
    // Two slots a node hold whatever leaves and chains leave behind; the third costs nothing until it is written.
    slotNode: new Int32Array(3 * nodeCount + 2),
    slotEdge: new Int32Array(3 * nodeCount + 2),
    count: 0,
    fillEnds: new Int32Array(64),
    edgeCount: from.length,
  };
  const inner = nodeCount - kept.length;
  strip(record, stripped, 1, from.length);
  if (stripped.count < inner) strip(record, stripped, 2, from.length);
  if (stripped.count < inner) stripRest(graph, record, stripped, merged);
  const { order, start, slotNode, slotEdge } = stripped;
  for (const node of kept) {
    order[stripped.count++] = node;
    let slots = start[stripped.count - 1]!;
    // Between two kept nodes there is always a slot.
    if (stripped.count < nodeCount) {
      slotNode[slots] = kept[1]!;
      slotEdge[slots++] = stripped.edgeCount;
    }
    start[stripped.count] = slots;
  }
  return { order, start, slotNode, slotEdge, merged };
}

/** The elimination so far. */
interface Stripped {
  readonly order: Int32Array;
  readonly start: Int32Array;
  slotNode: Int32Array;
  slotEdge: Int32Array;
  count: number;
  /** Ends of the fill edges, two numbers each, in the order of their numbers. */
  fillEnds: Int32Array;
  edgeCount: number;
}

/** Eliminates every node of at most `most` neighbours, going on along the chain as long as there is one. */
function strip(record: Int32Array, stripped: Stripped, most: number, givenEdges: number): void {
  const { order, start, slotNode, slotEdge } = stripped;
  let { fillEnds, count, edgeCount } = stripped;
  let slots = start[count]!;
  const nodeCount = order.length;
  for (let node = 0; node < nodeCount; node++) {
    let k = node;
    while (k >= 0 && isReady(record, RECORD * k, most)) {
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
        k = a;
        continue;
      }
      const b = record[r + 3]!;
      const edgeB = record[r + 4]!;
      const rb = RECORD * b;
      slotNode[slots] = b;
      slotEdge[slots++] = edgeB;
      if (names(record, ra, b) || names(record, rb, a)) {
        drop(record, ra, k, edgeA);
        drop(record, rb, k, edgeB);
      } else {
        const f = 2 * (edgeCount - givenEdges);
        if (f === fillEnds.length) fillEnds = grown(fillEnds, 4 * f);
        fillEnds[f] = a;
        fillEnds[f + 1] = b;
        replace(record, ra, k, edgeA, b, edgeCount);
        replace(record, rb, k, edgeB, a, edgeCount++);
      }
      // Along two strands the neighbour reached by fill is the one to take first: it was met first, and so rows stay in step.
      if (edgeB >= givenEdges && isReady(record, rb, 2)) k = b;
      else k = isReady(record, ra, 2) ? a : b;
    }
  }
  stripped.count = count;
  stripped.fillEnds = fillEnds;
  stripped.edgeCount = edgeCount;
}

/** Hands what is left to the least-degree stage and takes its columns. */
function stripRest(graph: Graph, record: Int32Array, stripped: Stripped, merged: number[]): void {
  const { nodeCount, from, to, kept } = graph;
  const local = new Int32Array(nodeCount).fill(-1);
  const nodes: number[] = [];
  for (let node = 0; node < nodeCount; node++) {
    if (record[RECORD * node + STATE] !== GONE) local[node] = nodes.push(node) - 1;
  }
  const last = new Uint8Array(nodes.length);
  for (const node of kept) last[local[node]!] = 1;
  const rest = new LeastDegree(last, stripped.edgeCount);
  const left = new Set(merged);
  for (let e = 0; e < from.length; e++) {
    const a = local[from[e]!]!;
    if (a < 0 || to[e] === EARTH) continue;
    const b = local[to[e]!]!;
    if (b >= 0 && !(left.size > 0 && left.has(e))) rest.add(a, b, e);
  }
  const { fillEnds } = stripped;
  for (let e = from.length, f = 0; e < stripped.edgeCount; e++, f += 2) {
    const a = local[fillEnds[f]!]!;
    const b = local[fillEnds[f + 1]!]!;
    if (a >= 0 && b >= 0) rest.add(a, b, e);
  }
  for (const edge of rest.mergeParallel()) if (edge < from.length) merged.push(edge);
  const { order, start } = stripped;
  let slots = start[stripped.count]!;
  rest.run((node, neighbours, edges, width) => {
    if (slots + width + 1 > stripped.slotNode.length) {
      stripped.slotNode = grown(stripped.slotNode, 2 * (slots + width));
      stripped.slotEdge = grown(stripped.slotEdge, 2 * (slots + width));
    }
    order[stripped.count++] = nodes[node]!;
    for (let i = 0; i < width; i++) {
      stripped.slotNode[slots] = nodes[neighbours[i]!]!;
      stripped.slotEdge[slots++] = edges[i]!;
    }
    start[stripped.count] = slots;
  });
  stripped.edgeCount = rest.edgeCount;
}
