import { type ResolvedCondition, type ResolvedPlan, solvePlan } from '@postvolt/core';
import { months } from '@postvolt/core/studies';
import { readPlanText } from '@postvolt/core/yaml';
import { scenario } from '@postvolt/scenarios';
import { climates, findClimate, weathers } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { wordMonths } from '../../packages/core/src/studies/months/words.js';
import { exact, plainPlan, plainValues, strand } from '../support/fence.js';

function demoFarm(): ResolvedPlan {
  const outcome = readPlanText(scenario('demo farm').plan);
  if (!outcome.ok) throw new Error('the demo farm does not read');
  return outcome.value;
}

/** Growth with the row's usual height and wetness in round numbers, on a fence whose insulators leak nothing. */
function grassOnly(spans: number): ResolvedPlan {
  const plan = plainPlan();
  plan.runs[0] = { ...plan.runs[0]!, lengthM: 10 * spans };
  plan.builds[0] = { ...plan.builds[0]!, strands: [strand('top', { heightM: 0.6 })] };
  const { rows } = plan;
  rows.insulators['claw'] = { ...rows.insulators['claw']!, formFactor: exact(1e30) };
  rows.growthWetness = { dry: exact(0.1), damp: exact(0.4), wet: exact(1) };
  for (const [id, siemens] of [
    ['trace', 1e-6],
    ['light', 5e-6],
    ['moderate', 20e-6],
    ['heavy', 60e-6],
  ] as const)
    rows.vegetation[id] = {
      ...rows.vegetation[id]!,
      wetSiemensPerMetre: exact(siemens, 'S/m'),
      usualHeightM: exact(0.9, 'm'),
    };
  return plan;
}

describe('a uniform fence with nothing but growth, month by month', () => {
  const spans = 60;
  const plan = grassOnly(spans);
  const R = plainValues.ohmsPerMetre * 10;

  /** Volts at the far end: a ladder with half of a span’s leak at both ends (telegrapher’s equations at zero frequency). */
  function farVolts({ growth, growthWetness }: ResolvedCondition): number {
    const { wetSiemensPerMetre } = plan.rows.vegetation[growth.vegetation]!;
    const G =
      growth.heightM <= 0.6 ? 0 : 10 * wetSiemensPerMetre.typical * plan.rows.growthWetness[growthWetness].typical;
    const step = Math.acosh(1 + (R * G) / 2);
    const second = Math.cosh((spans - 1) * step) / Math.cosh(spans * step);
    const inputSiemens = G / 2 + (1 - second) / R;
    const { openVolts, sourceOhms, groundOhms } = plainValues;
    const first = openVolts / (1 + inputSiemens * (sourceOhms + groundOhms));
    return first / Math.cosh(spans * step);
  }

  test.each(climates.map(({ id }) => [id]))('%s', async (climate) => {
    const result = await months(plan, { climate });
    expect(result.months.map(({ month }) => month)).toHaveLength(12);
    for (const { weathers: found, volts, bestVolts } of result.months) {
      const expected = found.map(({ condition }) => farVolts(condition));
      found.forEach(({ weakest, condition }, w) => {
        if (condition.growth.heightM > 0.6) expect(weakest.postId).toBe('b');
        // Rounding of the closed form's own cosh and of the elimination, and 1e-30 S of insulators.
        expect(Math.abs(weakest.compared / expected[w]! - 1)).toBeLessThan(1e-9);
      });
      expect(volts).toBe(Math.min(...found.map(({ weakest }) => weakest.compared)));
      expect(bestVolts).toBe(Math.max(...found.map(({ weakest }) => weakest.compared)));
    }
    const all = result.months.map(({ volts }) => volts);
    expect(result.months.find(({ month }) => month === result.worst)!.volts).toBe(Math.min(...all));
    expect(result.months.find(({ month }) => month === result.best)!.volts).toBe(Math.max(...all));
    expect(result.cause.kind).toBe('vegetation');
  });
});

