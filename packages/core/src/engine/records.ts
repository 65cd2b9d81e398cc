import type { Graph } from './graph.js';
import { EARTH } from './network.js';

// A node's record: eight numbers, so that a step touches one line of memory a node.
// [0] how many edges are left (of a kept node: four more); [1..6] up to three neighbours, each followed by its edge; [7] state.
export const RECORD = 8;
export const STATE = 7;
/** At most three neighbours, all of them listed and different. */
const LISTED = 0;
/** More neighbours than fit: only the exclusive-or of their numbers at [1] and of the edges' at [2], enough to know the last one. */
const HUB = 1;
/** A hub that is kept to the end. */
const KEPT = 2;
/** Eliminated. */
export const GONE = 3;

/** The records of a graph's nodes; edges parallel to another one, or between kept nodes, are appended to `unplaced` instead. */
export function recordsOf({ nodeCount, from, to, kept }: Graph, unplaced: number[]): Int32Array {
  const record = new Int32Array(RECORD * nodeCount);
  for (const node of kept) {
    record[RECORD * node] = 4;
    record[RECORD * node + STATE] = KEPT;
  }
  for (let e = 0; e < from.length; e++) {
    const a = from[e]!;
    const b = to[e]!;
    if (b === EARTH) continue;
    const ra = RECORD * a;
    const rb = RECORD * b;
    const degreeA = record[ra]!;
    const degreeB = record[rb]!;
    // Only listed records count less than three, and mostly that is all there is to ask.
    if (degreeA < 3 && degreeB < 3) {
      record[ra] = degreeA + 1;
      record[ra + 1 + 2 * degreeA] = b;
      record[ra + 2 + 2 * degreeA] = e;
      record[rb] = degreeB + 1;
      record[rb + 1 + 2 * degreeB] = a;
      record[rb + 2 + 2 * degreeB] = e;
    } else enter(record, ra, rb, e, unplaced);
  }
  for (let r = 0; r < record.length; r += RECORD) {
    if (record[r]! > 1 && record[r + STATE] === LISTED && hasParallel(record, r)) mergeListed(record, r, unplaced);
  }
  return record;
}

/** Adds an edge of which one end at least is full, a hub or kept; or finds that it has no place. */
function enter(record: Int32Array, ra: number, rb: number, edge: number, unplaced: number[]): void {
  const a = ra / RECORD;
  const b = rb / RECORD;
  // Parallel edges are looked for only where a list is full, and once at the end: looking at every edge takes longer than
  // all else. Those between two hubs wait for the least-degree stage.
  if (
    (record[ra + STATE] === KEPT && record[rb + STATE] === KEPT) ||
    (isFull(record, ra) && mergesFull(record, ra, b, unplaced)) ||
    (isFull(record, rb) && mergesFull(record, rb, a, unplaced))
  ) {
    unplaced.push(edge);
    return;
  }
  add(record, ra, b, edge);
  add(record, rb, a, edge);
}

function isFull(record: Int32Array, r: number): boolean {
  return record[r] === 3 && record[r + STATE] === LISTED;
}

/** Whether a full list names the neighbour already; if not, what is parallel in the list itself is merged to make room. */
function mergesFull(record: Int32Array, r: number, neighbour: number, unplaced: number[]): boolean {
  if (names(record, r, neighbour)) return true;
  mergeListed(record, r, unplaced);
  return false;
}

function hasParallel(record: Int32Array, r: number): boolean {
  const first = record[r + 1];
  const second = record[r + 3];
  return first === second || (record[r] === 3 && (record[r + 5] === first || record[r + 5] === second));
}

/** Merges what is parallel in a list. */
function mergeListed(record: Int32Array, r: number, unplaced: number[]): void {
  for (let i = r + 3; i < r + 1 + 2 * record[r]!; i += 2) {
    const neighbour = record[i]!;
    if (record[r + 1] !== neighbour && (i === r + 3 || record[r + 3] !== neighbour)) continue;
    const edge = record[i + 1]!;
    unplaced.push(edge);
    drop(record, r, neighbour, edge);
    drop(record, RECORD * neighbour, r / RECORD, edge);
    i -= 2;
  }
}

/** Adds an edge to a record; a list that it does not fit in becomes a hub. */
function add(record: Int32Array, r: number, neighbour: number, edge: number): void {
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

/** Takes an edge off a record; a list closes up, so that it stays in the order in which edges came. */
export function drop(record: Int32Array, r: number, neighbour: number, edge: number): void {
  const degree = record[r]! - 1;
  record[r] = degree;
  if (record[r + STATE] !== LISTED) {
    record[r + 1]! ^= neighbour;
    record[r + 2]! ^= edge;
    return;
  }
  let i = r + 2;
  while (record[i] !== edge) i += 2;
  for (const last = r + 2 + 2 * degree; i < last; i += 2) {
    record[i - 1] = record[i + 1]!;
    record[i] = record[i + 2]!;
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
  if (record[r + STATE] !== LISTED) {
    record[r + 1]! ^= neighbour ^ newNeighbour;
    record[r + 2]! ^= edge ^ newEdge;
    return;
  }
  let i = r + 2;
  while (record[i] !== edge) i += 2;
  record[i - 1] = newNeighbour;
  record[i] = newEdge;
}

/** Whether two nodes are joined, as far as a list of one of them says; of two hubs nothing is known. */
export function areJoined(record: Int32Array, ra: number, rb: number): boolean {
  if (record[ra + STATE] === LISTED) return names(record, ra, rb / RECORD);
  return record[rb + STATE] === LISTED && names(record, rb, ra / RECORD);
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

/** Whether a node can be eliminated now: it is not kept, and has at most `most` neighbours, all known. */
export function isReady(record: Int32Array, r: number, most: number): boolean {
  const state = record[r + STATE]!;
  return (state === LISTED && record[r]! <= most) || (state === HUB && record[r]! <= 1);
}
