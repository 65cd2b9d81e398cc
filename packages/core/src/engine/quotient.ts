import type { Graph } from './order.js';

const NONE = -1;

/**
 * The graph that is left while nodes are eliminated by least degree: each eliminated node's neighbours become joined
 * with each other.
 *
 * Half-edges are kept in one linked list a node; lists may hold eliminated nodes, which are dropped in passing.
 */
export class Quotient {
  slotNode: Int32Array = new Int32Array(0);
  slotEdge: Int32Array = new Int32Array(0);
  edgeCount: number;

  readonly #graph: Graph;
  readonly #gone: Uint8Array;
  /** First half-edge of a node, NONE at the end; next half-edge, other end and edge number of a half-edge. */
  readonly #head: Int32Array;
  #next: Int32Array;
  #other: Int32Array;
  #edge: Int32Array;
  #halves = 0;
  readonly #degree: Int32Array;
  /** Nodes of one degree are a doubly linked list: first of a degree; next and previous of a node. */
  #bucket: Int32Array;
  readonly #after: Int32Array;
  readonly #before: Int32Array;
  #least = 0;
  readonly #last: Uint8Array;
  readonly #mark: Int32Array;

  /** Takes over the nodes not `gone`; writes into `mergedEdge` where parallel edges become one. */
  constructor(graph: Graph, gone: Uint8Array, mergedEdge: Int32Array) {
    const { nodeCount, from, to, kept } = graph;
    this.#graph = graph;
    this.#gone = gone;
    this.edgeCount = from.length;
    this.#head = new Int32Array(nodeCount).fill(NONE);
    this.#degree = new Int32Array(nodeCount);
    this.#mark = new Int32Array(nodeCount).fill(NONE);
    let live = 0;
    for (let e = 0; e < from.length; e++) if (mergedEdge[e] === e && gone[from[e]!] === 0 && gone[to[e]!] === 0) live++;
    this.#next = new Int32Array(2 * live + 16);
    this.#other = new Int32Array(2 * live + 16);
    this.#edge = new Int32Array(2 * live + 16);
    // From the last edge to the first, so that a list runs in the order of the edges' numbers.
    for (let e = from.length - 1; e >= 0; e--) {
      if (mergedEdge[e] !== e || gone[from[e]!] !== 0 || gone[to[e]!] !== 0) continue;
      this.#addHalf(from[e]!, to[e]!, e);
      this.#addHalf(to[e]!, from[e]!, e);
    }
    this.#mergeParallel(mergedEdge);
    let most = 2;
    for (let node = 0; node < nodeCount; node++) most = Math.max(most, this.#degree[node]!);
    this.#bucket = new Int32Array(most + 1).fill(NONE);
    this.#after = new Int32Array(nodeCount);
    this.#before = new Int32Array(nodeCount);
    this.#last = new Uint8Array(nodeCount);
    for (const node of kept) this.#last[node] = 1;
    for (let node = nodeCount - 1; node >= 0; node--) if (gone[node] === 0 && this.#last[node] === 0) this.#enter(node);
  }

  /** Eliminates what is left, appending to `order`, `start`, `fillEdge` (from `count`) and to the slots (from `slots`). */
  run(
    order: Int32Array,
    start: Int32Array,
    fillEdge: Int32Array,
    count: number,
    slots: number,
    slotNode: Int32Array,
    slotEdge: Int32Array,
  ): void {
    const { nodeCount, kept } = this.#graph;
    this.slotNode = slotNode;
    this.slotEdge = slotEdge;
    const total = nodeCount - kept.length;
    let keptDone = 0;
    let node = NONE;
    while (count < nodeCount) {
      if (count < total) {
        if (node === NONE) node = this.#leastDegree();
        this.#leave(node);
      } else {
        node = kept[keptDone++]!;
      }
      this.#gone[node] = 1;
      order[count] = node;
      const first = slots;
      if (slots + this.#degree[node]! > this.slotNode.length) this.#growSlots(slots + this.#degree[node]!);
      for (let h = this.#head[node]!; h !== NONE; h = this.#next[h]!) {
        const other = this.#other[h]!;
        if (this.#gone[other] !== 0) continue;
        this.slotNode[slots] = other;
        this.slotEdge[slots++] = this.#edge[h]!;
      }
      const width = slots - first;
      if (width === 1) this.#changeDegree(this.slotNode[first]!, -1);
      else if (width === 2) fillEdge[count] = this.#joinTwo(node, this.slotNode[first]!, this.slotNode[first + 1]!);
      else if (width > 2) this.#joinAll(first, slots);
      start[++count] = slots;
      node = this.#walkOn(first, slots);
    }
  }

  /** The next node along a chain, so that a chain is eliminated from end to end; NONE where it ends. */
  #walkOn(first: number, end: number): number {
    if (end - first > 2) return NONE;
    for (let s = end - 1; s >= first; s--) {
      const node = this.slotNode[s]!;
      if (this.#degree[node]! <= 2 && this.#last[node] === 0) return node;
    }
    return NONE;
  }

  /** Joins the two neighbours of `node` and returns their edge; `node`'s own half-edges become the new ones. */
  #joinTwo(node: number, a: number, b: number): number {
    const [short, long] = this.#degree[a]! <= this.#degree[b]! ? [a, b] : [b, a];
    let toNode = NONE;
    let previous = NONE;
    for (let h = this.#head[short]!; h !== NONE; h = this.#next[h]!) {
      const other = this.#other[h]!;
      if (other === long) {
        this.#changeDegree(a, -1);
        this.#changeDegree(b, -1);
        return this.#edge[h]!;
      }
      if (other === node) toNode = h;
      else if (this.#gone[other] !== 0) {
        this.#unlink(short, previous, h);
        continue;
      }
      previous = h;
    }
    const edge = this.edgeCount++;
    this.#other[toNode] = long;
    this.#edge[toNode] = edge;
    // In the longer list the half-edge to `node` is left to be dropped later, and the new one taken from `node`'s own list.
    const spare = this.#head[node]!;
    this.#other[spare] = short;
    this.#edge[spare] = edge;
    this.#next[spare] = this.#head[long]!;
    this.#head[long] = spare;
    return edge;
  }

  /** Joins every pair among the nodes of slots `first` to `end` − 1. */
  #joinAll(first: number, end: number): void {
    for (let s = first; s < end; s++) {
      const a = this.slotNode[s]!;
      let previous = NONE;
      for (let h = this.#head[a]!; h !== NONE; h = this.#next[h]!) {
        const other = this.#other[h]!;
        if (this.#gone[other] !== 0) {
          this.#unlink(a, previous, h);
          continue;
        }
        this.#mark[other] = a;
        previous = h;
      }
      let change = -1;
      for (let t = first; t < end; t++) {
        const b = this.slotNode[t]!;
        if (t === s || this.#mark[b] === a) continue;
        // Both ends see the pair unjoined until the later end is reached; the earlier one adds both half-edges.
        const edge = this.edgeCount++;
        this.#addHalf(a, b, edge);
        this.#addHalf(b, a, edge);
        this.#degree[a]!--;
        this.#degree[b]!--;
        change++;
        this.#changeDegree(b, 1);
      }
      this.#changeDegree(a, change);
    }
  }

  #mergeParallel(mergedEdge: Int32Array): void {
    const edgeAt = new Int32Array(this.#graph.nodeCount);
    const merged: number[] = [];
    for (let node = 0; node < this.#graph.nodeCount; node++) {
      for (let h = this.#head[node]!; h !== NONE; h = this.#next[h]!) {
        const other = this.#other[h]!;
        const edge = this.#edge[h]!;
        if (this.#mark[other] !== node) {
          this.#mark[other] = node;
          edgeAt[other] = edge;
        } else if (mergedEdge[edge] === edge) {
          mergedEdge[edge] = edgeAt[other]!;
          merged.push(edge);
        }
      }
    }
    this.#mark.fill(NONE);
    for (const edge of merged) {
      for (const node of [this.#graph.from[edge]!, this.#graph.to[edge]!]) {
        let previous = NONE;
        for (let h = this.#head[node]!; h !== NONE; h = this.#next[h]!) {
          if (this.#edge[h] === edge) this.#unlink(node, previous, h);
          else previous = h;
        }
        this.#degree[node]!--;
      }
    }
  }

  #addHalf(node: number, other: number, edge: number): void {
    if (this.#halves === this.#next.length) {
      this.#next = grown(this.#next, 2 * this.#halves);
      this.#other = grown(this.#other, 2 * this.#halves);
      this.#edge = grown(this.#edge, 2 * this.#halves);
    }
    const h = this.#halves++;
    this.#other[h] = other;
    this.#edge[h] = edge;
    this.#next[h] = this.#head[node]!;
    this.#head[node] = h;
    this.#degree[node]!++;
  }

  #unlink(node: number, previous: number, h: number): void {
    if (previous === NONE) this.#head[node] = this.#next[h]!;
    else this.#next[previous] = this.#next[h]!;
  }

  #changeDegree(node: number, change: number): void {
    if (this.#last[node] !== 0) {
      this.#degree[node]! += change;
      return;
    }
    this.#leave(node);
    this.#degree[node]! += change;
    this.#enter(node);
  }

  #enter(node: number): void {
    const degree = this.#degree[node]!;
    if (degree >= this.#bucket.length) {
      const length = this.#bucket.length;
      this.#bucket = grown(this.#bucket, Math.max(2 * length, degree + 1));
      this.#bucket.fill(NONE, length);
    }
    const first = this.#bucket[degree]!;
    this.#after[node] = first;
    this.#before[node] = NONE;
    if (first !== NONE) this.#before[first] = node;
    this.#bucket[degree] = node;
    if (degree < this.#least) this.#least = degree;
  }

  #leave(node: number): void {
    const before = this.#before[node]!;
    const after = this.#after[node]!;
    if (before === NONE) this.#bucket[this.#degree[node]!] = after;
    else this.#after[before] = after;
    if (after !== NONE) this.#before[after] = before;
  }

  #leastDegree(): number {
    while (this.#bucket[this.#least] === NONE) this.#least++;
    return this.#bucket[this.#least]!;
  }

  #growSlots(needed: number): void {
    const length = Math.max(needed, 2 * this.slotNode.length);
    this.slotNode = grown(this.slotNode, length);
    this.slotEdge = grown(this.slotEdge, length);
  }
}

function grown(array: Int32Array, length: number): Int32Array {
  const larger = new Int32Array(length);
  larger.set(array);
  return larger;
}
