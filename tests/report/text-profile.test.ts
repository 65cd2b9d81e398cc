import { textProfile } from '@postvolt/report/text';
import { describe, expect, test } from 'vitest';
import { demoFarm, everything, hostilePlan, long, onePaddock, straight } from './plans.js';

const fences = { demoFarm, everything, hostilePlan, long, onePaddock, straight };

describe('the profile for a terminal', () => {
  const cases = Object.entries(fences).flatMap(([name, { result }]) =>
    result.conditions.map((condition) => [name, condition.name, result, condition] as const),
  );

  test.each(cases)('of %s, %s, keeps to its columns, and to ASCII where asked', (_n, _c, result, condition) => {
    for (const columns of [40, 72, 80, 200]) {
      for (const ascii of [false, true]) {
        const lines = textProfile(result, condition, { columns, ascii }).split('\n');
        expect(lines.length).toBe(7);
        for (const line of lines) expect([...line].length).toBeLessThanOrEqual(Math.min(columns, 80));
        if (ascii) expect(lines.join('')).toMatch(/^[\u0020-\u007e]*$/);
      }
    }
  });

  test('stands as high as the volts: full at a flat fence, lower where it falls', () => {
    const { result } = straight;
    const flat = {
      ...result.conditions[0]!,
      posts: result.conditions[0]!.posts.map((post) => ({
        ...post,
        strands: post.strands.map((strand) => ({
          ...strand,
          voltsToEarth: (strand.distanceM ?? 0) < 300 ? 5000 : 2000,
        })),
      })),
    };
    const lines = textProfile(result, flat, { columns: 42, ascii: true }).split('\n');
    const plot = lines.slice(0, 5).map((line) => line.slice(line.indexOf('|') + 1).padEnd(39));
    const heights = Array.from({ length: 39 }, (_, column) => plot.filter((row) => row[column] === '#').length);
    // One row a kilovolt.
    expect(heights.slice(0, 18)).toEqual(new Array(18).fill(5));
    expect(heights.slice(20)).toEqual(new Array(19).fill(2));
    // The target, 3 kV, is dashed above what falls short of it: in the row that begins at 3 kV.
    expect(plot[1]!.slice(20)).toBe('-'.repeat(19));
    expect(lines.at(-1)).toMatch(/^ +0 +600 m$/);
    expect(textProfile(result, flat).split('\n').at(-1)).toMatch(/^ +0 +kV by distance; ┄┄ target 3 kV +600 m$/);
  });

  test('is empty where nothing is fed', () => {
    const { result } = straight;
    const dead = {
      ...result.conditions[0]!,
      posts: result.conditions[0]!.posts.map((post) => ({
        ...post,
        strands: post.strands.map((strand) => ({ ...strand, distanceM: null })),
      })),
    };
    expect(textProfile(result, dead)).toBe('');
  });
});
