// The numbers of `fit` against a ladder of three posts that is worked out by Kirchhoff's law and by hand.
import type { ResolvedPlan } from '@postvolt/core';
import { formatVolts, solvePlan } from '@postvolt/core';
import { applyFit, type FitResult, fit as fitTables, parseReadings } from '@postvolt/core/studies';
import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { exact, plainPlan } from '../support/fence.js';
import {
  charging,
  drawn,
  evenOf,
  ladder,
  ladderPlan,
  ranged,
  ranges,
  readingAt,
  sigmaOf,
  typicalLadder,
  z95,
} from './ladder.js';

type Calibration = NonNullable<ResolvedPlan['calibration']>;
type Rows = Parameters<typeof parseReadings>[0]['readings'];

const fitted = (plan: ResolvedPlan, readings: Rows, meterErrorPercent = 5): FitResult =>
  fitTables(plan, parseReadings({ readings }, plan, { meterErrorPercent }));

/** Where the fit has put a group, in standard deviations of its prior. */
const shiftOf = ({ calibration }: FitResult, key: string) =>
  calibration.groups.find((group) => group.key === key)!.shift;
const groupOf = ({ groups }: FitResult, key: string) => groups.find((group) => group.key === key)!;
const keys = ['energizer', 'ground', 'film|north', 'charging'] as const;

/** The ladder with its four groups at z. */
const ladderAt = (z: readonly number[]) =>
  ladder({
    energizer: drawn(ranges.energizer, z[0]!) / 6000,
    groundOhms: drawn(ranges.ground, z[1]!),
    filmSiemens: drawn(ranges.film, z[2]!),
    chargingAmps: drawn(charging, z[3]!),
  });

