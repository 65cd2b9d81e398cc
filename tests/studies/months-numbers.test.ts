import { formatVolts, parsePlan, type ResolvedCondition, type ResolvedPlan, solvePlan } from '@postvolt/core';
import { months } from '@postvolt/core/studies';
import { describe, expect, test } from 'vitest';
import { planOf } from '../plan/small-plan.js';
import { earthReturnAt5kHz, exact } from '../support/fence.js';
import { fault, lossless } from './lossless.js';

const close = (value: number) => expect.closeTo(value, 6);

/** Ohms from the far end to earth that leave it so many of 6000 V behind 750 Ω. */
const leaving = (volts: number) => (750 * volts) / (6000 - volts);

/**
 * A lossless fence whose year is made of conditions of the plan, each with a wire on the ground that leaves the far end the
 * volts that its name says; `6000` has none.
 */
function yearOf(months: string[][], target = 3000, change: Partial<ResolvedPlan> = {}): ResolvedPlan {
  const ids = [...new Set(months.flat())];
  const faults = ids
    .filter((id) => id !== '6000')
    .map((id) => fault(`sag ${id}`, { conditions: [id], ohms: exact(leaving(Number(id)), 'Ω') }));
  const plan = lossless(faults, { target: { volts: target, of: 'to earth', label: 'the target' }, ...change });
  const [usual] = plan.conditions;
  plan.conditions = ids.map((id) => ({ ...usual!, id, name: `weather ${id}` }));
  const of = (id: string) => plan.conditions.find((condition) => condition.id === id)!;
  plan.months = { climate: null, months: months.map((weathers) => weathers.map(of)) };
  return plan;
}
/** A year of 6000 V but for some months, counted from 0. */
const year = (months: Record<number, string[]>) => Array.from({ length: 12 }, (_, m) => months[m] ?? ['6000']);

