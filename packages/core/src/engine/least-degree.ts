import { grown } from './grown.js';

const NONE = -1;

/** A graph as pairs of ends; parallel edges are legal. */
export interface EdgeList {
  readonly nodeCount: number;
  readonly from: ArrayLike<number>;
  readonly to: ArrayLike<number>;
}

/** Columns of eliminated nodes, one after another. */
export interface Columns {
  /** Nodes in the order in which they were eliminated. */
  readonly order: Int32Array;
  /** First place of each column in `members`, and the end of the last one; length order.length + 1. */
  readonly start: Int32Array;
  /** Per column, the nodes that the eliminated one was joined to. */
  readonly members: Int32Array;
}

/**
 * Eliminates all nodes of a graph but those marked `last`, the one with the fewest neighbours first.
 *
 * What an eliminated node leaves, a clique of its neighbours, is kept as the list of its members (an "element") and never
 * written out as edges; degrees are upper bounds that are exact where cliques do not overlap
 * (P. Amestoy, T. Davis and I. Duff 1996).
 */
export function leastDegree({ nodeCount, from, to }: EdgeList, last: Uint8Array): Columns {
  // Per node, from begin[i]: neighbourCount[i] plain neighbours, then elementCount[i] elements. An elimination takes at least
  // one entry away from each list that it adds one element to.
  const begin = new Int32Array(nodeCount + 1);
  const elementCount = new Int32Array(nodeCount);
  const neighbourCount = new Int32Array(nodeCount);
  const list = new Int32Array(2 * from.length);
  for (let e = 0; e < from.length; e++) {
    neighbourCount[from[e]!]!++;
    neighbourCount[to[e]!]!++;
  }
  for (let i = 0; i < nodeCount; i++) begin[i + 1] = begin[i]! + neighbourCount[i]!;
  const filled = begin.slice(0, nodeCount);
  for (let e = 0; e < from.length; e++) {
    list[filled[from[e]!]!++] = to[e]!;
    list[filled[to[e]!]!++] = from[e]!;
  }

  const buckets = new Buckets(neighbourCount, last);
  const order = new Int32Array(buckets.size);
  const start = new Int32Array(buckets.size + 1);
  // An element goes by the number of its column. `outside` is how many of its members are not in the present column.
  let members: Int32Array = new Int32Array(2 * list.length + 16);
  const absorbed = new Uint8Array(buckets.size);
  const outside = new Int32Array(buckets.size);
  const outsideOf = new Int32Array(buckets.size).fill(NONE);
  // The last column that a node was put in; its own number once it is eliminated.
  const mark = new Int32Array(nodeCount).fill(NONE);

  for (let column = 0; column < order.length; column++) {
    const pivot = buckets.takeLeast();
    order[column] = pivot;
    const first = start[column]!;
    let end = first;
    const elementsOfPivot = begin[pivot]! + neighbourCount[pivot]!;
    const endOfPivot = elementsOfPivot + elementCount[pivot]!;
    if (first + nodeCount > members.length) members = grown(members, 2 * members.length + nodeCount);
    mark[pivot] = column;
    for (let p = begin[pivot]!; p < elementsOfPivot; p++) {
      const node = list[p]!;
      if (mark[node] === column) continue;
      mark[node] = column;
      members[end++] = node;
    }
    for (let p = elementsOfPivot; p < endOfPivot; p++) {
      const element = list[p]!;
      absorbed[element] = 1;
      for (let m = start[element]!; m < start[element + 1]!; m++) {
        const node = members[m]!;
        if (mark[node] === column) continue;
        mark[node] = column;
        members[end++] = node;
      }
    }
    start[column + 1] = end;

    for (let m = first; m < end; m++) {
      const node = members[m]!;
      const elements = begin[node]! + neighbourCount[node]!;
      for (let p = elements; p < elements + elementCount[node]!; p++) {
        const element = list[p]!;
        if (outsideOf[element] !== column) {
          outsideOf[element] = column;
          outside[element] = start[element + 1]! - start[element]!;
        }
        outside[element]!--;
      }
    }
    const width = end - first;
    const left = nodeCount - column - 1;
    for (let m = first; m < end; m++) {
      const node = members[m]!;
      const elements = begin[node]! + neighbourCount[node]!;
      const listEnd = elements + elementCount[node]!;
      let at = begin[node]!;
      // Plain neighbours within the new element are covered by it.
      for (let p = at; p < elements; p++) if (mark[list[p]!] !== column) list[at++] = list[p]!;
      const plain = at - begin[node]!;
      let degree = plain + width - 1;
      for (let p = elements; p < listEnd; p++) {
        const element = list[p]!;
        // An element within the new one says nothing more.
        if (absorbed[element] !== 0 || outside[element] === 0) continue;
        degree += outside[element]!;
        list[at++] = element;
      }
      list[at++] = column;
      neighbourCount[node] = plain;
      elementCount[node] = at - begin[node]! - plain;
      degree = Math.min(degree, left - 1, buckets.degree[node]! + width - 1);
      if (last[node] === 0) buckets.move(node, degree);
    }
  }
  return { order, start, members: members.subarray(0, start[order.length]) };
}

/** Nodes by degree: doubly linked lists, one a degree. */
class Buckets {
  readonly degree: Int32Array;
  /** How many nodes there are to take. */
  readonly size: number;
  readonly #first: Int32Array;
  readonly #after: Int32Array;
  readonly #before: Int32Array;
  #least = 0;

  /** Takes in all nodes but the `last` ones. */
  constructor(degrees: Int32Array, last: Uint8Array) {
    const nodeCount = degrees.length;
    this.degree = degrees.slice();
    this.#first = new Int32Array(degrees.reduce((most, degree) => Math.max(most, degree), nodeCount) + 1).fill(NONE);
    this.#after = new Int32Array(nodeCount);
    this.#before = new Int32Array(nodeCount);
    let size = 0;
    for (let node = nodeCount - 1; node >= 0; node--) {
      if (last[node] !== 0) continue;
      this.#enter(node);
      size++;
    }
    this.size = size;
  }

  takeLeast(): number {
    while (this.#first[this.#least] === NONE) this.#least++;
    const node = this.#first[this.#least]!;
    this.#leave(node);
    return node;
  }

  move(node: number, degree: number): void {
    this.#leave(node);
    this.degree[node] = degree;
    this.#enter(node);
  }

  #enter(node: number): void {
    const degree = this.degree[node]!;
    const first = this.#first[degree]!;
    this.#after[node] = first;
    this.#before[node] = NONE;
    if (first !== NONE) this.#before[first] = node;
    this.#first[degree] = node;
    if (degree < this.#least) this.#least = degree;
  }

  #leave(node: number): void {
    const before = this.#before[node]!;
    const after = this.#after[node]!;
    if (before === NONE) this.#first[this.degree[node]!] = after;
    else this.#after[before] = after;
    if (after !== NONE) this.#before[after] = before;
  }
}
