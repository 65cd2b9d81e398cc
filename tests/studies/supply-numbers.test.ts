import { type ResolvedPlan, solvePlan } from '@postvolt/core';
import { supply } from '@postvolt/core/studies';
import { rodArray, standardTables } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { exact } from '../support/fence.js';
import { fault, lossless, withCold } from './lossless.js';

const close = (value: number) => expect.closeTo(value, 6);
const quick = { counts: [], mostRods: 1 };
const rod = { lengthM: 2, diameterM: 0.016, spacingM: 3, layout: 'line' } as const;

const targeted = (volts: number, plan = lossless([fault('sag')])): ResolvedPlan => ({
  ...plan,
  target: { volts, of: 'to earth', label: 'the target' },
});
/** Rods in place of the measured ground, in deep soil of so many Ω·m when moist and twice as many when dry. */
function onRods(plan: ResolvedPlan, count: number, ohmM: number): ResolvedPlan {
  const at = (deep: number) => ({ topsoilOhmM: exact(1e-12, 'Ω·m'), deepOhmM: exact(deep, 'Ω·m') });
  const states = { dry: at(2 * ohmM), moist: at(ohmM), wet: at(ohmM), frozen: at(ohmM) };
  return {
    ...plan,
    energizer: { ...plan.energizer, ground: { kind: 'rods', count, ...rod } },
    rows: { ...plan.rows, soils: { loam: { ...plan.rows.soils['loam']!, states } } },
  };
}
/** One rod in 1 Ω·m: H. B. Dwight 1936, (1/2πL)(ln(4L/a) − 1). */
const one = (Math.log((4 * rod.lengthM) / (rod.diameterM / 2)) - 1) / (2 * Math.PI * rod.lengthM);

