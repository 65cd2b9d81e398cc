import type { Point } from './point.js';
import type { Way } from './shortest-ways.js';

/**
 * Places points in a plane so that they stand as far apart as they should: stress majorization with weights of one over
 * the square of the distance, one point at a time (E. Gansner, Y. Koren, S. North, Graph Drawing by Stress Majorization,
 * 2004). Of several starts the layout with the fewest crossings is kept, then the one with the least stress.
 * `distances` holds the wanted distances row by row, `ways` the lines that will be drawn. The same input gives the same layout.
 */
export function stressLayout(distances: Float64Array, ways: readonly Way[]): Point[] {
  const count = Math.round(Math.sqrt(distances.length));
  let best: { points: Point[]; crossings: number; stress: number } | null = null;
  const random = randomNumbers(20);
  const size = distances.reduce((most, value) => Math.max(most, value), 0);
  for (let start = 0; start < 4; start++) {
    const [x, y] = [new Float64Array(count), new Float64Array(count)];
    if (start === 0) scaleClassically(distances, x, y);
    else for (let i = 0; i < count; i++) [x[i], y[i]] = [random() * size, random() * size];
    const stress = majorize(distances, x, y);
    const points = Array.from(x, (at, i) => ({ x: at, y: y[i]! }));
    const crossings = countCrossings(points, ways);
    if (best === null || crossings < best.crossings || (crossings === best.crossings && stress < best.stress * 0.999))
      best = { points, crossings, stress };
  }
  return levelled(best!.points);
}

/** A start without folds: classical scaling (W. S. Torgerson, 1952), which lays a straight fence out straight at once. */
function scaleClassically(distances: Float64Array, x: Float64Array, y: Float64Array): void {
  const count = x.length;
  const square = distances.map((value) => value * value);
  const rowMeans = Float64Array.from({ length: count }, (_, i) => mean(square.subarray(i * count, (i + 1) * count)));
  const all = mean(rowMeans);
  const centred = square.map((value, k) => (rowMeans[Math.floor(k / count)]! + rowMeans[k % count]! - value - all) / 2);
  leadingAxis(centred, x, null);
  leadingAxis(centred, y, x);
  // A hair of difference keeps points that have no second direction from standing still on one line.
  for (let i = 0; i < count; i++) y[i] = y[i]! + ((i % 7) - 3) * 1e-6;
}

/** Coordinates along the matrix's largest axis, at right angles to one that is known, by the power method. */
function leadingAxis(matrix: Float64Array, axis: Float64Array, known: Float64Array | null): void {
  const count = axis.length;
  const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, i) => sum + value * b[i]!, 0);
  const knownSize = known === null ? 0 : dot(known, known);
  for (let i = 0; i < count; i++) axis[i] = 1 + ((i * 37) % 11) / 11;
  let size = 0;
  for (let round = 0; round < 60; round++) {
    const next = Float64Array.from({ length: count }, (_, i) => dot(matrix.subarray(i * count, (i + 1) * count), axis));
    if (known !== null && knownSize > 0) {
      const shared = dot(next, known) / knownSize;
      for (let i = 0; i < count; i++) next[i] = next[i]! - shared * known[i]!;
    }
    size = Math.sqrt(dot(next, next));
    if (size < 1e-12) return void axis.fill(0);
    for (let i = 0; i < count; i++) axis[i] = next[i]! / size;
  }
  for (let i = 0; i < count; i++) axis[i] = axis[i]! * Math.sqrt(size);
}

/** Moves every point in turn to where its distances want it, until little moves; returns the stress left. */
function majorize(distances: Float64Array, x: Float64Array, y: Float64Array): number {
  const count = x.length;
  const rounds = count > 300 ? 60 : 240;
  for (let round = 0; round < rounds; round++) {
    let moved = 0;
    for (let i = 0; i < count; i++) {
      let [sumX, sumY, sumW] = [0, 0, 0];
      for (let j = 0; j < count; j++) {
        const want = distances[i * count + j]!;
        if (i === j || want === 0) continue;
        const [dx, dy] = [x[i]! - x[j]!, y[i]! - y[j]!];
        const pull = want / Math.max(Math.sqrt(dx * dx + dy * dy), 1e-9);
        const weight = 1 / (want * want);
        sumX += weight * (x[j]! + dx * pull);
        sumY += weight * (y[j]! + dy * pull);
        sumW += weight;
      }
      if (sumW === 0) continue;
      moved = Math.max(moved, Math.abs(sumX / sumW - x[i]!), Math.abs(sumY / sumW - y[i]!));
      x[i] = sumX / sumW;
      y[i] = sumY / sumW;
    }
    if (moved < 1e-4) break;
  }
  let stress = 0;
  for (let i = 0; i < count; i++) {
    for (let j = 0; j < i; j++) {
      const want = distances[i * count + j]!;
      if (want === 0) continue;
      stress += (Math.sqrt((x[i]! - x[j]!) ** 2 + (y[i]! - y[j]!) ** 2) / want - 1) ** 2;
    }
  }
  return stress;
}

function countCrossings(points: readonly Point[], ways: readonly Way[]): number {
  if (ways.length > 600) return 0;
  const side = (p: Point, q: Point, r: Point) => Math.sign((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x));
  let crossings = 0;
  ways.forEach(({ a, b }, i) => {
    for (const { a: c, b: d } of ways.slice(0, i)) {
      if (a === c || a === d || b === c || b === d) continue;
      const [p, q, r, s] = [points[a]!, points[b]!, points[c]!, points[d]!];
      if (side(p, q, r) * side(p, q, s) < 0 && side(r, s, p) * side(r, s, q) < 0) crossings++;
    }
  });
  return crossings;
}

const mean = (values: ArrayLike<number>): number =>
  Array.from(values).reduce((sum, value) => sum + value, 0) / values.length;

/** Turned so that the drawing is as long as can be from left to right. */
function levelled(points: readonly Point[]): Point[] {
  const [x0, y0] = [mean(points.map(({ x }) => x)), mean(points.map(({ y }) => y))];
  const [xx, yy, xy] = [
    mean(points.map(({ x }) => (x - x0) ** 2)),
    mean(points.map(({ y }) => (y - y0) ** 2)),
    mean(points.map(({ x, y }) => (x - x0) * (y - y0))),
  ];
  const angle = 0.5 * Math.atan2(2 * xy, xx - yy);
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const turned = points.map(({ x, y }) => ({ x: (x - x0) * cos + (y - y0) * sin, y: (y - y0) * cos - (x - x0) * sin }));
  // The first place, where the energizer stands, at the left.
  const flip = turned[0]!.x > 0 ? -1 : 1;
  return turned.map(({ x, y }) => ({ x: x * flip, y: y * flip }));
}

/** Numbers from 0 to 1 that are the same every time (a linear congruence of Knuth's). */
function randomNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1664525 + 1013904223) % 2 ** 32;
    return state / 2 ** 32;
  };
}
