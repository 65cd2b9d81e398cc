import { type PlanInput, parsePlan } from '@postvolt/core';
import { fenceDrawing } from '@postvolt/report';
import { describe, expect, test } from 'vitest';
import { distance, type Path, pathThrough, pieceOf, pointAt } from '../../packages/report/src/geo/point.js';
import { demoFarm, everything, placed, straight, straightInput } from './plans.js';

const sizeOf = ({ points }: Path) => points.slice(1).reduce((sum, point, i) => sum + distance(points[i]!, point), 0);

const drawingOf = (more: Partial<PlanInput>) => fenceDrawing(parsePlan(straightInput('600 m', more)));

describe('a schematic', () => {
  test('draws a straight fence straight, with the energizer at the left', () => {
    const { kind, runs, junctions } = fenceDrawing(straight.plan);
    expect(kind).toBe('schematic');
    const path = runs.get('fence')!;
    const [home, end] = [junctions.get('home')!, junctions.get('end')!];
    expect(home.x).toBeLessThan(end.x);
    // As long as the straight line between its ends, to a part in a thousand.
    expect(sizeOf(path) / distance(home, end)).toBeLessThan(1.001);
  });

  test('draws a loop round: its middle about as far from all of it', () => {
    const { runs } = drawingOf({
      junctions: ['home', 'end'],
      runs: {
        there: { from: 'home', to: 'end', length: '700 m', build: 'plain' },
        back: { from: 'end', to: 'home', length: '500 m', build: 'plain' },
      },
    });
    const points = [...runs.values()].flatMap((path) => Array.from({ length: 50 }, (_, i) => pointAt(path, i / 50)));
    const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    const middle = { x: mean(points.map(({ x }) => x)), y: mean(points.map(({ y }) => y)) };
    const radii = points.map((point) => distance(point, middle));
    expect(Math.max(...radii) / Math.min(...radii)).toBeLessThan(1.35);
  });

  test('keeps two runs between the same junctions apart, and opens a run that returns to its start', () => {
    const { runs } = fenceDrawing(everything.plan);
    const ring = runs.get('paddock')!;
    expect(distance(pointAt(ring, 0.25), pointAt(ring, 0.75))).toBeGreaterThan(0.15 * sizeOf(ring));
  });

  test('gives long runs long lines, and crosses none on the demo farm', () => {
    const { runs } = fenceDrawing(demoFarm.plan);
    const scales = demoFarm.plan.runs
      .filter(({ lengthM }) => lengthM > 500)
      .map((run) => sizeOf(runs.get(run.id)!) / run.lengthM);
    expect(Math.max(...scales) / Math.min(...scales)).toBeLessThan(1.6);
    const segments = [...runs].flatMap(([id, { points }]) => points.slice(1).map((b, i) => ({ id, a: points[i]!, b })));
    type At = { x: number; y: number };
    const side = (p: At, q: At, r: At) => (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
    const crossings = segments.flatMap((s, i) =>
      segments
        .slice(0, i)
        .filter((t) => s.id !== t.id)
        .filter(
          (t) =>
            side(s.a, s.b, t.a) * side(s.a, s.b, t.b) < -1e-12 && side(t.a, t.b, s.a) * side(t.a, t.b, s.b) < -1e-12,
        ),
    );
    expect(crossings).toEqual([]);
  });

  test('is the same every time, and faces north where names say where that is', () => {
    expect(fenceDrawing(demoFarm.plan)).toEqual(fenceDrawing(demoFarm.plan));
    const { junctions } = fenceDrawing(demoFarm.plan);
    expect(junctions.get('nw')!.y).toBeLessThan(junctions.get('home')!.y);
    expect(junctions.get('se')!.x).toBeGreaterThan(junctions.get('nw')!.x);
  });
});

describe('a drawing from coordinates', () => {
  test('is true to scale, north up', () => {
    const { kind, runs, junctions } = fenceDrawing(placed.plan);
    expect(kind).toBe('placed');
    // A plane that touches the ellipsoid is true to far better than a part in a thousand over a farm.
    for (const run of placed.plan.runs)
      expect(Math.abs(sizeOf(runs.get(run.id)!) / run.lengthM - 1)).toBeLessThan(1e-4);
    expect(junctions.get('bend')!.y).toBeLessThan(junctions.get('shed')!.y);
    expect(junctions.get('bend')!.x).toBeGreaterThan(junctions.get('shed')!.x);
    expect(junctions.get('spring')).toEqual(junctions.get('far'));
  });
});

describe('a path', () => {
  const path = pathThrough([
    { x: 0, y: 0 },
    { x: 4, y: 0 },
    { x: 4, y: 4 },
  ]);

  test('gives places, headings and pieces by fractions of its length', () => {
    expect(pointAt(path, 0)).toEqual({ x: 0, y: 0, degrees: 0 });
    expect(pointAt(path, 0.5)).toMatchObject({ x: 4, y: 0 });
    expect(pointAt(path, 0.75)).toEqual({ x: 4, y: 2, degrees: 90 });
    expect(pointAt(path, 1)).toMatchObject({ x: 4, y: 4 });
    expect(pieceOf(path, 0.125, 0.75).map(({ x, y }) => [x, y])).toEqual([
      [1, 0],
      [4, 0],
      [4, 2],
    ]);
  });
});