describe('a year by hand', () => {
  const some = year({ 1: ['6000', '1500', '4500'], 4: ['2000'], 5: ['6000', '2500'], 8: ['4500'] });

  test('a month counts by the worst of its weathers, the worst first', async () => {
    const { months: found } = await months(yearOf(some));
    expect(found.map(({ volts }) => volts)).toEqual(
      [6000, 1500, 6000, 6000, 2000, 2500, 6000, 6000, 4500, 6000, 6000, 6000].map(close),
    );
    expect(found.map(({ bestVolts }) => bestVolts)).toEqual(
      [6000, 6000, 6000, 6000, 2000, 6000, 6000, 6000, 4500, 6000, 6000, 6000].map(close),
    );
    expect(found[1]!.weathers.map(({ condition }) => condition.id)).toEqual(['1500', '4500', '6000']);
    expect(found[1]!.weathers.map(({ holds }) => holds)).toEqual([false, true, true]);
    expect(found.flatMap(({ month, holds }) => (holds ? [] : [month]))).toEqual(['February', 'May', 'June']);
    expect([found[0]!.label, found[8]!.label]).toEqual(['Jan', 'Sep']);
  });

  test('the sentence names the months that fall short, the worst, its cause and the best', async () => {
    const result = await months(yearOf(some));
    expect(result).toMatchObject({ holds: false, worst: 'February', best: 'January' });
    expect(result.cause).toMatchObject({ kind: 'fault', volts: close(4500), atBestVolts: 0 });
    expect(result.sentence).toBe(
      `The fence falls short of 3 kV for the target in February and May to June: February is the worst month, with 1.5 kV at b (weather 1500), where 4.5 kV are lost to ${result.cause.cause}; January is the best, with 6 kV.`,
    );
    expect(result.cause.cause).toContain('wire on ground');
  });

  test('the fence holds all year only where every month does', async () => {
    const holding = await months(yearOf(some, 1400));
    expect(holding.holds).toBe(true);
    expect(holding.sentence).toMatch(/^The fence holds 1\.4 kV for the target all year: February is the worst month/);
    const one = await months(yearOf(some, 1600));
    expect(one.holds).toBe(false);
    expect(one.sentence).toMatch(/^The fence falls short of 1\.6 kV for the target in February: /);
    // One weather that holds does not make a month, nor eleven months a year.
    expect(one.months[1]!.holds).toBe(false);
    expect(one.months.filter(({ holds }) => holds)).toHaveLength(11);
    expect((await months(yearOf(some, 7000))).sentence).toContain('falls short of 7 kV for the target in every month');
  });

  test('the best month has the most volts in its worst weather', async () => {
    const result = await months(yearOf(year({}).map((_, m) => (m === 6 ? ['5000'] : ['6000', '4500']))));
    expect(result).toMatchObject({ worst: 'January', best: 'July' });
    expect(result.sentence).toMatch(/; July is the best, with 5 kV\.$/);
  });

  test('what is lost is measured against the fairest weather of the year, not against the best month', async () => {
    // The weather without a fault comes in the worst month only: it is what the season is set beside.
    const result = await months(yearOf(year({}).map((_, m) => (m === 6 ? ['6000', '1500'] : ['4500']))));
    expect(result).toMatchObject({ worst: 'July', best: 'January' });
    expect(result.cause).toMatchObject({ volts: close(4500), atBestVolts: 0 });
  });

  // 2 % of 6000 V are 120 V; the fault's own loss is 6000 less what it leaves, against 2 % of that.
  test.each([
    ['5890', 'the other months are much the same', false],
    // 5881 / 6000 = 0.9802; 119 V lost are 2.02 % of 5881.
    ['5881', 'the other months are much the same', true],
    ['5879', 'January is the best, with 6 kV', true],
  ])('%s V in one month and 6000 V in the others', async (volts, best, tellsCause) => {
    const { sentence } = await months(yearOf(year({ 3: [volts] })));
    expect(sentence.endsWith(`; ${best}.`)).toBe(true);
    expect(sentence.includes('are lost to')).toBe(tellsCause);
    expect(sentence).toContain(`April is the worst month, with 5.9 kV at b (weather ${volts})`);
  });

  test('the wire is no cause of the season, though it rise most', async () => {
    // Two faults of 10 Ω at the end of 2000 Ω of wire shadow each other: taking the wire away wins more than either.
    const faults = [
      fault('one', { ohms: exact(10, 'Ω'), conditions: ['wet'] }),
      fault('two', { ohms: exact(10, 'Ω'), conditions: ['wet'], kind: 'branch on wire' }),
    ];
    const plan = lossless(faults);
    const wire = plan.rows.wires['wire']!;
    plan.rows.wires['wire'] = { ...wire, ohmsPerMetre: exact(100 - earthReturnAt5kHz, 'Ω/m') };
    const [usual] = plan.conditions;
    const wet = { ...usual!, id: 'wet', name: 'wet' };
    plan.conditions = [usual!, wet];
    plan.months = { climate: null, months: year({}).map((_, m) => [m === 2 ? wet : usual!]) };
    const { costs, cause, worst } = await months(plan);
    expect(worst).toBe('March');
    // 6000 V behind 2550 Ω, 550 Ω without the wire, 2500 Ω without the ground; 5 Ω of both faults, 10 Ω of one.
    const now = (6000 * 5) / 2555;
    const [first, ...others] = costs.filter(({ volts }) => volts > 1e-3);
    expect(first).toMatchObject({ kind: 'wire', volts: close((6000 * 5) / 555 - now), atBestVolts: close(0) });
    expect(others.map(({ kind, volts }) => [kind, volts])).toEqual([
      ['fault', close((6000 * 10) / 2560 - now)],
      ['fault', close((6000 * 10) / 2560 - now)],
      ['ground', close((6000 * 5) / 2505 - now)],
    ]);
    expect(cause).toEqual(others[0]);
  });

  test('a cause counts by its rise over the best weather', async () => {
    // 700 Ω to earth all year, and 800 Ω beside them in January.
    const plan = lossless([
      fault('always', { kind: 'branch on wire', ohms: exact(700, 'Ω') }),
      fault('wet', { conditions: ['wet'], ohms: exact(800, 'Ω') }),
    ]);
    const [usual] = plan.conditions;
    const wet = { ...usual!, id: 'wet', name: 'wet' };
    plan.conditions = [usual!, wet];
    plan.months = { climate: null, months: year({}).map((_, m) => [m === 0 ? wet : usual!]) };
    const { costs, cause } = await months(plan);
    const both = (700 * 800) / 1500;
    const now = (6000 * both) / (750 + both);
    const without = { always: (6000 * 800) / 1550 - now, wet: (6000 * 700) / 1450 - now };
    expect(without.always).toBeGreaterThan(without.wet);
    // Both are faults: what the same kind costs in the best weather is 6000 − 6000 · 700 / 1450.
    const atBest = 6000 - (6000 * 700) / 1450;
    const faults = costs.filter(({ kind }) => kind === 'fault');
    expect(faults.map(({ volts, atBestVolts }) => [volts, atBestVolts])).toEqual([
      [close(without.always), close(atBest)],
      [close(without.wet), close(atBest)],
    ]);
    const rises = costs.map(({ volts, atBestVolts }) => volts - atBestVolts);
    expect(rises).toEqual([...rises].sort((x, y) => y - x));
    expect(cause.kind).not.toBe('wire');
    expect(cause.volts - cause.atBestVolts).toBe(
      Math.max(...costs.filter(({ kind }) => kind !== 'wire').map((c) => c.volts - c.atBestVolts)),
    );
  });
});

