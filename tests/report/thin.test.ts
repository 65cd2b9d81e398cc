import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lowestPerCell, thinLine } from '../../packages/report/src/data/thin.js';
import { spreadLabels } from '../../packages/report/src/figures/spread-labels.js';

/** The same cases in every run, whatever other files set. */
const seed = 20_261_126;

const values = fc.array(fc.double({ min: -1e4, max: 1e4, noNaN: true }), { minLength: 1, maxLength: 400 });

describe('a thinned line', () => {
  test('keeps the first, lowest, highest and last point of every pixel column, in order, and little else', () => {
    fc.assert(
      fc.property(values, fc.double({ min: 0.02, max: 3, noNaN: true }), (volts, spacing) => {
        const x = (i: number) => i * spacing;
        const kept = thinLine(volts.length, x, (i) => volts[i]!, 1);
        expect(kept).toEqual([...new Set(kept)].sort((a, b) => a - b));
        const columns = new Set(volts.map((_, i) => Math.floor(x(i))));
        for (const column of columns) {
          const members = [...volts.keys()].filter((i) => Math.floor(x(i)) === column);
          const own = kept.filter((i) => members.includes(i));
          expect(own.length).toBeLessThanOrEqual(4);
          expect([own[0], own.at(-1)]).toEqual([members[0], members.at(-1)]);
          const extremes = (indices: readonly number[]) => [
            Math.min(...indices.map((i) => volts[i]!)),
            Math.max(...indices.map((i) => volts[i]!)),
          ];
          expect(extremes(own)).toEqual(extremes(members));
        }
      }),
      { seed, numRuns: 100 },
    );
  });

  test('that turns back on itself keeps each pass through a column', () => {
    const x = [0, 1, 2, 1, 0];
    expect(
      thinLine(
        5,
        (i) => x[i]!,
        (i) => i,
        1,
      ),
    ).toEqual([0, 1, 2, 3, 4]);
  });
});

test('the lowest of each cell is kept', () => {
  fc.assert(
    fc.property(values, fc.integer({ min: 1, max: 9 }), (volts, size) => {
      const kept = lowestPerCell(
        volts.length,
        (i) => Math.floor(i / size),
        (i) => volts[i]!,
      );
      expect(kept.length).toBe(Math.ceil(volts.length / size));
      for (const i of kept) {
        const cell = volts.slice(Math.floor(i / size) * size, Math.floor(i / size) * size + size);
        expect(volts[i]).toBe(Math.min(...cell));
      }
    }),
    { seed, numRuns: 100 },
  );
});

describe('labels spread along an axis', () => {
  test('keep their gap and their order, stay within bounds where there is room, and do not move where they need not', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 1, maxLength: 12 }), (wishes) => {
        const places = spreadLabels(wishes, 20, 0, 300);
        const order = wishes.map((_, i) => i).sort((a, b) => wishes[a]! - wishes[b]! || a - b);
        for (let n = 1; n < order.length; n++)
          expect(places[order[n]!]! - places[order[n - 1]!]!).toBeGreaterThan(20 - 1e-9);
        for (const place of places) {
          expect(place).toBeGreaterThan(-1e-9);
          expect(place).toBeLessThan(300 + 1e-9);
        }
        const apart = order.every((i, n) => n === 0 || wishes[i]! - wishes[order[n - 1]!]! >= 20);
        if (apart) expect(places.map((place, i) => Math.abs(place - wishes[i]!) < 1e-9)).not.toContain(false);
      }),
      { seed, numRuns: 100 },
    );
  });
});
