import { layOut } from '@postvolt/core/network';
import { describe, expect, test } from 'vitest';
import { chiSquared99 } from '../../packages/core/src/studies/meter/chi-squared.js';
import { MeterScale } from '../../packages/core/src/studies/meter/meter-error.js';
import { conditionOn, NormalModel } from '../../packages/core/src/studies/trace/normal-model.js';
import { likeliestPosts } from '../../packages/core/src/studies/trace/place-posterior.js';
import { closeGaps, stretchesOf } from '../../packages/core/src/studies/trace/stretches.js';
import { scoringFarms } from '../scoring/farms.js';

const layout = layOut(scoringFarms[1]!.plan);
const runPosts = (run: string) => layout.runs[layout.runOf.get(run)!]!.posts;

/** Chances by post, given as run, first post, last post and the chance of each. */
function chances(...pieces: readonly [run: string, from: number, to: number, chance: number][]): Float64Array {
  const ofPost = new Float64Array(layout.postCount);
  for (const [run, from, to, chance] of pieces) for (let i = from; i <= to; i++) ofPost[runPosts(run)[i]!] = chance;
  const total = ofPost.reduce((sum, p) => sum + p, 0);
  return ofPost.map((p) => p / total);
}

describe('stretches', () => {
  test('are runs of posts, likeliest first, with their length', () => {
    const ofPost = chances(['lane', 10, 13, 0.05], ['slope', 20, 23, 0.2]);
    const marked = likeliestPosts(ofPost, 0.9999);
    const stretches = stretchesOf(layout, marked, ofPost);
    expect(stretches.map(({ name, posts }) => [name, posts])).toEqual([
      ['slope/20 to slope/23', 4],
      ['lane/10 to lane/13', 4],
    ]);
    expect(stretches[0]!.chance).toBeCloseTo(0.8, 12);
    // 800 m of posts no more than 12 m apart are 67 spans.
    expect(stretches[0]!.lengthM).toBeCloseTo((3 * 800) / 67, 9);
  });

  test('go on round a junction', () => {
    const ofPost = chances(['lane', 57, 59, 0.1], ['west', 0, 2, 0.1], ['slope', 0, 3, 0.1]);
    const stretches = stretchesOf(layout, likeliestPosts(ofPost, 0.9999), ofPost);
    expect(stretches).toHaveLength(1);
    expect(stretches[0]!.posts).toBe(3 + 2 + 3);
    expect(stretches[0]!.name).toBe('slope/0 to slope/3, lane/57 to lane/59 and west/0 to west/2');
  });

  test('name a whole run as such, and count what they do not name', () => {
    const all = layout.runs.map(({ run, spans }) => [run.id, 0, spans, 0.001] as [string, number, number, number]);
    const ofPost = chances(...all);
    expect(stretchesOf(layout, likeliestPosts(ofPost, 0.9999), ofPost)[0]!.name).toBe(
      'all of west, all of slope, all of lane and 2 more pieces',
    );
  });

  test('close gaps of one or two posts, not of three', () => {
    const ofPost = chances(['lane', 10, 10, 0.1], ['lane', 13, 13, 0.1], ['lane', 17, 17, 0.1]);
    const marked = likeliestPosts(ofPost, 0.9999);
    closeGaps(layout, marked);
    const names = stretchesOf(layout, marked, ofPost).map(({ name }) => name);
    expect(names.sort()).toEqual(['lane/10 to lane/13', 'lane/17']);
  });
});

describe('the fewest posts that hold a share', () => {
  test('hold it, and none of them can be missed', () => {
    const ofPost = chances(['lane', 5, 24, 0.04], ['brook', 3, 12, 0.02]);
    const marked = likeliestPosts(ofPost, 0.9);
    const held = ofPost.reduce((sum, p, post) => sum + (marked[post] === 1 ? p : 0), 0);
    const least = ofPost.reduce((low, p, post) => (marked[post] === 1 ? Math.min(low, p) : low), 1);
    expect(held).toBeGreaterThanOrEqual(0.9);
    expect(held - least).toBeLessThan(0.9);
  });
});

describe('the normal law of readings', () => {
  /** Two readings, one unknown that moves both: y = J x + noise, worked out by hand from the 2 × 2 covariance. */
  const [J, y] = [Float64Array.of(2, -1), Float64Array.of(1.5, 0.5)];
  const extra = Float64Array.of(0.25, 0);

  test('has the density of its covariance 1 + extra + J Jᵀ', () => {
    const [a, b, c] = [1.25 + 4, 1 + 1, -2];
    const determinant = a * b - c * c;
    const squares = (b * y[0]! ** 2 - 2 * c * y[0]! * y[1]! + a * y[1]! ** 2) / determinant;
    const density = new NormalModel(2).logDensity(y, J, 1, extra);
    expect(density).toBeCloseTo(-squares / 2 - Math.log(determinant) / 2, 12);
  });

  test('gives the mean and the spread of the unknown', () => {
    const precision = 1 + 4 / 1.25 + 1;
    const { mean, draw } = conditionOn(2, y, J, 1, extra);
    expect(mean[0]).toBeCloseTo((2 * (1.5 / 1.25) - 0.5) / precision, 12);
    expect(draw(() => 1)[0]! - mean[0]!).toBeCloseTo(1 / Math.sqrt(precision), 12);
  });
});

describe('the even scale of readings', () => {
  test.each(['volts', 'amps'] as const)('has a slope of one over the standard deviation, %s', (kind) => {
    const scale = new MeterScale(5);
    for (const reading of [0, 0.02, 1, 30, 700, 8000]) {
      const step = 1e-4 * (reading + 1e-2);
      const slope = (scale.even(kind, reading + step) - scale.even(kind, reading - step)) / (2 * step);
      expect(slope * scale.sigma(kind, reading)).toBeCloseTo(1, 6);
      expect(scale.even(kind, -reading)).toBeCloseTo(-scale.even(kind, reading), 12);
    }
  });
});

describe('the 99th percentile of chi-squared', () => {
  // Handbook tables of chi-squared (from memory): 6.635, 9.210, 11.345, 15.086, 23.209, 37.566.
  test.each([
    [1, 6.635],
    [2, 9.21],
    [3, 11.345],
    [5, 15.086],
    [10, 23.209],
    [20, 37.566],
  ])('of %i degrees is near %d', (degrees, expected) => {
    expect(Math.abs(chiSquared99(degrees) / expected - 1)).toBeLessThan(degrees < 3 ? 0.03 : 0.003);
  });
});