describe('a fence with one leak, by hand', () => {
  // 6 kV behind 500 Ω, 50 Ω of ground, 200 Ω of wire and 250 Ω to earth: 1500 V at b, and 3 kV at 500 Ω. Each volt of the
  // target asks for two at 500 Ω.
  test.each([
    [1200, true, 2400],
    [1500 - 1e-6, true, 3000],
    [1501, false, 3002],
    [1800, false, 3600],
  ])('to hold %d V', async (volts, holds, needed) => {
    const { present, leastOutput, perfectGround, conditions } = await supply(targeted(volts), quick);
    expect(present).toEqual({ voltsAt500: close(3000), class: null, rods: null, holds });
    expect(leastOutput.factor).toBeCloseTo(needed / 3000, 6);
    expect(leastOutput.voltsAt500).toBeCloseTo(needed, 4);
    // Without the ground's 50 Ω: 6000 · 250 / 950.
    expect(perfectGround.factor).toBeCloseTo((volts * 950) / 1.5e6, 6);
    expect(conditions).toEqual([
      {
        ...{ id: 'usual', name: 'usual', groundOhms: close(50), weakestVolts: close(1500), weakestPost: 'b' },
        ...{ leastFactor: expect.closeTo(needed / 3000, 6), leastVoltsAt500: expect.closeTo(needed, 4), cutOff: false },
      },
    ]);
  });

  test('the condition that asks for the most decides', async () => {
    // In the cold half the volts: 750 V.
    for (const order of ['as listed', 'reversed']) {
      const plan = targeted(1200, withCold(lossless([fault('sag')])));
      if (order === 'reversed') plan.conditions = [...plan.conditions].reverse();
      const { leastOutput, present, conditions } = await supply(plan, quick);
      expect(leastOutput).toMatchObject({ decides: 'cold', factor: close(1200 / 750), voltsAt500: close(4800) });
      expect(present).toMatchObject({ holds: false, voltsAt500: close(3000) });
      const byId = Object.fromEntries(conditions.map(({ id, leastVoltsAt500 }) => [id, leastVoltsAt500]));
      expect(byId).toEqual({ usual: close(2400), cold: close(4800) });
    }
    const alone = await supply(targeted(1200, withCold(lossless([fault('sag')]))), { ...quick, conditions: ['usual'] });
    expect(alone.leastOutput).toMatchObject({ decides: 'usual', factor: close(0.8) });
    expect(alone.present.holds).toBe(true);
  });

  test('a condition that a fault cuts off decides over any other', async () => {
    const plan = targeted(1200, withCold(lossless([fault('sag')])));
    plan.faults.push(fault('gap', { kind: 'broken wire', post: 1, on: 'span', ohms: null, conditions: ['usual'] }));
    const { leastOutput, conditions, sentence } = await supply(plan, quick);
    expect(leastOutput).toMatchObject({ decides: 'usual', factor: null, voltsAt500: null, beyondTables: false });
    expect(conditions.map(({ cutOff }) => cutOff)).toEqual([true, false]);
    expect(conditions[0]).toMatchObject({ leastFactor: null, leastVoltsAt500: null });
    expect(sentence).toBe('No output holds 1.2 kV for the target in usual: a fault cuts posts off from the energizer.');
  });

  test('the generic classes, smallest first, hold where a plan with them does', async () => {
    const plan = targeted(1500);
    const { classes, leastOutput } = await supply(plan, quick);
    const rows = [...standardTables.energizers].sort((a, b) => a.joules - b.joules);
    expect(classes.map(({ id }) => id)).toEqual(rows.map(({ id }) => id));
    for (const [c, { joules, voltsAt500, holds }] of classes.entries()) {
      const row = rows[c]!;
      const { low, typical, high } = row.loads.find(({ ohms }) => ohms === 500)!.volts;
      expect(joules).toBe(row.joules);
      expect(voltsAt500).toEqual({ low: close(low), typical: close(typical), high: close(high) });
      const own = { ...plan, energizer: { ...plan.energizer, loads: [...row.loads] } };
      expect(holds, row.id).toBe(solvePlan(own).holds);
    }
    const holding = classes.filter(({ holds }) => holds);
    expect(holding.length).toBeGreaterThan(0);
    expect(holding.length).toBeLessThan(classes.length);
    expect(leastOutput.class).toBe(holding[0]!.id);
  });

  test('beyond the tables is what no class gives at the top of its range', async () => {
    const most = Math.max(...standardTables.energizers.map(({ loads }) => loads[1]!.volts.high));
    // Two volts at 500 Ω for each of the target.
    const under = await supply(targeted(most / 2 - 1), quick);
    const over = await supply(targeted(most / 2 + 1), quick);
    expect([under.leastOutput.beyondTables, over.leastOutput.beyondTables]).toEqual([false, true]);
  });
});