describe('one uncertain value read once, in closed form', () => {
  const plan = ladderPlan(['energizer']);
  const typical = ladder(typicalLadder).volts;
  // Volts follow the energizer's factor in proportion.
  const read = 1.12 * typical[0]!;
  const result = fitted(plan, [{ post: 'a', kV: read / 1000 }]);
  const z = shiftOf(result, 'energizer');
  const factor = drawn(ranges.energizer, z) / 6000;
  const slopeAt = (volts: number) => (volts * (Math.log(7200 / 6000) / z95)) / sigmaOf('volts', volts);
  const slope = slopeAt(typical[0]! * factor);

  test('settles where the pull of the reading is that of the prior', () => {
    const off = evenOf('volts', read) - evenOf('volts', typical[0]! * factor);
    // The least of z² + off² has z = off · d even/dz. The fit ends where a step wins less than 1e-3, so within √(1e-3/(1 + s²)).
    expect(Math.abs(z - off * slope)).toBeLessThan(Math.sqrt(1e-3 / (1 + slope ** 2)) * (1 + slope ** 2));
    expect(z).toBeGreaterThan(0.5);
    expect(result.readings).toHaveLength(1);
    expect(result.readings[0]).toMatchObject({ post: 'a', kind: 'volts', read: expect.closeTo(read, 6) });
    expect(result.readings[0]!.before / typical[0]!).toBeCloseTo(1, 9);
    expect(result.readings[0]!.after / (typical[0]! * factor)).toBeCloseTo(1, 9);
    // Positive where the reading is above the model.
    expect(result.readings[0]!.off).toBeCloseTo(off, 6);
    expect(result.misfit.after).toBeCloseTo(off ** 2, 6);
    expect(result.misfit.before).toBeCloseTo((evenOf('volts', read) - evenOf('volts', typical[0]!)) ** 2, 6);
  });

  test('leaves 1/√(1 + s²) of the range', () => {
    const group = groupOf(result, 'energizer');
    const left = 1 / Math.sqrt(1 + slope ** 2);
    expect(group.widthLeft).toBeCloseTo(left, 6);
    expect(group.place).toBeCloseTo(z / z95, 9);
    expect(group.multiplier).toBeCloseTo(factor, 9);
    expect(group.atEnd).toBe(false);
    const [value] = group.values;
    expect(group.values).toHaveLength(1);
    expect(value!.before.low).toBeCloseTo(4500 / 6000, 12);
    expect(value!.before.typical).toBe(1);
    expect(value!.before.high).toBeCloseTo(7200 / 6000, 12);
    const at = (steps: number) => drawn(ranges.energizer, z + steps * left) / 6000;
    expect(value!.after.low).toBeCloseTo(at(-z95), 6);
    expect(value!.after.typical).toBeCloseTo(at(0), 6);
    expect(value!.after.high).toBeCloseTo(at(z95), 6);
    expect(result.calibration.groups.find(({ key }) => key === 'energizer')!.spread).toBeCloseTo(left, 6);
  });

  test('a value that two halves of a range meet at takes the mean of their slopes', () => {
    // Read as it is, the energizer stays at z = 0: the mean of ln(6000/4500) and ln(7200/6000) over 1.645.
    const as = fitted(plan, [{ post: 'a', kV: typical[0]! / 1000 }]);
    const mean = (Math.log(6000 / 4500) + Math.log(7200 / 6000)) / 2 / z95;
    const s = (typical[0]! * mean) / sigmaOf('volts', typical[0]!);
    expect(shiftOf(as, 'energizer')).toBeCloseTo(0, 6);
    expect(groupOf(as, 'energizer').widthLeft).toBeCloseTo(1 / Math.sqrt(1 + s ** 2), 6);
  });

  test('n readings of one place count n times', () => {
    const rows = Array.from({ length: 4 }, () => ({ post: 'a', kV: typical[0]! / 1000 }));
    const mean = (Math.log(6000 / 4500) + Math.log(7200 / 6000)) / 2 / z95;
    const s = (typical[0]! * mean) / sigmaOf('volts', typical[0]!);
    expect(groupOf(fitted(plan, rows), 'energizer').widthLeft).toBeCloseTo(1 / Math.sqrt(1 + 4 * s ** 2), 6);
  });

  test('a meter twice as good narrows by its own standard deviation', () => {
    for (const percent of [0, 2.5, 12]) {
      const as = fitted(plan, [{ post: 'a', kV: typical[0]! / 1000 }], percent);
      const mean = (Math.log(6000 / 4500) + Math.log(7200 / 6000)) / 2 / z95;
      const s = (typical[0]! * mean) / sigmaOf('volts', typical[0]!, percent);
      expect(groupOf(as, 'energizer').widthLeft).toBeCloseTo(1 / Math.sqrt(1 + s ** 2), 6);
      expect(as.meterErrorPercent).toBe(percent);
    }
  });

  test('the weakest post is the far end, before and after', () => {
    expect(result.weakestVolts.before / typical[2]!).toBeCloseTo(1, 9);
    expect(result.weakestVolts.after / (typical[2]! * factor)).toBeCloseTo(1, 9);
    const [times, after, before] = [Math.round(10 * factor) / 10, factor * typical[2]!, typical[2]!].map((value, i) =>
      i === 0 ? String(value) : formatVolts(value),
    );
    expect(result.sentence).toBe(
      `The readings told something of 1 of 3 uncertain values; most moved is output of the energizer, now ${times} times the table's; the weakest post has ${after} in usual with the fitted tables (${before} before).`,
    );
  });

  test('a group that pulls beyond its range is held at its end', () => {
    for (const [kV, end, ratio] of [
      [9, 1, 7200 / 6000],
      [1, -1, 4500 / 6000],
    ] as const) {
      const held = fitted(plan, [{ post: 'a', kV }]);
      expect(groupOf(held, 'energizer')).toMatchObject({ place: end, atEnd: true, told: 'well' });
      expect(groupOf(held, 'energizer').multiplier).toBeCloseTo(ratio, 9);
      expect(groupOf(held, 'charging').atEnd).toBe(false);
      expect(held.fits).toBe(false);
      expect(held.weakestVolts.after / (ratio * typical[2]!)).toBeCloseTo(1, 9);
      expect(held.sentence).toBe(
        `No tables within their ranges explain the readings, so look for a fault: fitted as well as may be, the weakest post has ${formatVolts(
          ratio * typical[2]!,
        )} in usual with the fitted tables (${formatVolts(typical[2]!)} before).`,
      );
    }
  });
});

