import { grown } from './grown.js';

const NONE = -1;

/**
 * A graph whose nodes are eliminated by least degree: each eliminated node's neighbours become joined with each other.
 *
 * Half-edges are kept in one linked list a node; a list may name eliminated nodes, which are dropped in passing.
 */
export class LeastDegree {
  edgeCount: number;

  readonly #last: Uint8Array;
  readonly #gone: Uint8Array;
  /** First half-edge of a node, NONE at the end; next half-edge, other end and edge number of a half-edge. */
  readonly #head: Int32Array;
  #next: Int32Array = new Int32Array(64);
  #other: Int32Array = new Int32Array(64);
  #edge: Int32Array = new Int32Array(64);
  #halves = 0;
  readonly #degree: Int32Array;
  /** Nodes of one degree are a doubly linked list: first of a degree; next and previous of a node. */
  #bucket: Int32Array = new Int32Array(0);
  readonly #after: Int32Array;
  readonly #before: Int32Array;
  #least = 0;
  /** Last node of whose neighbours this was one; edges are never taken away between nodes that are left, so it stays true. */
  readonly #mark: Int32Array;

  /** `last` marks the nodes that are not to be eliminated; new edges are numbered from `edgeCount`. */
  constructor(last: Uint8Array, edgeCount: number) {
    const nodeCount = last.length;
    this.edgeCount = edgeCount;
    this.#last = last;
    this.#gone = new Uint8Array(nodeCount);
    this.#head = new Int32Array(nodeCount).fill(NONE);
    this.#degree = new Int32Array(nodeCount);
    this.#after = new Int32Array(nodeCount);
    this.#before = new Int32Array(nodeCount);
    this.#mark = new Int32Array(nodeCount).fill(NONE);
  }

  /** Adds an edge between two nodes. */
  add(a: number, b: number, edge: number): void {
    this.#addHalf(a, b, edge);
    this.#addHalf(b, a, edge);
  }

  /** Keeps one of every set of parallel edges, the one of the least number; returns the others. */
  mergeParallel(): number[] {
    const kept = new Int32Array(this.#head.length);
    const merged = new Set<number>();
    const walk = (visit: (node: number, h: number, previous: number) => number) => {
      for (let node = 0; node < this.#head.length; node++) {
        let previous = NONE;
        for (let h = this.#head[node]!; h !== NONE; h = this.#next[h]!) previous = visit(node, h, previous);
      }
    };
    walk((node, h) => {
      const other = this.#other[h]!;
      const edge = this.#edge[h]!;
      if (this.#mark[other] === node) {
        merged.add(Math.max(edge, kept[other]!));
        kept[other] = Math.min(edge, kept[other]!);
      } else {
        this.#mark[other] = node;
        kept[other] = edge;
      }
      return h;
    });
    this.#mark.fill(NONE);
    if (merged.size > 0) {
      walk((node, h, previous) => {
        if (!merged.has(this.#edge[h]!)) return h;
        this.#unlink(node, previous, h);
        this.#degree[node]!--;
        return previous;
      });
    }
    return [...merged];
  }

  /** Eliminates all nodes but the last ones; `visit` gets each with its neighbours and the edges to them, in arrays to be copied. */
  run(visit: (node: number, neighbours: Int32Array, edges: Int32Array, width: number) => void): void {
    const nodeCount = this.#head.length;
    this.#bucket = new Int32Array(nodeCount + 1).fill(NONE);
    let left = 0;
    for (let node = nodeCount - 1; node >= 0; node--) {
      if (this.#last[node] !== 0) continue;
      this.#enter(node);
      left++;
    }
    const neighbours = new Int32Array(nodeCount);
    const edges = new Int32Array(nodeCount);
    let complete = false;
    let alive = nodeCount;
    for (; left > 0; left--) {
      while (this.#bucket[this.#least] === NONE) this.#least++;
      const node = this.#bucket[this.#least]!;
      this.#leave(node);
      this.#gone[node] = 1;
      alive--;
      let width = 0;
      for (let h = this.#head[node]!; h !== NONE; h = this.#next[h]!) {
        if (this.#gone[this.#other[h]!] !== 0) continue;
        neighbours[width] = this.#other[h]!;
        edges[width++] = this.#edge[h]!;
      }
      visit(node, neighbours, edges, width);
      // Once the least degree is that of a complete graph there is nothing left to join, and any order will do.
      complete ||= width === alive;
      if (complete) continue;
      for (let i = 0; i < width; i++) this.#join(neighbours[i]!, neighbours, width);
    }
  }

  /** Joins `node` with those of its fellow neighbours that it is not joined with. */
  #join(node: number, neighbours: Int32Array, width: number): void {
    let previous = NONE;
    for (let h = this.#head[node]!; h !== NONE; h = this.#next[h]!) {
      const other = this.#other[h]!;
      if (this.#gone[other] !== 0) {
        this.#unlink(node, previous, h);
        continue;
      }
      this.#mark[other] = node;
      previous = h;
    }
    if (this.#last[node] === 0) this.#leave(node);
    this.#degree[node]!--;
    for (let i = 0; i < width; i++) {
      const other = neighbours[i]!;
      if (other === node || this.#mark[other] === node) continue;
      // Both ends find the pair unjoined until one of them has had its turn.
      if (this.#last[other] === 0) this.#leave(other);
      this.add(node, other, this.edgeCount++);
      if (this.#last[other] === 0) this.#enter(other);
    }
    if (this.#last[node] === 0) this.#enter(node);
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

  #enter(node: number): void {
    const degree = this.#degree[node]!;
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
}
