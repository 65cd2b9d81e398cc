/** A place in a drawing: x to the right (east), y down (south). */
export interface Point {
  readonly x: number;
  readonly y: number;
}

export const distance = (a: Point, b: Point): number => Math.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2);

/** A line of points with the fraction of its length at which each stands, from 0 to 1. */
export interface Path {
  readonly points: readonly Point[];
  readonly along: readonly number[];
}

/** A path through points; each stretch counts by its length, or by `lengths` where they are known better. */
export function pathThrough(points: readonly Point[], lengths?: readonly number[]): Path {
  const steps = lengths ?? points.slice(1).map((point, i) => distance(points[i]!, point));
  const total = steps.reduce((sum, step) => sum + step, 0);
  const along = [0];
  let sum = 0;
  for (const step of steps) {
    sum += step;
    along.push(total > 0 ? sum / total : 1);
  }
  along[along.length - 1] = 1;
  return { points, along };
}

/** Index of the stretch of a path that holds a fraction of it. */
function stretchAt({ along }: Path, fraction: number): number {
  let i = 1;
  while (i < along.length - 1 && along[i]! < fraction) i++;
  return i;
}

/** Place at a fraction of a path, and its heading in degrees, clockwise from the right. */
export function pointAt(path: Path, fraction: number): Point & { readonly degrees: number } {
  const i = stretchAt(path, fraction);
  const [a, b] = [path.points[i - 1]!, path.points[i]!];
  const [from, to] = [path.along[i - 1]!, path.along[i]!];
  const t = to > from ? Math.max(0, Math.min(1, (fraction - from) / (to - from))) : 0;
  const degrees = (Math.atan2(b.y - a.y, b.x - a.x) * 180) / Math.PI;
  return { x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t, degrees };
}

/** The piece of a path between two fractions. */
export function pieceOf(path: Path, from: number, to: number): Point[] {
  const inner = path.points.filter((_, i) => path.along[i]! > from && path.along[i]! < to);
  return [pointAt(path, from), ...inner, pointAt(path, to)];
}
