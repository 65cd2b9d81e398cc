import { lineM, lonLatLine, type ResolvedPlan } from '@postvolt/core';
import type { FenceDrawing } from './drawing.js';
import { type Path, type Point, pathThrough } from './point.js';

/** Semi-major axis and squared eccentricity of the WGS 84 ellipsoid. */
const axisM = 6378137;
const eccentricity2 = 0.00669437999014;
const radians = Math.PI / 180;

/** The fence by its coordinates, or null where a run has none. Metres east and south of its middle. */
export function placedDrawing(plan: ResolvedPlan): FenceDrawing | null {
  const lines = plan.runs.map((run) => ({ run, line: lonLatLine(plan, run) }));
  if (lines.some(({ line }) => line === null)) return null;
  const project = projection(lines.flatMap(({ line }) => line!));
  const runs = new Map<string, Path>();
  const junctions = new Map<string, Point>();
  for (const { run, line } of lines) {
    const points = line!.map(project);
    const lengths = line!.slice(1).map((end, i) => lineM([line![i]!, end]));
    runs.set(run.id, pathThrough(points, lengths));
    junctions.set(run.from, points[0]!);
    junctions.set(run.to, points.at(-1)!);
  }
  for (const { id, at } of plan.junctions) if (at !== null) junctions.set(id, project(at));
  // One that hangs on a cable alone is drawn where the cable begins.
  for (const { from, to } of [...plan.links, ...plan.links].flatMap(({ from, to }) => [
    { from, to },
    { from: to, to: from },
  ])) {
    const place = junctions.get(from);
    if (place !== undefined && !junctions.has(to)) junctions.set(to, place);
  }
  return plan.junctions.every(({ id }) => junctions.has(id)) ? { kind: 'placed', runs, junctions } : null;
}

/**
 * Longitude and latitude to metres on a plane that touches the ellipsoid in the middle of the places, with its radii of
 * curvature there; true to a few centimetres over a farm.
 */
function projection(places: readonly (readonly [number, number])[]): (place: readonly [number, number]) => Point {
  // Longitudes are taken relative to the first, so that a fence across the 180th meridian stays in one piece.
  const first = places[0]![0];
  const turn = (longitude: number) => ((((longitude - first + 180) % 360) + 360) % 360) - 180;
  const middle = (values: number[]) => (Math.min(...values) + Math.max(...values)) / 2;
  const east0 = middle(places.map(([longitude]) => turn(longitude)));
  const north0 = middle(places.map(([, latitude]) => latitude));
  const shrink = 1 - eccentricity2 * Math.sin(north0 * radians) ** 2;
  const acrossM = (axisM / Math.sqrt(shrink)) * Math.cos(north0 * radians) * radians;
  const alongM = ((axisM * (1 - eccentricity2)) / shrink ** 1.5) * radians;
  return ([longitude, latitude]) => ({ x: (turn(longitude) - east0) * acrossM, y: (north0 - latitude) * alongM });
}