describe('the animal on bad ground', () => {
  const starving = (of: ResolvedPlan['target']['of']) => {
    const plan = yearOf(year({ 0: ['4500'], 2: ['2000'] }), 3000, { target: { volts: 3000, of, label: 'the target' } });
    plan.months!.months = plan.months!.months.map((weathers, m) =>
      [0, 1, 2, 11].includes(m)
        ? [...weathers, ...weathers.map((own) => ({ ...own, groundCover: 'dry snow', name: `snow ${own.id}` }))]
        : weathers,
    );
    // Each weather is a condition of the plan, so that its fault holds in it.
    const own = plan.months!.months.flat().map((condition) => ({ ...condition, id: condition.name }));
    plan.conditions = [...new Map(own.map((condition) => [condition.id, condition])).values()];
    plan.months!.months = plan.months!.months.map((weathers) => weathers.map((w) => ({ ...w, id: w.name })));
    plan.faults = plan.faults.map((sag) => ({
      ...sag,
      conditions: [`weather ${sag.conditions![0]}`, `snow ${sag.conditions![0]}`],
    }));
    return plan;
  };

  test('is told, with the least that it gets and what the wire has there', async () => {
    const plan = starving('to earth');
    const { notes, months: found } = await months(plan);
    expect(found.map(({ weathers }) => weathers.filter(({ starves }) => starves).length)).toEqual([
      1, 1, 1, 0, 0, 0, 0, 0, 0, 0, 0, 1,
    ]);
    const { weakest } = solvePlan(plan).conditions.find(({ name }) => name === 'snow 2000')!.verdict;
    expect(weakest.animalVolts).toBeLessThan(weakest.voltsToEarth / 2);
    expect(notes).toHaveLength(1);
    expect(notes[0]).toContain(
      `In December to March the ground starves the animal (snow 4500, snow 6000, snow 2000): as little as ${formatVolts(weakest.animalVolts)} across it where the wire has 2 kV.`,
    );
  });

  test('needs no telling where it is what the target compares', async () => {
    const plan = starving('across the animal');
    const { notes, months: found, sentence } = await months(plan);
    expect(notes).toEqual([]);
    const { weakest } = solvePlan(plan).conditions.find(({ name }) => name === 'snow 2000')!.verdict;
    expect(found[2]!.volts).toBeCloseTo(weakest.animalVolts, 6);
    expect(sentence).toContain(
      `March is the worst month, with ${formatVolts(weakest.animalVolts)} across the animal at b (snow 2000)`,
    );
  });

  test('is not told where it never is', async () => {
    expect((await months(yearOf(year({ 1: ['1500'] })))).notes).toEqual([]);
  });
});

test('weathers that differ in one thing alone are solved each for itself', async () => {
  const plan = parsePlan(
    planOf((p) => {
      p['target'] = { volts: '3 kV', of: 'across the animal' };
      p.runs.north['length'] = '400 ft';
      p.runs.west['length'] = '800 ft';
      // So that the rows are there.
      p.conditions['winter'] = { soil: 'frozen', groundCover: 'wet snow', growth: 'trace', temperature: '-5 °C' };
    }),
  );
  const base: ResolvedCondition = { ...plan.conditions[0]!, id: 'base', name: 'base' };
  const changes: Partial<ResolvedCondition>[] = [
    {},
    { soil: 'wet' },
    { film: 'wet' },
    { post: 'wet' },
    { growthWetness: 'wet' },
    { growth: { ...base.growth, vegetation: 'trace' } },
    { growth: { ...base.growth, heightM: 1.2 } },
    { groundCover: 'wet snow' },
    { temperatureC: -20 },
    // The same as the first, under another name.
    {},
    {},
    {},
  ];
  const weathers = changes.map((change, n) => ({ ...base, ...change, id: `w${n}`, name: `w${n}` }));
  const result = await months({ ...plan, months: { climate: null, months: weathers.map((w) => [w]) } });
  const volts = solvePlan({ ...plan, conditions: weathers }).conditions.map(({ verdict }) => verdict.weakest.compared);
  expect(result.months.map((month) => month.volts)).toEqual(volts.map(close));
  // Steel posts leak the same dry and wet, and none is like the first but the last three.
  const rounded = volts.map((v) => Math.round(v * 1e3));
  expect(new Set(rounded.filter((_, n) => n !== 3)).size).toBe(8);
});

test('the hemisphere is that of the plan’s places unless it is said', async () => {
  const at = (latitude: number | null) => {
    const plan = lossless([]);
    // Growth alone leaks, on a strand that stands in it.
    plan.builds[0] = { ...plan.builds[0]!, strands: plan.builds[0]!.strands.map((s) => ({ ...s, heightM: 0.3 })) };
    if (latitude !== null)
      plan.junctions = plan.junctions.map((junction) => ({ ...junction, at: [10, latitude] as [number, number] }));
    return plan;
  };
  const volts = async (...asked: Parameters<typeof months>) => (await months(...asked)).months.map((m) => m.volts);
  const north = await volts(at(null), { climate: 'temperate' });
  const south = [...north.slice(6), ...north.slice(0, 6)];
  expect(south).not.toEqual(north);
  expect(await volts(at(50), { climate: 'temperate' })).toEqual(north);
  expect(await volts(at(-40), { climate: 'temperate' })).toEqual(south);
  expect(await volts(at(-40), { climate: 'temperate', hemisphere: 'north' })).toEqual(north);
  expect(await volts(at(50), { climate: 'temperate', hemisphere: 'south' })).toEqual(south);
  // Where no calendar is given and none is asked for it is the temperate year.
  expect((await months(at(null))).calendar).toEqual({ from: 'climate', climate: 'temperate' });
  expect(await volts(at(null))).toEqual(north);
});