describe('how much readings told of a value', () => {
  const typical = ladder(typicalLadder).volts[0]!;
  /** The energizer's range, alike up and down, of which one reading leaves a share: 1/√(1 + s²) = share. */
  const planLeaving = (share: number) => {
    const s = Math.sqrt(1 / share ** 2 - 1);
    const ratio = Math.exp((s * sigmaOf('volts', typical) * z95) / typical);
    const plan = ladderPlan([]);
    plan.energizer.loads = plan.energizer.loads.map(({ ohms, volts }) => ({
      ohms,
      volts: ranged(volts.typical / ratio, volts.typical, volts.typical * ratio, 'V'),
    }));
    return plan;
  };

  test.each([
    [0.49, 'well'],
    [0.51, 'a little'],
    [0.89, 'a little'],
    [0.91, 'not'],
  ] as const)('%d of the range left is "%s"', (share, told) => {
    const result = fitted(planLeaving(share), [{ post: 'a', kV: typical / 1000 }]);
    expect(groupOf(result, 'energizer').widthLeft).toBeCloseTo(share, 4);
    expect(groupOf(result, 'energizer').told).toBe(told);
    // Those that the readings told most of come first.
    expect(result.groups[0]!.key).toBe('energizer');
    if (told === 'not')
      expect(result.sentence).toBe(
        `The readings agree with the tables and told little of any value; the weakest post has ${formatVolts(
          result.weakestVolts.after,
        )} in usual with the fitted tables (${formatVolts(result.weakestVolts.before)} before).`,
      );
  });
});

describe('whether tables explain the readings', () => {
  // 99th percentiles of chi-squared in any table of it; the study's approximation is within 3 % of the first two.
  const percentiles = [6.635, 9.21, 11.345, 13.277, 15.086];
  const { volts } = ladder(typicalLadder);
  const posts = ['a', 'north/1', 'b', 'a', 'b'];

  test.each(percentiles.map((percentile, i) => [i + 1, percentile] as const))(
    '%i readings fit up to a sum of squares near %d',
    (count, percentile) => {
      const slack = count < 3 ? 0.03 : 0.004;
      for (const [square, fits] of [
        [percentile * (1 - slack), true],
        [percentile * (1 + slack), false],
      ] as const) {
        // Every value is sure, so all of the misfit stays: each reading is off by the same part of it.
        const rows = posts.slice(0, count).map((post, i) => {
          const own = volts[[0, 1, 2, 0, 2][i]!]!;
          const even = evenOf('volts', own) + (i % 2 === 0 ? 1 : -1) * Math.sqrt(square / count);
          return { post, kV: readingAt('volts', even) / 1000 };
        });
        const result = fitted(plainPlan(), rows);
        expect(result.misfit.after).toBeCloseTo(square, 5);
        expect(result.misfit.before).toBeCloseTo(square, 5);
        expect(result.fits).toBe(fits);
        expect(result.readings.map(({ off }) => Math.sign(off))).toEqual(rows.map((_, i) => (i % 2 === 0 ? 1 : -1)));
      }
    },
  );
});