describe('rods', () => {
  // The rest of the loop is 950 Ω: 1.5e6 / (950 + R) V at b.
  const volts = (ohms: number) => 1.5e6 / (950 + ohms);

  test('the trade-off: ohms, least output and whether it holds, in every condition', async () => {
    const ohmM = 100;
    const plan = targeted(1500, onRods(lossless([fault('sag')]), 3, ohmM));
    const [usual] = plan.conditions;
    plan.conditions = [usual!, { ...usual!, id: 'drought', name: 'drought', soil: 'dry' }];
    const { tradeOff, leastRods, leastOutput, present, rod: kind } = await supply(plan, { mostRods: 8 });
    expect(kind).toEqual(rod);
    expect(present.rods).toBe(3);
    expect(tradeOff.map(({ rods }) => rods)).toEqual([1, 2, 3, 4, 6, 8]);
    for (const line of tradeOff) {
      const ohms = rodArray({ ...rod, count: line.rods }).ohmsPerOhmM * ohmM;
      if (line.rods === 1) expect(ohms).toBeCloseTo(one * ohmM, 9);
      expect(line.leastOhms).toBeCloseTo(ohms, 6);
      expect(line.mostOhms).toBeCloseTo(2 * ohms, 6);
      expect(line.decides).toBe('drought');
      expect(line.factor).toBeCloseTo(1500 / volts(2 * ohms), 6);
      expect(line.voltsAt500).toBeCloseTo((3000 * 1500) / volts(2 * ohms), 3);
      expect(line.holds).toBe(volts(2 * ohms) >= 1500);
    }
    // 50 Ω leave 1500 V just so: fewest rods whose ohms in dry soil are no more.
    const enough = [1, 2, 3, 4, 5, 6, 7, 8].find((count) => rodArray({ ...rod, count }).ohmsPerOhmM * 2 * ohmM <= 50)!;
    expect(enough).toBeGreaterThan(1);
    expect(leastRods).toBe(enough);
    expect((await supply(plan, { counts: [], mostRods: enough })).leastRods).toBe(enough);
    expect((await supply(plan, { counts: [], mostRods: enough - 1 })).leastRods).toBeNull();
    expect(leastOutput.factor).toBeCloseTo(tradeOff[2]!.factor!, 9);
  });

  test('the counts asked for, in order and once each; other rods where asked for', async () => {
    const plan = onRods(targeted(1200), 2, 100);
    const { tradeOff, rod: kind } = await supply(plan, { counts: [5, 2, 5], mostRods: 1, rod: { lengthM: 3 } });
    expect(tradeOff.map(({ rods }) => rods)).toEqual([2, 5]);
    expect(kind).toEqual({ ...rod, lengthM: 3 });
    const ohms = rodArray({ ...rod, lengthM: 3, count: 2 }).ohmsPerOhmM * 100;
    expect(tradeOff[0]!.mostOhms).toBeCloseTo(ohms, 6);
    // The usual ones where the ground was measured: 6 ft by 5/8 in, 10 ft apart.
    expect((await supply(targeted(1200), quick)).rod).toEqual({
      ...{ lengthM: close(1.8288), diameterM: close(0.015875), spacingM: close(3.048), layout: 'line' },
    });
  });

  // 3 ft of rod a joule and three rods at the least: 0.9144 m · J / L.
  test.each([
    [6, 1.8288, 3],
    [6.1, 1.8288, 4],
    [8, 1.8288, 4],
    [8.1, 1.8288, 5],
    [20, 3.048, 6],
    [1, 2, 3],
  ])('by the rule of thumb for %d J of rods %d m long', async (joules, lengthM, rods) => {
    const plan = targeted(1200);
    plan.energizer = { ...plan.energizer, joules };
    expect((await supply(plan, { ...quick, rod: { lengthM } })).ruleOfThumbRods).toBe(rods);
  });

  test('no rule of thumb without joules', async () => {
    expect((await supply(targeted(1200), quick)).ruleOfThumbRods).toBeNull();
  });
});

describe('the sentence', () => {
  const smallest = async (plan: ResolvedPlan) => {
    const { leastOutput } = await supply(plan, quick);
    return leastOutput.class!.replace(/ j$/, ' J');
  };

  test('where it holds', async () => {
    const plan = targeted(1200);
    const { sentence } = await supply(plan, quick);
    expect(sentence).toBe(
      `The energizer's 3 kV at 500 Ω holds 1.2 kV for the target on its measured ground; 2.4 kV at 500 Ω (generic class ${await smallest(plan)}) would do, decided by usual.`,
    );
  });

  test('fewer rods are named where they are fewer', async () => {
    // Next to no ohms: one rod does.
    const with3 = await supply(onRods(targeted(1200), 3, 1e-6), quick);
    expect(with3.sentence).toContain(' on its 3 rods; ');
    expect(with3.sentence).toContain(' would do, or 1 rod with the energizer it has, decided by usual.');
    const with1 = await supply(onRods(targeted(1200), 1, 1e-6), quick);
    expect(with1.sentence).toContain(' on its 1 rod; ');
    expect(with1.sentence).toContain(' would do, decided by usual.');
  });

  test('where it falls short, with the rods that would mend it or without', async () => {
    // 1550 V: on 17.7 Ω or less, which one rod in next to no ohms has; 1600 V on none.
    const some = await supply(targeted(1550), quick);
    expect(some.sentence).toBe(
      `To hold 1.6 kV for the target on its measured ground the fence needs 3.1 kV at 500 Ω (generic class ${await smallest(targeted(1550))}) in place of 3 kV at 500 Ω, decided by usual; the energizer that it has is enough with 1 rod.`,
    );
    const none = await supply(targeted(1600), { counts: [], mostRods: 5 });
    expect(none.sentence).toMatch(
      /^To hold 1\.6 kV .* needs 3\.2 kV at 500 Ω .*; no number of rods up to 5 makes the energizer that it has enough\.$/,
    );
  });

  test('where the output is beyond every class but one of them does with its other curve', async () => {
    const { sentence, leastOutput, classes } = await supply(targeted(30_000), quick);
    expect(leastOutput).toMatchObject({ beyondTables: true, class: null });
    const most = (classes.at(-1)!.voltsAt500.high / 1000).toFixed(1);
    expect(sentence).toContain(
      `the fence needs more on its own curve than any known energizer gives, ${most} kV at 500 Ω at the most (no generic class does), in place of 3 kV at 500 Ω`,
    );
  });
});