describe('the demo farm', () => {
  const plan = demoFarm();
  const study = months(plan, { climate: 'temperate' });

  test('every weather of every month is what solving the plan in that condition gives', async () => {
    const { months: found } = await study;
    const climate = findClimate('temperate')!;
    // Three months stand for all: a winter, a spring and a summer one.
    for (const m of [1, 4, 7]) {
      const { weathers: solved, holds } = found[m]!;
      expect(solved.map(({ condition }) => condition.name).sort()).toEqual([...climate.months[m]!.weathers].sort());
      const rows = (await withRows(plan)).rows;
      const conditions = solved.map(({ condition }) => condition);
      const whole = solvePlan({ ...plan, rows, conditions });
      solved.forEach(({ weakest, holds: held, starves }, w) => {
        const { verdict, warnings } = whole.conditions[w]!;
        expect(weakest.compared).toBeCloseTo(verdict.weakest.compared, 6);
        expect(weakest.animalVolts).toBeCloseTo(verdict.weakest.animalVolts, 6);
        expect(weakest.postId).toBe(verdict.weakest.postId);
        expect(held).toBe(verdict.holds);
        expect(starves).toBe(warnings.some(({ code }) => code === 'starved-animal'));
      });
      expect(holds).toBe(whole.holds);
    }
  });

  test('names the worst month and its cause, and says where the ground starves the animal', async () => {
    const result = await study;
    expect(result.calendar).toEqual({ from: 'climate', climate: 'temperate' });
    const worst = result.months.find(({ month }) => month === result.worst)!;
    // The leaks of an old stretch of cheap insulators in rain, by the scenario's own words.
    expect(worst.weathers[0]!.condition.name).toBe('rain');
    expect(result.cause).toMatchObject({ kind: 'insulators', cause: expect.stringMatching(/cheap t-post clip.*wet/) });
    expect(result.cause.volts).toBeGreaterThan(result.cause.atBestVolts);
    expect(result.sentence).toMatch(
      /^The fence holds 3 kV for cattle all year: (June|July|August) is the worst month, with 3\.\d kV at south 5\/\d+ \(rain\), where 2\.\d kV are lost to aged cheap t-post clip insulators, wet; January is the best, with 8\.\d kV\.$/,
    );
    expect(result.notes).toHaveLength(1);
    expect(result.notes[0]).toMatch(
      /^In July to August and November to March the ground starves the animal \(frost, snow, thaw, dry spell\): as little as \d+ V/,
    );
  });

  test('what the cause costs is won back when it is gone', async () => {
    const result = await study;
    const { condition, weakest } = result.months.find(({ month }) => month === result.worst)!.weathers[0]!;
    const { rows } = await withRows(plan);
    const clip = rows.insulators['cheap t-post clip']!;
    // The same clips, a film that conducts nothing: only their leak goes.
    const mended = {
      ...plan,
      conditions: [condition],
      rows: { ...rows, insulators: { ...rows.insulators, [clip.id]: { ...clip, formFactor: exact(1e30) } } },
    };
    const after = solvePlan(mended).conditions[0]!.posts.find(({ id }) => id === weakest.postId)!;
    const node = after.strands.find(({ run, strand: s }) => run === weakest.run && s === weakest.strand)!;
    expect(node.voltsToEarth - weakest.voltsToEarth).toBeCloseTo(result.cause.volts, 3);
  });

  test('a year of the plan’s own conditions keeps what only holds in them: stretches, switches', async () => {
    const [dry, autumn, winter, spring] = plan.conditions;
    const year = [winter, winter, spring, spring, spring, dry, dry, dry, autumn, autumn, autumn, winter];
    const own: ResolvedPlan = { ...plan, months: { climate: null, months: year.map((condition) => [condition!]) } };
    const result = await months(own);
    const whole = solvePlan(plan);
    result.months.forEach(({ volts, holds }, m) => {
      const { verdict } = whole.conditions.find(({ id }) => id === year[m]!.id)!;
      expect(volts).toBeCloseTo(verdict.weakest.compared, 6);
      expect(holds).toBe(verdict.holds);
    });
    expect(result.worst).toBe('September');
    expect(result.cause).toMatchObject({ kind: expect.stringMatching(/vegetation|insulators/) });
    expect(result.holds).toBe(false);
    expect(result.calendar).toEqual({ from: 'plan', climate: null });
    expect(result.sentence).toMatch(/^The fence falls short of 3 kV for cattle in September to November: /);
  });
});