describe('four uncertain values and readings of volts and amps, by nodal analysis', () => {
  const plan = ladderPlan(['energizer', 'ground', 'film']);
  const truth = ladderAt([0.7, -0.9, 1.1, 0.8]);
  const rows: Rows = [
    { post: 'a', kV: truth.volts[0]! / 1000, amps: truth.amps[0]!, towards: 'b' },
    { post: 'north/1', kV: truth.volts[1]! / 1000, amps: truth.amps[1]!, towards: 'north/2' },
    { post: 'b', kV: truth.volts[2]! / 1000, amps: truth.amps[1]!, from: 'north/1' },
  ];
  const read = [
    ['volts', truth.volts[0]!],
    ['amps', truth.amps[0]!],
    ['volts', truth.volts[1]!],
    ['amps', truth.amps[1]!],
    ['volts', truth.volts[2]!],
    ['amps', -truth.amps[1]!],
  ] as const;
  const modelled = (z: readonly number[]) => {
    const { volts, amps } = ladderAt(z);
    return [volts[0]!, amps[0]!, volts[1]!, amps[1]!, volts[2]!, -amps[1]!];
  };
  const evenAt = (z: readonly number[]) => modelled(z).map((value, i) => evenOf(read[i]![0], value));
  const evenRead = read.map(([kind, value]) => evenOf(kind, value));
  const cost = (z: readonly number[]) =>
    z.reduce((sum, own) => sum + own ** 2, 0) + evenAt(z).reduce((sum, e, i) => sum + (e - evenRead[i]!) ** 2, 0);
  const result = fitted(plan, rows);
  const z = keys.map((key) => shiftOf(result, key));

  /** Slopes of the even readings by central differences of the nodal analysis. */
  const slopes = new Matrix(read.length, keys.length);
  keys.forEach((_, g) => {
    const at = (by: number) => evenAt(z.map((own, k) => (k === g ? own + by : own)));
    const [above, below] = [at(1e-4), at(-1e-4)];
    read.forEach((__, i) => {
      slopes.set(i, g, (above[i]! - below[i]!) / 2e-4);
    });
  });
  const covariance = inverse(slopes.transpose().mmul(slopes).add(Matrix.eye(keys.length)));

  test('settles at the least of the sum of squares', () => {
    let best = [...z];
    for (const step of [0.1, 0.03, 0.01, 0.003])
      for (let round = 0; round < 30; round++)
        keys.forEach((_, g) => {
          for (const by of [step, -step]) {
            const moved = best.map((own, k) => (k === g ? own + by : own));
            if (cost(moved) < cost(best)) best = moved;
          }
        });
    expect(cost(z) - cost(best)).toBeLessThan(2e-3);
    const settledSquares = evenAt(z).reduce((sum, e, i) => sum + (e - evenRead[i]!) ** 2, 0);
    expect(result.misfit.after).toBeCloseTo(settledSquares, 6);
    result.readings.forEach(({ before, after, read: value }, i) => {
      expect(value).toBeCloseTo(read[i]![1], 6);
      expect(after / modelled(z)[i]!).toBeCloseTo(1, 7);
      expect(before / modelled([0, 0, 0, 0])[i]!).toBeCloseTo(1, 7);
    });
    expect(result.readings.map(({ kind }) => kind)).toEqual(read.map(([kind]) => kind));
    expect(result.readings.map(({ post }) => post)).toEqual(['a', 'a', 'north/1', 'north/1', 'b', 'b']);
  });

  test('leaves the ranges and correlations of a normal law with these slopes', () => {
    const order = keys.map((key) => result.calibration.groups.findIndex((group) => group.key === key));
    keys.forEach((key, a) => {
      // The slopes leave out how the charging current follows the other values: a thousandth of the amps.
      expect(groupOf(result, key).widthLeft).toBeCloseTo(Math.sqrt(covariance.get(a, a)), 2);
      keys.forEach((_, b) => {
        const expected = covariance.get(a, b) / Math.sqrt(covariance.get(a, a) * covariance.get(b, b));
        expect(Math.abs(result.calibration.correlation[order[a]!]![order[b]!]! - expected)).toBeLessThan(0.02);
      });
    });
    result.calibration.correlation.forEach((row, a) => {
      expect(row[a]).toBe(1);
    });
  });

  test('names what is known together only, most of all first', () => {
    // One reading of volts: all three rise and fall with it.
    const single = fitted(plan, [{ post: 'b', kV: truth.volts[2]! / 1000 }], 1);
    const { groups, correlation } = single.calibration;
    const pairs = groups.flatMap((a, i) =>
      groups.slice(0, i).map((b, j) => ({
        names: [groupOf(single, b.key).name, groupOf(single, a.key).name],
        correlation: correlation[i]![j]!,
      })),
    );
    const expected = pairs
      .filter((pair) => Math.abs(pair.correlation) >= 0.5)
      .sort((a, b) => Math.abs(b.correlation) - Math.abs(a.correlation));
    expect(expected.length).toBeGreaterThan(0);
    expect(expected.length).toBeLessThan(pairs.length);
    expect(single.entangled).toEqual(expected);
    // s² of a single reading: corr(1, 2) = −s₁ s₂ / √((1 + S − s₁²)(1 + S − s₂²)), S the sum of all s².
    const at = keys.map((key) => shiftOf(single, key));
    const s = keys.map((_, g) => {
      const volts = (by: number) => ladderAt(at.map((own, k) => (k === g ? own + by : own))).volts[2]!;
      return (evenOf('volts', volts(1e-4), 1) - evenOf('volts', volts(-1e-4), 1)) / 2e-4;
    });
    const all = s.reduce((sum, own) => sum + own ** 2, 0);
    const index = keys.map((key) => groups.findIndex((group) => group.key === key));
    for (const [a, b] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const) {
      const by = Math.sqrt((1 + all - s[a]! ** 2) * (1 + all - s[b]! ** 2));
      expect(correlation[index[a]!]![index[b]!]!).toBeCloseTo((-s[a]! * s[b]!) / by, 4);
    }
  });
});

