import { parsePlan, readPlan, readResolvedPlan } from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import { findClimate, findWeather, standardTables } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { smallPlan } from './small-plan.js';

const read = (months: string, changes: (text: string) => string = (text) => text) =>
  readPlanText(changes(`${smallPlan}months: ${months}\n`), { file: 'home.yaml' });

function calendarOf(months: string, changes?: (text: string) => string) {
  const outcome = read(months, changes);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value.months!;
}

describe('months of a plan', () => {
  test('are null where the plan says nothing', () => {
    const outcome = readPlanText(smallPlan, { file: 'home.yaml' });
    expect(outcome.ok && outcome.value.months).toBeNull();
  });

  test('come from the climate, its rows in the plan’s tables', () => {
    const outcome = read('{climate: semi-arid}');
    if (!outcome.ok) throw new Error();
    const { months, rows } = outcome.value;
    const climate = findClimate('semi-arid')!;
    expect(months!.climate).toBe('semi-arid');
    months!.months.forEach((conditions, i) => {
      const { weathers, growth, heightFactor, temperatureC } = climate.months[i]!;
      expect(conditions.map(({ name }) => name)).toEqual(weathers);
      for (const condition of conditions) {
        const weather = findWeather(condition.name)!;
        const row = standardTables.vegetation.find(({ id }) => id === growth)!;
        expect(condition).toMatchObject({
          soil: weather.soil,
          film: weather.film,
          post: weather.post,
          growthWetness: weather.growth,
          groundCover: weather.groundCover,
          temperatureC: temperatureC.typical,
          growth: { vegetation: growth, heightM: row.usualHeightM.typical * heightFactor.typical },
        });
        expect(rows.vegetation).toHaveProperty(growth);
        expect(rows.groundCovers).toHaveProperty([weather.groundCover]);
      }
    });
    const ids = months!.months.flat().map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test('take conditions of the plan by name, and changes in the place of the climate’s', () => {
    const { months } = calendarOf(
      '{january: storm, february: [drought, summer], july: {weather: [dry spell, Slush], growth: heavy, growthHeight: 40 in, temperature: 86 °F}, august: {growthHeight: 1 m}}',
    );
    expect(months[0]!.map(({ id }) => id)).toEqual(['storm']);
    expect(months[1]!.map(({ id }) => id)).toEqual(['drought', 'summer']);
    expect(months[6]!.map(({ id }) => id)).toEqual(['july, dry spell', 'july, thaw']);
    expect(months[6]![0]).toMatchObject({ growth: { vegetation: 'heavy', heightM: 1.016 }, soil: 'dry' });
    expect(months[6]![0]!.temperatureC).toBeCloseTo(30, 9);
    expect(months[7]![0]!.growth).toEqual({ vegetation: 'moderate', heightM: 1 });
    expect(months[7]!.map(({ name }) => name)).toEqual(['rain', 'dew', 'dry spell']);
  });

  test('are those of the southern half of the world where the plan says so, or lies there', () => {
    const north = calendarOf('{climate: temperate}').months;
    expect(calendarOf('{climate: temperate, hemisphere: south}').months[6]![0]!.name).toBe(north[0]![0]!.name);
    const placed = (text: string) =>
      text
        .replace('junctions: [barn, corner,', 'junctions: {barn: {at: [170.5, -45.9]}, corner:, ')
        .replace('creek, hill]', 'creek:, hill: }');
    expect(calendarOf('{}', placed).months[6]![0]!.name).toBe(north[0]![0]!.name);
    expect(calendarOf('{hemisphere: north}', placed).months[0]![0]!.name).toBe(north[0]![0]!.name);
  });

  test('grow no more than mowing or spraying leaves, and no more than they would', () => {
    const { months } = calendarOf('{growthAtMost: light, june: {growth: heavy}}');
    expect(months[4]![0]!.growth.vegetation).toBe('light');
    expect(months[0]![0]!.growth.vegetation).toBe('trace');
    expect(months[5]![0]!.growth.vegetation).toBe('heavy');
    expect(calendarOf('{growthAtMost: none}').months[6]![0]!.growth).toEqual({ vegetation: 'none', heightM: 0 });
  });

  test('read back as they are from a resolved plan', () => {
    const outcome = read('{january: storm, may: {weather: rain}}');
    if (!outcome.ok) throw new Error();
    const again = readResolvedPlan(JSON.parse(JSON.stringify(outcome.value)));
    expect(again).toEqual({ ok: true, value: outcome.value, issues: again.issues });
  });
});

describe('what is wrong with months is said in their place', () => {
  test.each([
    ['{climate: tempreate}', ['months', 'climate'], /a row of the climates/, 'Did you mean "temperate"?'],
    ['{january: winter}', ['months', 'january'], /the name of a condition/, /^Known: "summer"/],
    [
      '{march: [storm, rain]}',
      ['months', 'march'],
      /the name of a condition/,
      'For the weather write {weather: rain}.',
    ],
    ['{march: {weather: rian}}', ['months', 'march', 'weather'], /a kind of weather/, 'Did you mean "rain"?'],
    ['{march: {weather: rain, growth: lush}}', ['months', 'march', 'growth'], /a row of the table of vegetation/, /./],
    ['{growthAtMost: mown}', ['months', 'growthAtMost'], /a row of the table of vegetation/, /^/],
  ])('%s', (months, path, expected, hint) => {
    const outcome = read(months);
    expect(outcome.ok).toBe(false);
    const [issue] = outcome.issues;
    expect(issue).toMatchObject({
      path,
      severity: 'error',
      expected: expect.stringMatching(expected),
      hint: expect.stringMatching(hint),
    });
    expect(issue!.at).not.toBeNull();
  });

  test.each([['{janury: storm}'], ['{january: 3}'], ['{january: []}'], ['{hemisphere: west}']])('%s', (months) => {
    const outcome = read(months);
    expect(outcome.ok).toBe(false);
    expect(outcome.issues[0]!.path[0]).toBe('months');
  });
});

test('a plan given as an object may have months too', () => {
  const outcome = readPlan({ formatVersion: 1 });
  expect(outcome.ok).toBe(false);
  expect(() => parsePlan({ months: { climate: 1 } })).toThrow(/months\.climate/);
});
