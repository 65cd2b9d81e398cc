import {
  comparedVolts,
  type Issue,
  type LonLat,
  lonLatLine,
  lowestHot,
  type Outcome,
  type PlanResult,
  type PostResult,
  pointsAlong,
  type ResolvedPlan,
} from '@postvolt/core';
import { conditionOf } from '../data/condition-of.js';
import type { Feature, FenceGeoJson, PostProperties, RunProperties } from './geojson-types.js';
import { lineGeometry, position } from './positions.js';

const short = (value: number | null): number | null => (value === null ? null : Number(value.toPrecision(5)));

/**
 * The fence in one condition as GeoJSON (RFC 7946): runs as lines, posts as points along them by geodesics, each post with
 * its lowest hot strand. SI units. `condition` is an id; the condition with the least margin where it is left out.
 *
 * What has no coordinates comes without a geometry, with a warning that names the runs; where nothing has any, an issue
 * `no-coordinates` comes in place of the value. Throws a RangeError for a condition that the result does not have.
 */
export function toGeoJson(plan: ResolvedPlan, result: PlanResult, condition?: string): Outcome<FenceGeoJson> {
  const solved = conditionOf(result, condition);
  const lines = new Map(plan.runs.map((run) => [run.id, lonLatLine(plan, run)]));
  const lost = plan.runs.filter(({ id }) => lines.get(id) === null).map(({ id }) => id);
  if (lost.length === plan.runs.length) return { ok: false, issues: [withoutPlace('error', lost)] };
  const places = postPlaces(plan, solved.posts, lines);
  const compared = comparedVolts(result.target.of);
  const lowest = new Map<string, number>();
  const posts = solved.posts.map((post): Feature<PostProperties> => {
    for (const strand of post.strands) {
      if (strand.role !== 'hot' || strand.status === 'switched off') continue;
      lowest.set(strand.run, Math.min(compared(strand), lowest.get(strand.run) ?? Number.POSITIVE_INFINITY));
    }
    const low = lowestHot(post.strands, compared);
    const place = places.get(post.id) ?? null;
    return {
      type: 'Feature',
      id: `post ${post.id}`,
      geometry: place === null ? null : { type: 'Point', coordinates: position(place) },
      properties: {
        kind: 'post',
        post: post.id,
        junction: post.junction,
        run: post.run,
        condition: solved.id,
        strand: low?.strand ?? null,
        status: low?.status ?? null,
        distanceM: short(post.distanceM),
        voltsToEarth: short(low?.voltsToEarth ?? null),
        voltsToGrounded: short(low?.voltsToGrounded ?? null),
        animalVolts: short(low?.animalVolts ?? null),
        holds: low === null ? null : compared(low) >= result.target.volts,
        weakest: post.id === solved.verdict.weakest.postId,
      },
    };
  });
  const runs = plan.runs.map((run): Feature<RunProperties> => {
    const line = lines.get(run.id)!;
    return {
      type: 'Feature',
      id: `run ${run.id}`,
      geometry: line === null ? null : lineGeometry(line),
      properties: {
        kind: 'run',
        run: run.id,
        from: run.from,
        to: run.to,
        lengthM: Number(run.lengthM.toFixed(2)),
        build: run.build,
        condition: solved.id,
        lowestVolts: short(lowest.get(run.id) ?? null),
      },
    };
  });
  const value: FenceGeoJson = {
    type: 'FeatureCollection',
    title: plan.title,
    condition: solved.id,
    targetVolts: result.target.volts,
    features: [...runs, ...posts],
  };
  return { ok: true, value, issues: lost.length === 0 ? [] : [withoutPlace('warning', lost)] };
}

function withoutPlace(severity: Issue['severity'], runs: readonly string[]): Issue {
  const named = runs.slice(0, 5).map((id) => JSON.stringify(id));
  const more = runs.length > named.length ? ` and ${runs.length - named.length} more` : '';
  return {
    code: 'no-coordinates',
    severity,
    path: ['runs'],
    found: `no coordinates for ${runs.length === 1 ? 'run' : 'runs'} ${named.join(', ')}${more}`,
    expected: 'a `line` of [longitude, latitude] pairs for each run, or `at` for the junctions at its ends',
    hint: severity === 'error' ? 'GeoJSON has to say where the fence lies.' : 'They stand in the file without a place.',
    at: null,
  };
}

/** Places of posts by id, as far as they are known: along the lines of runs, and at junctions. */
function postPlaces(
  plan: ResolvedPlan,
  posts: readonly PostResult[],
  lines: ReadonlyMap<string, readonly LonLat[] | null>,
): Map<string, LonLat> {
  const places = new Map<string, LonLat>();
  for (const run of plan.runs) {
    const line = lines.get(run.id)!;
    if (line === null) continue;
    if (!places.has(run.from)) places.set(run.from, line[0]!);
    if (!places.has(run.to)) places.set(run.to, line.at(-1)!);
    const own = posts.filter((post) => post.run === run.id && post.junction === null);
    const along = pointsAlong(
      line,
      own.map(({ positionM }) => positionM! / run.lengthM),
    );
    own.forEach(({ id }, i) => {
      places.set(id, along[i]!);
    });
  }
  for (const { id, at } of plan.junctions) if (at !== null) places.set(id, at);
  return places;
}