describe('the ground test, by hand', () => {
  // No leak but the short: 6000 = 2000 + I (500 + 200 + R), and the rod rises by I R. One metre from a rod of 2 m the soil
  // has asinh(2) / (ln(4L/a) − 1) of the rise (potential of a line source).
  const kept = 1 - Math.asinh(rod.lengthM) / (one * 2 * Math.PI * rod.lengthM);
  /** Soil in which a single rod reads so many volts. */
  const soilFor = (readVolts: number) => {
    const rise = readVolts / kept;
    return (700 * rise) / (4000 - rise) / one;
  };
  const tested = async (readVolts: number, options: Parameters<typeof supply>[1] = {}) =>
    (await supply(onRods(targeted(1200, lossless([])), 1, soilFor(readVolts)), { ...quick, ...options }))
      .groundTests[0]!;

  test.each([
    [100, 'passes', 1],
    [199, 'passes', 1],
    [201, 'borderline', 1],
    [299, 'borderline', 1],
    [301, 'fails', null],
    [800, 'fails', null],
  ] as const)('a reading of %i V %s', async (readVolts, verdict, rodsToPass) => {
    const found = await tested(readVolts);
    const rise = readVolts / kept;
    const ohms = soilFor(readVolts) * one;
    expect(found).toMatchObject({
      ...{ condition: 'usual', soil: 'loam', rods: 1, shortPost: 'b', shortAtM: close(20), verdict, rodsToPass },
      ...{ groundOhms: close(ohms), fenceVolts: close(2000), riseVolts: expect.closeTo(rise, 4) },
      ...{ readVolts: expect.closeTo(readVolts, 4), probeVolts: expect.closeTo(rise - readVolts, 4) },
    });
    expect(found.amps).toBeCloseTo(rise / ohms, 6);
    expect(found.shortOhms).toBeCloseTo((2000 * ohms) / rise, 4);
  });

  test('the fewest rods that read no more than 300 V', async () => {
    const { rodsToPass } = await tested(500, { mostRods: 24 });
    const reads = async (count: number) => {
      const plan = onRods(targeted(1200, lossless([])), count, soilFor(500));
      return (await supply(plan, quick)).groundTests[0]!.readVolts!;
    };
    expect(rodsToPass).toBeGreaterThan(1);
    expect(await reads(rodsToPass!)).toBeLessThanOrEqual(300);
    expect(await reads(rodsToPass! - 1)).toBeGreaterThan(300);
  });

  test.each([
    [0, 'a', 0],
    [5, 'north/1', 10],
    [10, 'north/1', 10],
    [10.1, 'b', 20],
    [20, 'b', 20],
    // No post is so far: the farthest.
    [100, 'b', 20],
  ])('shorted at %d m or beyond: at %s', async (shortAtM, post, atM) => {
    const { shortPost, shortAtM: at, amps } = await tested(200, { shortAtM });
    expect([shortPost, at]).toEqual([post, close(atM)]);
    const ohms = soilFor(200) * one;
    expect(amps).toBeCloseTo(4000 / (500 + 10 * atM + ohms), 6);
  });

  test('shorted to other volts, or to more than it has', async () => {
    const ohms = soilFor(200) * one;
    expect((await tested(200, { shortVolts: 1000 })).amps).toBeCloseTo(5000 / (700 + ohms), 6);
    const open = await tested(200, { shortVolts: 6500 });
    expect(open).toMatchObject({ shortOhms: null, fenceVolts: close(6000) });
    expect(open.amps).toBeCloseTo(0, 6);
    expect(open.readVolts).toBeCloseTo(0, 6);
  });

  test('in each condition and each soil; the trade-off has the highest reading', async () => {
    const plan = onRods(targeted(1200, lossless([])), 1, 100);
    const [usual] = plan.conditions;
    plan.conditions = [usual!, { ...usual!, id: 'drought', name: 'drought', soil: 'dry' }];
    const { groundTests, tradeOff } = await supply(plan, { counts: [1], mostRods: 1, soils: ['clay', 'clay', 'loam'] });
    expect(groundTests.map(({ condition, soil }) => `${condition} ${soil}`)).toEqual([
      'usual loam',
      'usual clay',
      'drought loam',
      'drought clay',
    ]);
    const clay = standardTables.soils.find(({ id }) => id === 'clay')!.states;
    const ohms = [100, clay.moist.deepOhmM.typical, 200, clay.dry.deepOhmM.typical].map((ohmM) => ohmM * one);
    expect(groundTests.map(({ groundOhms }) => groundOhms)).toEqual(ohms.map(close));
    const reads = ohms.map((R) => (kept * 4000 * R) / (700 + R));
    expect(groundTests.map(({ readVolts }) => readVolts)).toEqual(reads.map((v) => expect.closeTo(v, 4)));
    // In the plan's own soil: the dry one reads more.
    expect(tradeOff[0]!.testVolts).toBeCloseTo(reads[2]!, 4);
  });

  test('of a measured ground system there is one test a condition, in the plan’s soil', async () => {
    const { groundTests } = await supply(withCold(lossless([])), { ...quick, soils: ['clay'] });
    expect(groundTests.map(({ condition, soil }) => `${condition} ${soil}`)).toEqual(['usual loam', 'cold loam']);
    // 6000 = 2000 + I · 750, and 3000 in the cold.
    expect(groundTests.map(({ amps }) => amps)).toEqual([close(4000 / 750), close(1000 / 750)]);
    expect(groundTests.map(({ riseVolts }) => riseVolts)).toEqual([close(200_000 / 750), close(50_000 / 750)]);
  });
});

