import geodesic from 'geographiclib-geodesic';
import { geodesicM, type LonLat } from './geodesic.js';
import type { ResolvedPlan, ResolvedRun } from './resolved.js';

/** The line of a run: its own, or the straight one between its junctions where both have a place; null where there is none. */
export function lonLatLine(plan: ResolvedPlan, run: ResolvedRun): readonly LonLat[] | null {
  if (run.line !== null) return run.line;
  const at = (id: string) => plan.junctions.find((junction) => junction.id === id)?.at ?? null;
  const [from, to] = [at(run.from), at(run.to)];
  return from === null || to === null ? null : [from, to];
}

/**
 * Places at fractions of a line's length, 0 at its start and 1 at its end, along geodesics of the WGS84 ellipsoid
 * (C. F. F. Karney, Algorithms for geodesics, J. Geod. 87, 2013). The fractions come in rising order.
 */
export function pointsAlong(line: readonly LonLat[], fractions: readonly number[]): LonLat[] {
  const { Geodesic } = geodesic;
  const lengths = line.slice(1).map((end, i) => geodesicM(line[i]!, end));
  const total = lengths.reduce((sum, length) => sum + length, 0);
  let [i, before] = [0, 0];
  let stretch: ReturnType<typeof Geodesic.WGS84.InverseLine> | null = null;
  return fractions.map((fraction) => {
    const place = fraction * total;
    while (i < lengths.length - 1 && place > before + lengths[i]!) {
      before += lengths[i]!;
      i++;
      stretch = null;
    }
    const [[lon1, lat1], [lon2, lat2]] = [line[i]!, line[i + 1]!];
    if (fraction <= 0) return line[0]!;
    if (fraction >= 1) return line.at(-1)!;
    stretch ??= Geodesic.WGS84.InverseLine(lat1, lon1, lat2, lon2);
    const { lon2: longitude, lat2: latitude } = stretch.Position(place - before);
    return [longitude!, latitude!];
  });
}
