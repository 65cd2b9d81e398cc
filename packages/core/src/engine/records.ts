import type { Graph } from './graph.js';
import { EARTH } from './network.js';

// A node's record: seven numbers in the room of eight, so that a step touches one line of memory a node.
// [0] how many edges are left, plus HUB, KEPT or GONE; [1..6] up to three neighbours, each followed by its edge.
/** Power of two: node n's record begins at n << RECORD. */
export const RECORD = 3;
/** The most neighbours that are listed. */
const LISTED = 3;
/** More neighbours than fit: only the exclusive-or of their numbers at [1] and of the edges' at [2], until one is left. */
const HUB = 1 << 28;
/** A hub that is kept to the end. */
const KEPT = 1 << 29;
/** Eliminated. */
export const GONE = 1 << 30;

/** The records of a graph's nodes; edges parallel to another one, or between kept nodes, are appended to `unplaced` instead. */
export function recordsOf({ nodeCount, from, to, kept }: Graph, unplaced: number[]): Int32Array {
  const record = new Int32Array(nodeCount << RECORD);
  for (const node of kept) record[node << RECORD] = KEPT;
  for (let e = 0; e < from.length; e++) {
    const a = from[e]!;
    const b = to[e]!;
    if (b === EARTH) continue;
    const ra = a << RECORD;
    const rb = b << RECORD;
    const degreeA = record[ra]!;
    const degreeB = record[rb]!;
    // Mostly both lists have room, and that is all there is to ask.
    if (degreeA < LISTED && degreeB < LISTED) {
      record[ra] = degreeA + 1;
      record[ra + 1 + 2 * degreeA] = b;
      record[ra + 2 + 2 * degreeA] = e;
      record[rb] = degreeB + 1;
      record[rb + 1 + 2 * degreeB] = a;
      record[rb + 2 + 2 * degreeB] = e;
    } else enter(record, ra, rb, e, unplaced);
  }
  return record;
}

/** Adds an edge of which one end at least is full, a hub or kept; or finds that it has no place. */
function enter(record: Int32Array, ra: number, rb: number, edge: number, unplaced: number[]): void {
  // Parallel edges are looked for only where a list is full, and in `mergeParallel`: looking at every edge takes longer
  // than all else. Those between two hubs wait for the least-degree stage.
  if (
    (record[ra]! >= KEPT && record[rb]! >= KEPT) ||
    (record[ra] === LISTED && mergesFull(record, ra, rb >> RECORD, unplaced)) ||
    (record[rb] === LISTED && mergesFull(record, rb, ra >> RECORD, unplaced))
  ) {
    unplaced.push(edge);
    return;
  }
  add(record, ra, rb >> RECORD, edge);
  add(record, rb, ra >> RECORD, edge);
}

/** Whether a full list names the neighbour already; if not, what is parallel in the list itself is merged to make room. */
function mergesFull(record: Int32Array, r: number, neighbour: number, unplaced: number[]): boolean {
  if (names(record, r, neighbour)) return true;
  mergeListed(record, r, unplaced);
  return false;
}

/** Merges what is parallel in any list; false if nothing is. */
export function mergeParallel(record: Int32Array, unplaced: number[]): boolean {
  const before = unplaced.length;
  for (let r = 0; r < record.length; r += 1 << RECORD) {
    const degree = record[r]!;
    if (degree < 2 || degree > LISTED) continue;
    const first = record[r + 1];
    const second = record[r + 3];
    if (first === second || (degree === LISTED && (record[r + 5] === first || record[r + 5] === second)))
      mergeListed(record, r, unplaced);
  }
  return unplaced.length > before;
}

function mergeListed(record: Int32Array, r: number, unplaced: number[]): void {
  for (let i = r + 3; i < r + 1 + 2 * record[r]!; i += 2) {
    const neighbour = record[i]!;
    if (record[r + 1] !== neighbour && (i === r + 3 || record[r + 3] !== neighbour)) continue;
    const edge = record[i + 1]!;
    unplaced.push(edge);
    drop(record, r, neighbour, edge);
    drop(record, neighbour << RECORD, r >> RECORD, edge);
    i -= 2;
  }
}

/** Adds an edge to a record; a list that it does not fit in becomes a hub. */
function add(record: Int32Array, r: number, neighbour: number, edge: number): void {
  const degree = record[r]!;
  record[r] = degree + 1;
  if (degree < LISTED) {
    record[r + 1 + 2 * degree] = neighbour;
    record[r + 2 + 2 * degree] = edge;
    return;
  }
  if (degree === LISTED) {
    record[r] = HUB + degree + 1;
    record[r + 1] = record[r + 1]! ^ record[r + 3]! ^ record[r + 5]!;
    record[r + 2] = record[r + 2]! ^ record[r + 4]! ^ record[r + 6]!;
  }
  record[r + 1]! ^= neighbour;
  record[r + 2]! ^= edge;
}

/**
 * Takes an edge off a record: the last edge of the list moves into its place. When a hub has lost all edges but one, the
 * edge that is left is found at once, since a hub keeps the sum of its edges.
 */
export function drop(record: Int32Array, r: number, neighbour: number, edge: number): void {
  const degree = record[r]!;
  record[r] = degree === HUB + 2 ? 1 : degree - 1;
  if (degree > LISTED) {
    record[r + 1]! ^= neighbour;
    record[r + 2]! ^= edge;
  } else if (degree === 2) {
    record[r + 1]! ^= record[r + 3]! ^ neighbour;
    record[r + 2]! ^= record[r + 4]! ^ edge;
  } else {
    const i = placeOf(record, r, edge);
    record[i - 1] = record[r + 5]!;
    record[i] = record[r + 6]!;
  }
}

/** Puts another neighbour and edge in the place of one. */
export function replace(
  record: Int32Array,
  r: number,
  neighbour: number,
  edge: number,
  newNeighbour: number,
  newEdge: number,
): void {
  if (record[r]! > LISTED) {
    record[r + 1]! ^= neighbour ^ newNeighbour;
    record[r + 2]! ^= edge ^ newEdge;
  } else {
    const i = placeOf(record, r, edge);
    record[i - 1] = newNeighbour;
    record[i] = newEdge;
  }
}

/** Where a list holds an edge. */
function placeOf(record: Int32Array, r: number, edge: number): number {
  return record[r + 2] === edge ? r + 2 : record[r + 4] === edge ? r + 4 : r + 6;
}

/** Whether two nodes are joined, as far as a list of one of them says; of two hubs nothing is known. */
export function areJoined(record: Int32Array, ra: number, rb: number): boolean {
  if (record[ra]! <= LISTED) return names(record, ra, rb >> RECORD);
  return record[rb]! <= LISTED && names(record, rb, ra >> RECORD);
}

/** Whether a list names a neighbour. */
function names(record: Int32Array, r: number, neighbour: number): boolean {
  const degree = record[r]!;
  return (
    (degree > 0 && record[r + 1] === neighbour) ||
    (degree > 1 && record[r + 3] === neighbour) ||
    (degree > 2 && record[r + 5] === neighbour)
  );
}

/** How many edges a node still has, its hub or kept mark taken off. */
export function edgesLeft(record: Int32Array, r: number): number {
  return record[r]! & (HUB - 1);
}
