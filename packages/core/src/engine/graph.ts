/** The edges of a graph and the nodes that have to come last. */
export interface Graph {
  readonly nodeCount: number;
  /** Ends of each edge; parallel edges are legal. An edge with its second end at `EARTH` is no part of the graph. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** How many of the edges, the first ones, are branches; the others only have to have a place in the pattern. */
  readonly branchCount: number;
  /** Nodes to be kept to the end, in this order; edges between two of them are left out. */
  readonly kept: readonly number[];
}