test.each([
  [{ rod: { lengthM: 0.01 } }, /rod\.lengthM: found 0\.01, expected more than the diameter/],
  [{ rod: { lengthM: 0.015875 } }, /rod\.lengthM.*more than the diameter/],
  [{ rod: { lengthM: Number.POSITIVE_INFINITY } }, /rod\.lengthM: found Infinity/],
  [{ rod: { diameterM: 0 } }, /rod\.diameterM: found 0/],
  [{ rod: { spacingM: 0.015875 } }, /rod\.spacingM.*more than the diameter/],
  [{ probeM: 0.0079375 }, /probeM.*outside the rod/],
  [{ probeM: Number.POSITIVE_INFINITY }, /probeM: found Infinity/],
  [{ shortVolts: Number.POSITIVE_INFINITY }, /shortVolts: found Infinity/],
  [{ shortAtM: Number.NaN }, /shortAtM: found NaN/],
  [{ mostRods: 0 }, /mostRods: found 0/],
  [{ mostRods: 501 }, /mostRods: found 501, expected a whole number from 1 to 500/],
  [{ counts: [2, 501] }, /counts: found 501, expected whole numbers from 1 to 500/],
  [{ counts: [1.5] }, /counts: found 1\.5/],
])('%j is refused', async (options, message) => {
  await expect(supply(lossless([]), options)).rejects.toThrow(message);
});

test('the smallest numbers that a test can have are taken', async () => {
  const options = { ...quick, shortAtM: 0, probeM: 0.008, shortVolts: 1, rod: { spacingM: 0.016, lengthM: 0.016 } };
  await expect(supply(lossless([]), options)).resolves.toMatchObject({ probeM: 0.008 });
});
