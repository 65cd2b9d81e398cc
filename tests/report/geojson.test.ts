import { check } from '@placemarkio/check-geojson';
import { geodesicM, parsePlan } from '@postvolt/core';
import { toGeoJson } from '@postvolt/report';
import type GeoJSON from 'geojson';
import { describe, expect, test } from 'vitest';
import { onePaddock, placed, placedInput, solved, straight, straightInput } from './plans.js';

function geoJsonOf({ plan, result }: typeof placed, condition?: string) {
  const outcome = toGeoJson(plan, result, condition);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  // Read back by an independent checker of RFC 7946, from its text.
  return { ...outcome, read: check(JSON.stringify(outcome.value)) as GeoJSON.FeatureCollection };
}

const pointOf = (feature: GeoJSON.Feature) => (feature.geometry as GeoJSON.Point).coordinates as [number, number];

describe('GeoJSON', () => {
  test('holds every run as a line and every post as a point with its volts', () => {
    const { read } = geoJsonOf(placed, 'wet');
    const runs = read.features.filter(({ properties }) => properties!['kind'] === 'run');
    const posts = read.features.filter(({ properties }) => properties!['kind'] === 'post');
    expect(runs.map(({ geometry }) => geometry.type)).toEqual(placed.plan.runs.map(() => 'LineString'));
    const wet = placed.result.conditions.find(({ id }) => id === 'wet')!;
    expect(posts.map(({ properties }) => properties!['post'])).toEqual(wet.posts.map(({ id }) => id));
    for (const [i, { properties }] of posts.entries()) {
      const strand = wet.posts[i]!.strands[0];
      expect(properties!['voltsToEarth']).toBe(strand ? Number(strand.voltsToEarth.toPrecision(5)) : null);
      expect(properties!['holds']).toBe(strand ? strand.voltsToEarth >= placed.result.target.volts : null);
    }
    expect(
      posts.filter(({ properties }) => properties!['weakest']).map(({ properties }) => properties!['post']),
    ).toEqual([wet.verdict.weakest.postId]);
    // A junction that hangs on a cable has no place of its own, and says so (RFC 7946, 3.2: unlocated).
    expect(posts.find(({ properties }) => properties!['post'] === 'spring')!.geometry).toBeNull();
  });

  test('posts stand a span apart along the run, by geodesics', () => {
    const { read } = geoJsonOf(placed);
    const byPost = new Map(read.features.map((feature) => [feature.properties!['post'], feature]));
    const run = placed.plan.runs.find(({ id }) => id === 'out')!;
    const inner = placed.result.conditions[0]!.posts.filter((post) => post.run === 'out').length;
    const line = ['creek', ...Array.from({ length: inner }, (_, i) => `out/${i + 1}`), 'far'].map((id) =>
      pointOf(byPost.get(id)!),
    );
    const span = run.lengthM / (inner + 1);
    for (let i = 1; i < line.length; i++) {
      // Seven decimals are written: a centimetre at each end.
      expect(Math.abs(geodesicM(line[i - 1]!, line[i]!) - span)).toBeLessThan(0.03);
    }
    // A straight line between two places is the geodesic, however long.
    expect(Math.abs(geodesicM(line[0]!, line.at(-1)!) - run.lengthM)).toBeLessThan(0.03);
  });

  test('a fence across the 180th meridian is cut there, and its posts keep to both sides', () => {
    const across = solved(
      parsePlan({
        ...placedInput,
        title: 'Antimeridian',
        junctions: { shed: { at: [179.99, -16.8] }, bend: { at: [-179.99, -16.81] } },
        runs: { north: { from: 'shed', to: 'bend', build: 'plain' } },
        faults: [],
        cables: [],
      }),
    );
    const { read } = geoJsonOf(across);
    const run = read.features[0]!.geometry as GeoJSON.MultiLineString;
    expect(run.type).toBe('MultiLineString');
    expect(run.coordinates.map((part) => part.map(([longitude]) => longitude))).toEqual([
      [179.99, 180],
      [-180, -179.99],
    ]);
    const [west, east] = [run.coordinates[0]!.at(-1)!, run.coordinates[1]![0]!];
    expect(west[1]).toBe(east[1]);
    expect(west[1]).toBeCloseTo(-16.805, 3);
    const longitudes = read.features.slice(1).map((feature) => pointOf(feature)[0]);
    for (const longitude of longitudes) expect(Math.abs(longitude)).toBeGreaterThan(179.9);
    expect(longitudes.some((longitude) => longitude < 0) && longitudes.some((longitude) => longitude > 0)).toBe(true);
  });

  test('without coordinates is an error that says what is missing', () => {
    const outcome = toGeoJson(straight.plan, straight.result);
    expect(outcome).toMatchObject({
      ok: false,
      issues: [{ code: 'no-coordinates', severity: 'error', path: ['runs'] }],
    });
    expect(outcome.issues[0]!.found).toContain('"fence"');
    expect(
      onePaddock.plan.runs.some(({ line }) => line !== null) || !toGeoJson(onePaddock.plan, onePaddock.result).ok,
    ).toBe(true);
  });

  test('with coordinates for some runs writes those, and the rest without a place', () => {
    const { at: _, ...bare } = { at: 0, ...straightInput('300 m').runs['fence']! };
    const some = solved(
      parsePlan({
        ...placedInput,
        runs: { ...placedInput.runs, spur: { ...bare, from: 'spring', to: 'tip' } },
        junctions: { ...(placedInput.junctions as object), tip: null },
      }),
    );
    const { read, issues } = geoJsonOf(some);
    expect(issues).toMatchObject([{ code: 'no-coordinates', severity: 'warning' }]);
    const nowhere = read.features
      .filter(({ geometry }) => geometry === null)
      .map(({ properties }) => properties!['run'] ?? properties!['post']);
    expect(nowhere).toContain('spur');
    expect(nowhere.every((name) => !['north', 'creek', 'south', 'out', 'shed', 'far'].includes(name))).toBe(true);
  });
});
