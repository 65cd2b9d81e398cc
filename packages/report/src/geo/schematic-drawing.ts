import type { ResolvedPlan } from '@postvolt/core';
import type { FenceDrawing } from './drawing.js';
import { type Path, type Point, pathThrough } from './point.js';
import { shortestWays, type Way } from './shortest-ways.js';
import { stressLayout } from './stress-layout.js';

/** About so many bends are shared out over the runs by length. */
const bends = 56;

/** Runs and junctions of a plan without coordinates, laid out so that lengths are roughly true and few runs cross. */
export function schematicDrawing(plan: ResolvedPlan): FenceDrawing {
  // The energizer's junction first: the layout puts the first place at the left.
  const ids = [
    plan.energizer.junction,
    ...plan.junctions.map(({ id }) => id).filter((id) => id !== plan.energizer.junction),
  ];
  const numberOf = new Map(ids.map((id, i) => [id, i]));
  const total = plan.runs.reduce((sum, { lengthM }) => sum + lengthM, 0);
  const ways: Way[] = [];
  let count = ids.length;
  const chains = plan.runs.map(({ from, to, lengthM }) => {
    // Short runs are drawn longer than they are, so that they can be seen.
    const drawn = Math.max(lengthM / total, 0.015);
    const least = from === to ? 3 : 1;
    const inner = Math.max(least, Math.min(12, Math.round((bends * lengthM) / total) - 1));
    const chain = [numberOf.get(from)!, ...Array.from({ length: inner }, () => count++), numberOf.get(to)!];
    for (let i = 1; i < chain.length; i++) ways.push({ a: chain[i - 1]!, b: chain[i]!, length: drawn / (inner + 1) });
    return chain;
  });
  for (const { from, to } of plan.links) ways.push({ a: numberOf.get(from)!, b: numberOf.get(to)!, length: 0.03 });
  const places = stressLayout(shortestWays(count, ways), ways);
  const runs = new Map<string, Path>(
    plan.runs.map(({ id }, r) => [id, pathThrough(smooth(chains[r]!.map((place) => places[place]!)))]),
  );
  return { kind: 'schematic', runs, junctions: new Map(ids.map((id, i) => [id, places[i]!])) };
}

/** A curve through points (Catmull and Rom), sampled at a few places between each two. */
function smooth(points: readonly Point[]): Point[] {
  if (points.length < 3) return [...points];
  const samples = 4;
  const at = (i: number) => points[Math.max(0, Math.min(points.length - 1, i))]!;
  const blend = (a: number, b: number, c: number, d: number, t: number) =>
    0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t * t + (3 * b - a - 3 * c + d) * t ** 3);
  const curve = points.slice(1).flatMap((_, i) =>
    Array.from({ length: samples }, (_, k) => {
      const [p, q, r, s] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
      const t = k / samples;
      return { x: blend(p.x, q.x, r.x, s.x, t), y: blend(p.y, q.y, r.y, s.y, t) };
    }),
  );
  return [...curve, points.at(-1)!];
}
