import { grown } from './grown.js';
import { LeastDegree } from './least-degree.js';
import { EARTH } from './network.js';

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

// A node's record: eight numbers, so that a step touches one line of memory a node.
// [0] how many edges are left; [1..6] up to three neighbours, each followed by its edge; [7] state.
const RECORD = 8;
const STATE = 7;
/** At most three different neighbours, all listed. */
const LISTED = 0;
/** More neighbours than fit: only the exclusive-or of their numbers at [1] and of the edges' at [2], enough to know the last one. */
const HUB = 1;
/** A hub that is kept to the end. */
const KEPT = 2;
const GONE = 3;

/**
 * Orders a graph for elimination: leaves are stripped, chains walked from end to end, the rest taken by least degree.
 *
 * Linear time for a graph that is nearly a tree; no recursion.
 */
export function eliminate(graph: Graph): Elimination {
  return new Order(graph).run();
}

class Order {
  readonly #graph: Graph;
  readonly #record: Int32Array;
  readonly #order: Int32Array;
  readonly #start: Int32Array;
  #slotNode: Int32Array;
  #slotEdge: Int32Array;
  #count = 0;
  #slots = 0;
  /** Ends of the fill edges, two numbers each, in the order of their numbers. */
  #fillEnds: Int32Array = new Int32Array(64);
  #edgeCount: number;
  readonly #merged: number[] = [];

  constructor(graph: Graph) {
    const { nodeCount, from, to, kept } = graph;
    this.#graph = graph;
    this.#edgeCount = from.length;
    this.#record = new Int32Array(RECORD * nodeCount);
    this.#order = new Int32Array(nodeCount);
    this.#start = new Int32Array(nodeCount + 1);
    // Two slots a node hold whatever leaves and chains leave behind; the third costs nothing until it is written.
    this.#slotNode = new Int32Array(3 * nodeCount + 2);
    this.#slotEdge = new Int32Array(3 * nodeCount + 2);
    const record = this.#record;
    for (const node of kept) record[RECORD * node + STATE] = KEPT;
    for (let e = 0; e < from.length; e++) if (to[e] !== EARTH) this.#enter(from[e]!, to[e]!, e);
    for (let r = 0; r < record.length; r += RECORD) {
      if (record[r]! > 1 && record[r + STATE] === LISTED && hasParallel(record, r)) this.#mergeListed(r / RECORD);
    }
  }

