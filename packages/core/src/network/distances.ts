import { type Elements, isMetal, openBy } from './elements.js';

/**
 * Shortest way along metal from a node to every node, m; Infinity where no metal leads.
 * `through` says which breaks to look past: none, or those that faults have made.
 */
export function metalDistances(
  elements: Elements,
  nodeCount: number,
  start: number,
  through: 'nothing' | 'faults' = 'nothing',
): Float64Array {
  const { first, neighbour, lengthM } = metalGraph(elements, nodeCount, through === 'faults');
  const distance = new Float64Array(nodeCount).fill(Number.POSITIVE_INFINITY);
  distance[start] = 0;
  const heap = new NodeHeap(distance);
  heap.push(start);
  for (let node = heap.pop(); node >= 0; node = heap.pop()) {
    for (let e = first[node]!; e < first[node + 1]!; e++) {
      const next = neighbour[e]!;
      const at = distance[node]! + lengthM[e]!;
      if (at < distance[next]!) {
        distance[next] = at;
        heap.push(next);
      }
    }
  }
  return distance;
}

/** Metal elements as adjacency lists: node n's neighbours stand at `first[n]` to `first[n + 1]` − 1. */
function metalGraph(elements: Elements, nodeCount: number, pastFaults: boolean) {
  const { count, kind, nodeA, nodeB, open } = elements;
  const conducts = (e: number) =>
    isMetal(kind[e]!) && (open[e] === openBy.nothing || (pastFaults && open[e] === openBy.fault));
  const first = new Int32Array(nodeCount + 1);
  for (let e = 0; e < count; e++) {
    if (!conducts(e)) continue;
    first[nodeA[e]! + 1]!++;
    first[nodeB[e]! + 1]!++;
  }
  for (let n = 0; n < nodeCount; n++) first[n + 1]! += first[n]!;
  const fill = first.slice();
  const neighbour = new Int32Array(first[nodeCount]!);
  const lengthM = new Float64Array(first[nodeCount]!);
  const lead = (from: number, to: number, length: number) => {
    const slot = fill[from]!++;
    neighbour[slot] = to;
    lengthM[slot] = length;
  };
  for (let e = 0; e < count; e++) {
    if (!conducts(e)) continue;
    lead(nodeA[e]!, nodeB[e]!, elements.lengthM[e]!);
    lead(nodeB[e]!, nodeA[e]!, elements.lengthM[e]!);
  }
  return { first, neighbour, lengthM };
}

/** Binary heap of nodes, nearest first; a node may be moved up by pushing it again. */
class NodeHeap {
  readonly #distance: Float64Array;
  readonly #nodes: number[] = [];
  /** Place of each node in the heap; −1 where it is not in it. */
  readonly #place: Int32Array;

  constructor(distance: Float64Array) {
    this.#distance = distance;
    this.#place = new Int32Array(distance.length).fill(-1);
  }

  push(node: number): void {
    let at = this.#place[node]!;
    if (at < 0) {
      at = this.#nodes.length;
      this.#nodes.push(node);
    }
    while (at > 0) {
      const above = (at - 1) >> 1;
      const other = this.#nodes[above]!;
      if (this.#distance[other]! <= this.#distance[node]!) break;
      this.#put(other, at);
      at = above;
    }
    this.#put(node, at);
  }

  /** Removes and returns the nearest node; −1 when empty. */
  pop(): number {
    const top = this.#nodes[0];
    if (top === undefined) return -1;
    this.#place[top] = -1;
    const node = this.#nodes.pop()!;
    if (this.#nodes.length > 0) this.#sink(node);
    return top;
  }

  #sink(node: number): void {
    const count = this.#nodes.length;
    let at = 0;
    for (;;) {
      let below = 2 * at + 1;
      if (below >= count) break;
      if (below + 1 < count && this.#distance[this.#nodes[below + 1]!]! < this.#distance[this.#nodes[below]!]!) below++;
      const other = this.#nodes[below]!;
      if (this.#distance[other]! >= this.#distance[node]!) break;
      this.#put(other, at);
      at = below;
    }
    this.#put(node, at);
  }

  #put(node: number, at: number): void {
    this.#nodes[at] = node;
    this.#place[node] = at;
  }
}