/** The plan with every row that a climate may name. */
async function withRows(plan: ResolvedPlan): Promise<ResolvedPlan> {
  const text = `${scenario('demo farm').plan}\nmonths:\n  january: {weather: [${weathers.map(({ id }) => id).join(', ')}]}\n`;
  const outcome = readPlanText(text);
  if (!outcome.ok) throw new Error();
  return { ...plan, rows: outcome.value.rows };
}

describe('the calendar', () => {
  test('of the plan is taken unless another is asked for', async () => {
    const plan = grassOnly(3);
    const usual = plan.conditions[0]!;
    plan.months = { climate: 'snowy', months: Array.from({ length: 12 }, () => [usual]) };
    const own = await months(plan);
    expect(own.calendar).toEqual({ from: 'plan', climate: 'snowy' });
    expect(own.months.every(({ volts }) => volts === own.months[0]!.volts)).toBe(true);
    expect(own.sentence).toMatch(/the other months are much the same\.$/);
    expect((await months(plan, { climate: 'maritime' })).calendar).toEqual({ from: 'climate', climate: 'maritime' });
    const south = await months(plan, { hemisphere: 'south' });
    const north = await months(plan, { hemisphere: 'north' });
    expect(south.calendar).toEqual({ from: 'climate', climate: 'snowy' });
    expect(south.months.map(({ volts }) => volts)).toEqual(
      [...north.months.slice(6), ...north.months.slice(0, 6)].map(({ volts }) => volts),
    );
  });

  test('less growth never leaves fewer volts', async () => {
    const plan = grassOnly(30);
    const [grown, light, none] = await Promise.all(
      [{}, { growthAtMost: 'light' }, { growthAtMost: 'none' }].map((o) => months(plan, { climate: 'maritime', ...o })),
    );
    grown!.months.forEach(({ volts }, m) => {
      expect(light!.months[m]!.volts).toBeGreaterThanOrEqual(volts);
      expect(none!.months[m]!.volts).toBeGreaterThanOrEqual(light!.months[m]!.volts);
    });
    expect(light!.months[6]!.volts).toBeGreaterThan(grown!.months[6]!.volts);
  });

  test.each([
    [{ climate: 'maritim' }, 'climate: found "maritim", expected a row of the climates. Did you mean "maritime"?'],
    [{ growthAtMost: 'lush' }, 'growthAtMost: found "lush", expected a row of the vegetation table.'],
  ])('%j is refused', async (options, message) => {
    await expect(months(grassOnly(2), options)).rejects.toThrow(message);
  });
});

test.each([
  [[0, 1, 2], 'January to March'],
  [[0, 1, 10, 11], 'November to February'],
  [[6], 'July'],
  [[2, 4, 5], 'March and May to June'],
  [[0, 2, 4], 'January, March and May'],
  [[0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11], 'every month'],
])('%j reads as %s', (list, words) => {
  const names = [
    'January',
    'February',
    'March',
    'April',
    'May',
    'June',
    'July',
    'August',
    'September',
    'October',
    'November',
    'December',
  ];
  expect(wordMonths(names, list)).toBe(words);
});

describe('a long task', () => {
  test('an aborted signal ends it with the signal’s reason', async () => {
    await expect(months(grassOnly(2), { signal: AbortSignal.abort('enough') })).rejects.toBe('enough');
  });

  test('progress rises to 1, and the result survives JSON', async () => {
    const seen: number[] = [];
    const result = await months(grassOnly(2000), { onProgress: (done) => seen.push(done) });
    expect(seen).toEqual([...seen].sort((a, b) => a - b));
    expect(seen.at(-1)).toBe(1);
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });
});
