import type { ResolvedPlan } from '@postvolt/core';
import { facingNorth } from './compass.js';
import type { FenceDrawing } from './drawing.js';
import { placedDrawing } from './placed-drawing.js';
import type { Point } from './point.js';
import { schematicDrawing } from './schematic-drawing.js';

/** The fence as it lies where the plan has coordinates for every run, else a schematic of its runs and junctions. */
export const fenceDrawing = (plan: ResolvedPlan): FenceDrawing =>
  placedDrawing(plan) ?? facingNorth(schematicDrawing(plan));

/** Turns, scales and moves a drawing into a box of at most `width` by `height`; returns it with its own size. */
export function fitDrawing(
  drawing: FenceDrawing,
  width: number,
  height: number,
): FenceDrawing & { readonly width: number; readonly height: number; readonly scale: number } {
  const points = [...drawing.runs.values()].flatMap((path) => path.points).concat([...drawing.junctions.values()]);
  // A made-up drawing has no north: it is turned by a quarter where it fits better so.
  const turns = drawing.kind === 'schematic' ? [false, true] : [false];
  const fits = turns.map((turn) => {
    const turned = points.map((point) => turnBy(point, turn));
    const [left, right] = [Math.min(...turned.map(({ x }) => x)), Math.max(...turned.map(({ x }) => x))];
    const [top, bottom] = [Math.min(...turned.map(({ y }) => y)), Math.max(...turned.map(({ y }) => y))];
    const scale = Math.min(width / Math.max(right - left, 1e-9), height / Math.max(bottom - top, 1e-9));
    return { turn, left, top, scale, wide: (right - left) * scale, tall: (bottom - top) * scale };
  });
  const fit = fits.reduce((a, b) => (b.scale > a.scale * 1.05 ? b : a));
  const move = (point: Point): Point => {
    const { x, y } = turnBy(point, fit.turn);
    return { x: (x - fit.left) * fit.scale + (width - fit.wide) / 2, y: (y - fit.top) * fit.scale };
  };
  return {
    kind: drawing.kind,
    runs: new Map([...drawing.runs].map(([id, path]) => [id, { ...path, points: path.points.map(move) }])),
    junctions: new Map([...drawing.junctions].map(([id, point]) => [id, move(point)])),
    width,
    height: fit.tall,
    scale: fit.scale,
  };
}

const turnBy = ({ x, y }: Point, turn: boolean): Point => (turn ? { x: -y, y: x } : { x, y });