describe('a plan that was calibrated before', () => {
  const { volts } = ladder(typicalLadder);
  const calibration = (groups: Calibration['groups'], correlation: number[][]): Calibration => ({
    groups,
    correlation,
  });
  const unmoved = (key: string) => ({ key, shift: 0, spread: 1 });

  /** Widths after one reading of each post with the prior correlation `prior` of energizer, ground and film. */
  function expectedWidths(prior: number[][]) {
    const J = new Matrix(3, 3);
    for (let g = 0; g < 3; g++) {
      const at = (by: number) => ladderAt([0, 0, 0, 0].map((_, k) => (k === g ? by : 0))).volts;
      const [above, below] = [at(1e-3), at(-1e-3)];
      volts.forEach((own, i) => {
        J.set(i, g, (above[i]! - below[i]!) / 2e-3 / sigmaOf('volts', own));
      });
    }
    const after = inverse(inverse(new Matrix(prior)).add(J.transpose().mmul(J)));
    return [0, 1, 2].map((g) => Math.sqrt(after.get(g, g)));
  }

  const exactly: Rows = ['a', 'north/1', 'b'].map((post, i) => ({ post, kV: volts[i]! / 1000 }));
  const named = ['energizer', 'ground', 'film|north'];
  const widthsOf = (correlation: number[][]) => {
    const plan = ladderPlan(['energizer', 'ground', 'film']);
    plan.calibration = calibration(named.map(unmoved), correlation);
    const result = fitted(plan, exactly);
    return named.map((key) => groupOf(result, key).widthLeft);
  };

  test('brings its correlations as the prior’s; either half of the matrix counts', () => {
    const prior = [
      [1, 0.6, -0.3],
      [0.6, 1, 0.2],
      [-0.3, 0.2, 1],
    ];
    const expected = expectedWidths(prior);
    const uneven = [
      [1, 0.5, -0.4],
      [0.7, 1, 0.1],
      [-0.2, 0.3, 1],
    ];
    for (const correlation of [prior, uneven])
      widthsOf(correlation).forEach((width, g) => {
        expect(width).toBeCloseTo(expected[g]!, 4);
      });
  });

  test('has correlations that belong to no law shrunk by twentieths until they do', () => {
    // Eigenvalues 1.9, 1.9 and −0.8. With all of them times t the least is 1 − 1.8 t: positive from 0.95¹² = 0.5404 on.
    const t = 0.95 ** 12;
    expect(1 - 1.8 * 0.95 ** 11).toBeLessThan(0);
    const law = (share: number) => [
      [1, 0.9 * share, 0.9 * share],
      [0.9 * share, 1, -0.9 * share],
      [0.9 * share, -0.9 * share, 1],
    ];
    const expected = expectedWidths(law(t));
    widthsOf(law(1)).forEach((width, g) => {
      expect(width).toBeCloseTo(Math.min(1, expected[g]!), 3);
    });
  });

  test('starts from where the values stand, the charging current too', () => {
    const plan = ladderPlan(['ground']);
    const groups = [
      { key: 'ground', shift: 0.8, spread: 0.5 },
      { key: 'charging', shift: -1, spread: 0.25 },
    ];
    plan.calibration = calibration(groups, [
      [1, 0],
      [0, 1],
    ]);
    const result = fitted(plan, []);
    const before = (key: string) => groupOf(result, key).values[0]!.before;
    const at = (range: typeof ranges.ground, shift: number, spread: number) => ({
      low: drawn(range, shift - spread * z95),
      typical: drawn(range, shift),
      high: drawn(range, shift + spread * z95),
    });
    for (const [key, range, shift, spread] of [
      ['ground', ranges.ground, 0.8, 0.5],
      ['charging', charging, -1, 0.25],
    ] as const)
      for (const [end, value] of Object.entries(at(range, shift, spread)))
        expect(before(key)[end as 'low'] / value).toBeCloseTo(1, 9);
    expect(result.readings).toEqual([]);
    expect(result.misfit).toEqual({ before: 0, after: 0 });
    expect(result.fits).toBe(true);
  });
});

