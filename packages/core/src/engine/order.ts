import { EARTH } from './network.js';
import { Quotient } from './quotient.js';

/** The edges of a graph and the nodes that have to come last. */
export interface Graph {
  readonly nodeCount: number;
  /** Ends of each edge; parallel edges are legal. An edge with an end at `EARTH` is no part of the graph. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Nodes to be kept to the end, in this order. */
  readonly kept: readonly number[];
}

/**
 * An elimination order with the pattern that it leaves: column k lists, for the node eliminated k-th, the nodes
 * that it is still joined to.
 */
export interface Elimination {
  /** Node eliminated k-th. */
  readonly order: Int32Array;
  /** First slot of column k; length nodeCount + 1. */
  readonly start: Int32Array;
  /** Node at the other end, per slot. */
  readonly slotNode: Int32Array;
  /** Edge number, per slot; numbers from `from.length` up are fill. */
  readonly slotEdge: Int32Array;
  /** For a column of two slots, the edge between its two nodes; −1 elsewhere. */
  readonly fillEdge: Int32Array;
  /** For a given edge, the edge it was merged with, or itself; −1 for an edge to earth. */
  readonly mergedEdge: Int32Array;
  readonly edgeCount: number;
}

/**
 * Orders a graph for elimination: leaves are stripped, chains walked from end to end, the rest taken by least degree.
 *
 * Linear time for a graph that is nearly a tree; no recursion.
 */
export function eliminate(graph: Graph): Elimination {
  const { nodeCount, from, to, kept } = graph;
  const edges = from.length;
  // While leaves are stripped a node's list of neighbours is never needed: with the exclusive-or of its neighbours'
  // and of its edges' numbers, the last one left names itself.
  const degree = new Int32Array(nodeCount);
  const xorNode = new Int32Array(nodeCount);
  const xorEdge = new Int32Array(nodeCount);
  for (let e = 0; e < edges; e++) {
    const a = from[e]!;
    const b = to[e]!;
    if (b === EARTH) continue;
    degree[a]!++;
    degree[b]!++;
    xorNode[a]! ^= b;
    xorNode[b]! ^= a;
    xorEdge[a]! ^= e;
    xorEdge[b]! ^= e;
  }
  const last = new Uint8Array(nodeCount);
  for (const node of kept) last[node] = 1;

  const order = new Int32Array(nodeCount);
  const start = new Int32Array(nodeCount + 1);
  const gone = new Uint8Array(nodeCount);
  let slotNode: Int32Array = new Int32Array(nodeCount + 1);
  let slotEdge: Int32Array = new Int32Array(nodeCount + 1);
  let count = 0;
  let slots = 0;
  for (let node = 0; node < nodeCount; node++) {
    let k = node;
    while (gone[k] === 0 && last[k] === 0 && degree[k]! <= 1) {
      gone[k] = 1;
      order[count++] = k;
      if (degree[k] === 0) {
        start[count] = slots;
        break;
      }
      const parent = xorNode[k]!;
      const edge = xorEdge[k]!;
      slotNode[slots] = parent;
      slotEdge[slots++] = edge;
      start[count] = slots;
      degree[parent]!--;
      xorNode[parent]! ^= k;
      xorEdge[parent]! ^= edge;
      k = parent;
    }
  }

  const mergedEdge = new Int32Array(edges);
  for (let e = 0; e < edges; e++) mergedEdge[e] = to[e] === EARTH ? EARTH : e;
  const fillEdge = new Int32Array(nodeCount).fill(-1);
  let edgeCount = edges;
  if (count < nodeCount) {
    const rest = new Quotient(graph, gone, mergedEdge);
    rest.run(order, start, fillEdge, count, slots, slotNode, slotEdge);
    ({ slotNode, slotEdge, edgeCount } = rest);
  }
  return { order, start, slotNode, slotEdge, fillEdge, mergedEdge, edgeCount };
}