  run(): Elimination {
    const { nodeCount, kept } = this.#graph;
    this.#strip(1);
    if (this.#count < nodeCount - kept.length) this.#strip(2);
    if (this.#count < nodeCount - kept.length) this.#stripRest();
    const order = this.#order;
    for (const node of kept) {
      order[this.#count++] = node;
      // Between two kept nodes there is always a slot.
      if (this.#count < nodeCount) {
        this.#slotNode[this.#slots] = kept[1]!;
        this.#slotEdge[this.#slots++] = this.#edgeCount;
      }
      this.#start[this.#count] = this.#slots;
    }
    return { order, start: this.#start, slotNode: this.#slotNode, slotEdge: this.#slotEdge, merged: this.#merged };
  }

  #enter(a: number, b: number, edge: number): void {
    const record = this.#record;
    const ra = RECORD * a;
    const rb = RECORD * b;
    if (record[ra + STATE] === KEPT && record[rb + STATE] === KEPT) {
      this.#merged.push(edge);
      return;
    }
    // Parallel edges are looked for only where a list is full, and once at the end: looking at every edge takes longer than all else.
    if (record[ra + STATE] === LISTED && record[ra] === 3 && this.#isParallel(ra, a, b, edge)) return;
    if (record[rb + STATE] === LISTED && record[rb] === 3 && this.#isParallel(rb, b, a, edge)) return;
    this.#add(ra, b, edge);
    this.#add(rb, a, edge);
  }

  /** Merges an edge that a full list names already; if there is none, makes room in the list if it has parallel edges itself. */
  #isParallel(r: number, node: number, neighbour: number, edge: number): boolean {
    if (this.#find(r, neighbour) !== 0) {
      this.#merged.push(edge);
      return true;
    }
    this.#mergeListed(node);
    return false;
  }

  /** Merges what is parallel in a node's list. */
  #mergeListed(node: number): void {
    const record = this.#record;
    const r = RECORD * node;
    for (let i = r + 3; i < r + 1 + 2 * record[r]!; i += 2) {
      const neighbour = record[i]!;
      if (record[i - 2] !== neighbour && (i === r + 3 || record[i - 4] !== neighbour)) continue;
      const edge = record[i + 1]!;
      this.#merged.push(edge);
      this.#drop(r, neighbour, edge);
      this.#drop(RECORD * neighbour, node, edge);
      i -= 2;
    }
  }

  /** Where a listed record names a neighbour; 0 if it does not. */
  #find(r: number, neighbour: number): number {
    const record = this.#record;
    const end = r + 2 * record[r]!;
    for (let i = r + 1; i < end; i += 2) if (record[i] === neighbour) return i;
    return 0;
  }

  #add(r: number, neighbour: number, edge: number): void {
    const record = this.#record;
    const degree = record[r]!;
    record[r] = degree + 1;
    if (record[r + STATE] === LISTED) {
      if (degree < 3) {
        record[r + 1 + 2 * degree] = neighbour;
        record[r + 2 + 2 * degree] = edge;
        return;
      }
      record[r + STATE] = HUB;
      record[r + 1] = record[r + 1]! ^ record[r + 3]! ^ record[r + 5]!;
      record[r + 2] = record[r + 2]! ^ record[r + 4]! ^ record[r + 6]!;
    }
    record[r + 1]! ^= neighbour;
    record[r + 2]! ^= edge;
  }

  /** Takes an edge off a record. */
  #drop(r: number, neighbour: number, edge: number): void {
    const record = this.#record;
    const degree = record[r]! - 1;
    record[r] = degree;
    if (record[r + STATE] !== LISTED) {
      record[r + 1]! ^= neighbour;
      record[r + 2]! ^= edge;
      return;
    }
    for (let i = r + 1; ; i += 2) {
      if (record[i + 1] !== edge) continue;
      // The rest moves up, so that the list stays in the order of its edges.
      for (const end = r + 1 + 2 * degree; i < end; i++) record[i] = record[i + 2]!;
      return;
    }
  }