describe('a fit put into its plan, by hand', () => {
  const put = (plan: ResolvedPlan, groups: Calibration['groups'], correlation: number[][]) =>
    applyFit(plan, { calibration: { groups, correlation } });

  test('multiplies the energizer’s volts at every load by one factor, and its range with it', () => {
    const plan = ladderPlan(['energizer']);
    // Half-way up (0.822 of 1.645): √1.2 of the volts. A spread of a quarter: 0.25 of the way on, and 0.25 back.
    const { loads } = put(plan, [{ key: 'energizer', shift: z95 / 2, spread: 0.25 }], [[1]]).energizer;
    expect(loads.map(({ ohms }) => ohms)).toEqual([null, 500]);
    [6000, 3000].forEach((volts, i) => {
      expect(loads[i]!.volts.low).toBeCloseTo(volts * 1.2 ** 0.25, 6);
      expect(loads[i]!.volts.typical).toBeCloseTo(volts * 1.2 ** 0.5, 6);
      expect(loads[i]!.volts.high).toBeCloseTo(volts * 1.2 ** 0.75, 6);
      expect(loads[i]!.volts.basis).toBe('derived');
      expect(loads[i]!.volts.source).toContain('calibrated by a fence meter');
    });
    expect(put(plan, [{ key: 'ground', shift: 1, spread: 1 }], [[1]]).energizer.loads).toEqual(plan.energizer.loads);
  });

  test('averages the ranges of loads in the logarithm', () => {
    const plan = ladderPlan([]);
    plan.energizer.loads = [
      { ohms: null, volts: ranged(3000, 6000, 12_000, 'V') },
      { ohms: 500, volts: ranged(1500, 3000, 24_000, 'V') },
    ];
    const { loads } = put(plan, [{ key: 'energizer', shift: 0, spread: 1 }], [[1]]).energizer;
    // Up twice and eight times: four times each. Down to a half at either.
    expect(loads.map(({ volts }) => volts.high)).toEqual([expect.closeTo(24_000, 6), expect.closeTo(12_000, 6)]);
    expect(loads.map(({ volts }) => volts.low)).toEqual([expect.closeTo(3000, 6), expect.closeTo(1500, 6)]);
    expect(loads.map(({ volts }) => volts.typical)).toEqual([6000, 3000]);
  });

  test('adds shifts in steps of the range that was left, holds them within six, and keeps what it does not know', () => {
    const plan = ladderPlan([]);
    plan.calibration = {
      groups: [
        { key: 'kept', shift: 0.3, spread: 0.9 },
        { key: 'moved', shift: 1, spread: 0.5 },
        { key: 'far', shift: 5, spread: 1 },
        { key: 'low', shift: -5, spread: 1 },
      ],
      correlation: [
        [1, 0.1, 0.2, 0.3],
        [0.1, 1, 0.4, 0.5],
        [0.2, 0.4, 1, 0.6],
        [0.3, 0.5, 0.6, 1],
      ],
    };
    const { calibration } = put(
      plan,
      [
        { key: 'new', shift: 0.7, spread: 0.8 },
        { key: 'moved', shift: 2, spread: 0.4 },
      ],
      [
        [1, -0.25],
        [-0.25, 1],
      ],
    );
    expect(calibration!.groups).toEqual([
      { key: 'new', shift: 0.7, spread: 0.8 },
      // 1 + 0.5 · 2, and 0.5 · 0.4.
      { key: 'moved', shift: 2, spread: 0.2 },
      { key: 'kept', shift: 0.3, spread: 0.9 },
      { key: 'far', shift: 5, spread: 1 },
      { key: 'low', shift: -5, spread: 1 },
    ]);
    // What readings told together keeps its correlation; old and new have none.
    expect(calibration!.correlation).toEqual([
      [1, -0.25, 0, 0, 0],
      [-0.25, 1, 0, 0, 0],
      [0, 0, 1, 0.2, 0.3],
      [0, 0, 0.2, 1, 0.6],
      [0, 0, 0.3, 0.6, 1],
    ]);
    const further = put(
      plan,
      [
        { key: 'far', shift: 3, spread: 1 },
        { key: 'low', shift: -3, spread: 1 },
      ],
      [
        [1, 0],
        [0, 1],
      ],
    ).calibration!;
    expect(further.groups.slice(0, 2).map(({ shift }) => shift)).toEqual([6, -6]);
  });
});

describe('spark gaps', () => {
  test('a fence with a ticking insulator that fires and is read as it solves needs no change of the tables', () => {
    const plan = ladderPlan(['energizer']);
    plan.faults = [
      {
        id: 'tick',
        kind: 'ticking insulator',
        run: 'north',
        post: 1,
        on: 'post',
        strand: 'top',
        otherStrand: null,
        ohms: exact(500, 'Ω'),
        gapVolts: exact(1000, 'V'),
        conditions: null,
      },
    ];
    const solved = solvePlan(plan).conditions[0]!.posts.find(({ id }) => id === 'b')!.strands[0]!.voltsToEarth;
    const result = fitted(plan, [{ post: 'b', kV: solved / 1000 }]);
    // The gap fires at 1000 V where some 3.7 kV stand, so that it matters what is made of it.
    expect(solved).toBeLessThan(0.95 * ladder(typicalLadder).volts[2]!);
    expect(result.readings[0]!.before / solved).toBeCloseTo(1, 6);
    expect(shiftOf(result, 'energizer')).toBeCloseTo(0, 6);
  });
});
