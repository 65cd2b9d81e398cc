import type { Issue, Outcome } from '../issue.js';
import { geodesicM, type LonLat } from './geodesic.js';

/** Junctions and runs as a plan writes them. */
export interface DrawnRuns {
  readonly junctions: Readonly<Record<string, { readonly at: LonLat }>>;
  readonly runs: Readonly<
    Record<
      string,
      { readonly from: string; readonly to: string; readonly line: readonly LonLat[] } & Record<string, unknown>
    >
  >;
}

/** Ends of lines nearer to each other than this are one junction: a hand's slip on a map. */
const snapM = 1;

/** Properties of a line that are the plan's fields of a run; others are left alone. */
const runFields = ['build', 'postSpacing', 'posts'] as const;

const fail = (path: Issue['path'], found: string, expected: string): { ok: false; issues: Issue[] } => ({
  ok: false,
  issues: [{ code: 'bad-geojson', severity: 'error', path, found, expected, hint: '', at: null }],
});

/**
 * Runs and junctions from GeoJSON (RFC 7946): each LineString feature is a run, measured along the ellipsoid.
 *
 * `name` in a line's properties is the run's name, `from` and `to` its junctions'; `build`, `postSpacing` and `posts` are
 * kept as the plan's fields. Ends within a metre of each other are one junction. Takes a FeatureCollection, a Feature or a
 * bare LineString. Issues say what is wrong and where.
 */
export function runsFromGeoJson(input: unknown): Outcome<DrawnRuns> {
  const features = featuresOf(input);
  if (features === null) return fail([], wordKind(input), 'a GeoJSON FeatureCollection, Feature or LineString');
  const junctions: Record<string, { at: LonLat }> = {};
  const runs: Record<string, DrawnRuns['runs'][string]> = {};
  const junctionAt = (at: LonLat, wanted: unknown): string => {
    const near = Object.entries(junctions).find(([, known]) => geodesicM(known.at, at) <= snapM);
    if (near !== undefined) return near[0];
    const base = typeof wanted === 'string' && wanted !== '' ? wanted : `corner ${Object.keys(junctions).length + 1}`;
    const name = unused(base, junctions);
    junctions[name] = { at };
    return name;
  };
  for (const [i, feature] of features.entries()) {
    const path = features.length === 1 ? ['geometry'] : ['features', i, 'geometry'];
    const { geometry } = feature;
    if (geometry?.type !== 'LineString') continue;
    const line = lineOf(geometry.coordinates);
    if (line === null)
      return fail([...path, 'coordinates'], 'no list of [longitude, latitude]', 'two positions or more, in degrees');
    const properties = feature.properties ?? {};
    const name = unused(
      typeof properties['name'] === 'string' && properties['name'] !== '' ? properties['name'] : `run ${i + 1}`,
      runs,
    );
    const fields = Object.fromEntries(
      runFields.flatMap((key) => (properties[key] === undefined ? [] : [[key, properties[key]]])),
    );
    const from = junctionAt(line[0]!, properties['from']);
    runs[name] = { from, to: junctionAt(line.at(-1)!, properties['to']), line, ...fields };
  }
  if (Object.keys(runs).length === 0)
    return fail(['features'], `${features.length} features without a LineString`, 'a LineString for each run');
  return { ok: true, value: { junctions, runs }, issues: [] };
}

interface Feature {
  readonly geometry?: { readonly type?: unknown; readonly coordinates?: unknown } | null;
  readonly properties?: Readonly<Record<string, unknown>> | null;
}

function featuresOf(input: unknown): Feature[] | null {
  if (typeof input !== 'object' || input === null || !('type' in input)) return null;
  if (input.type === 'FeatureCollection' && 'features' in input && Array.isArray(input.features)) {
    return input.features.filter((feature) => typeof feature === 'object' && feature !== null);
  }
  if (input.type === 'Feature') return [input as Feature];
  return input.type === 'LineString' ? [{ geometry: input as Feature['geometry'] & object }] : null;
}

function lineOf(coordinates: unknown): LonLat[] | null {
  if (!Array.isArray(coordinates) || coordinates.length < 2) return null;
  const line: LonLat[] = [];
  for (const position of coordinates) {
    if (!Array.isArray(position)) return null;
    const [lon, lat] = position as unknown[];
    if (typeof lon !== 'number' || typeof lat !== 'number' || !(Math.abs(lon) <= 180 && Math.abs(lat) <= 90))
      return null;
    line.push([lon, lat]);
  }
  return line;
}

function unused(name: string, taken: object): string {
  if (!Object.hasOwn(taken, name)) return name;
  for (let n = 2; ; n++) if (!Object.hasOwn(taken, `${name} ${n}`)) return `${name} ${n}`;
}

const wordKind = (input: unknown): string =>
  typeof input === 'object' && input !== null && 'type' in input
    ? `type ${JSON.stringify(input.type)}`
    : `a ${typeof input}`;
