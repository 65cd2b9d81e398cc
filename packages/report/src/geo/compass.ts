import type { FenceDrawing } from './drawing.js';
import type { Point } from './point.js';

/** Where the words of the compass point on a page with north up. */
const directions: Readonly<Record<string, Point>> = {
  north: { x: 0, y: -1 },
  south: { x: 0, y: 1 },
  east: { x: 1, y: 0 },
  west: { x: -1, y: 0 },
  n: { x: 0, y: -1 },
  s: { x: 0, y: 1 },
  e: { x: 1, y: 0 },
  w: { x: -1, y: 0 },
  nw: { x: -1, y: -1 },
  ne: { x: 1, y: -1 },
  sw: { x: -1, y: 1 },
  se: { x: 1, y: 1 },
};

/**
 * A made-up drawing mirrored so that places whose names speak of north, south, east or west lie on those sides, as far as
 * that can be. Where no name speaks of them it stays as it is.
 */
export function facingNorth(drawing: FenceDrawing): FenceDrawing {
  const named = [
    ...[...drawing.junctions].map(([id, point]) => ({ id, point })),
    ...[...drawing.runs].map(([id, path]) => ({ id, point: path.points[Math.floor(path.points.length / 2)]! })),
  ];
  const pulls = named.flatMap(({ id, point }) =>
    (id.toLowerCase().match(/[a-z]+/g) ?? [])
      .filter((word) => Object.hasOwn(directions, word))
      .map((word) => ({ along: point.x * directions[word]!.x, across: point.y * directions[word]!.y })),
  );
  const x = pulls.reduce((sum, { along }) => sum + along, 0) < 0 ? -1 : 1;
  const y = pulls.reduce((sum, { across }) => sum + across, 0) < 0 ? -1 : 1;
  const turn = (point: Point): Point => ({ x: point.x * x, y: point.y * y });
  return {
    ...drawing,
    runs: new Map([...drawing.runs].map(([id, path]) => [id, { ...path, points: path.points.map(turn) }])),
    junctions: new Map([...drawing.junctions].map(([id, point]) => [id, turn(point)])),
  };
}