  /** Puts another neighbour and edge in the place of one. */
  #replace(r: number, neighbour: number, edge: number, newNeighbour: number, newEdge: number): void {
    const record = this.#record;
    if (record[r + STATE] !== LISTED) {
      record[r + 1]! ^= neighbour ^ newNeighbour;
      record[r + 2]! ^= edge ^ newEdge;
      return;
    }
    const i = this.#find(r, neighbour);
    record[i] = newNeighbour;
    record[i + 1] = newEdge;
  }

  /** Whether a node can be eliminated now: at most `most` neighbours, and known. */
  #ready(node: number, most: number): boolean {
    const record = this.#record;
    const r = RECORD * node;
    const state = record[r + STATE]!;
    return record[r]! <= most && (state === LISTED || (state === HUB && record[r]! <= 1));
  }

  /** Eliminates every node of at most `most` neighbours, going on along the chain as long as there is one. */
  #strip(most: number): void {
    const { nodeCount } = this.#graph;
    for (let node = 0; node < nodeCount; node++) {
      let k = node;
      while (k >= 0 && this.#ready(k, most)) k = this.#eliminate(k);
    }
  }

  /** Eliminates a node of at most two neighbours; returns the one to go on with, −1 for none. */
  #eliminate(k: number): number {
    const record = this.#record;
    const r = RECORD * k;
    const degree = record[r]!;
    const s = this.#slots;
    record[r + STATE] = GONE;
    this.#order[this.#count++] = k;
    this.#slots = s + degree;
    this.#start[this.#count] = this.#slots;
    if (degree === 0) return -1;
    const a = record[r + 1]!;
    const edgeA = record[r + 2]!;
    const ra = RECORD * a;
    this.#slotNode[s] = a;
    this.#slotEdge[s] = edgeA;
    if (degree === 1) {
      this.#drop(ra, k, edgeA);
      return a;
    }
    const b = record[r + 3]!;
    const edgeB = record[r + 4]!;
    const rb = RECORD * b;
    this.#slotNode[s + 1] = b;
    this.#slotEdge[s + 1] = edgeB;
    const joined =
      (record[ra + STATE] === LISTED && this.#find(ra, b) !== 0) ||
      (record[rb + STATE] === LISTED && this.#find(rb, a) !== 0);
    if (joined) {
      this.#drop(ra, k, edgeA);
      this.#drop(rb, k, edgeB);
    } else {
      const edge = this.#edgeCount++;
      const f = 2 * (edge - this.#graph.from.length);
      if (f === this.#fillEnds.length) this.#fillEnds = grown(this.#fillEnds, 4 * f);
      this.#fillEnds[f] = a;
      this.#fillEnds[f + 1] = b;
      this.#replace(ra, k, edgeA, b, edge);
      this.#replace(rb, k, edgeB, a, edge);
    }
    // Along two strands the neighbour reached by fill is the one to take first: it was met first, and so rows stay in step.
    if (edgeB >= this.#graph.from.length && this.#ready(b, 2)) return b;
    return this.#ready(a, 2) ? a : b;
  }

  /** Hands what is left to the least-degree stage and takes its columns. */
  #stripRest(): void {
    const { nodeCount, from, to, kept } = this.#graph;
    const record = this.#record;
    const alive = (node: number) => record[RECORD * node + STATE] !== GONE;
    const local = new Int32Array(nodeCount).fill(-1);
    const nodes: number[] = [];
    for (let node = 0; node < nodeCount; node++) if (alive(node)) local[node] = nodes.push(node) - 1;
    const last = new Uint8Array(nodes.length);
    for (const node of kept) last[local[node]!] = 1;
    const rest = new LeastDegree(last, this.#edgeCount);
    const merged = new Set(this.#merged);
    for (let e = 0; e < from.length; e++) {
      const a = local[from[e]!]!;
      const b = to[e] === EARTH ? -1 : local[to[e]!]!;
      if (a >= 0 && b >= 0 && !(merged.size > 0 && merged.has(e))) rest.add(a, b, e);
    }
    const fillEnds = this.#fillEnds;
    for (let e = from.length, f = 0; e < this.#edgeCount; e++, f += 2) {
      const a = local[fillEnds[f]!]!;
      const b = local[fillEnds[f + 1]!]!;
      if (a >= 0 && b >= 0) rest.add(a, b, e);
    }
    for (const edge of rest.mergeParallel()) if (edge < from.length) this.#merged.push(edge);
    rest.run((node, neighbours, edges, width) => {
      if (this.#slots + width + 1 > this.#slotNode.length) {
        const length = 2 * (this.#slots + width);
        this.#slotNode = grown(this.#slotNode, length);
        this.#slotEdge = grown(this.#slotEdge, length);
      }
      this.#order[this.#count++] = nodes[node]!;
      for (let i = 0; i < width; i++) {
        this.#slotNode[this.#slots] = nodes[neighbours[i]!]!;
        this.#slotEdge[this.#slots++] = edges[i]!;
      }
      this.#start[this.#count] = this.#slots;
    });
    this.#edgeCount = rest.edgeCount;
  }
}

function hasParallel(record: Int32Array, r: number): boolean {
  const first = record[r + 1];
  const second = record[r + 3];
  return first === second || (record[r] === 3 && (record[r + 5] === first || record[r + 5] === second));
}
