import { climates, patterns, prices, standardTables, tableSetSchema, weathers, works } from '@postvolt/tables';
import { expect, test } from 'vitest';
import { postvolt } from './run.js';

const shown = { ...standardTables, weathers, climates, patterns, prices, works };
const names = Object.keys(shown) as (keyof typeof shown)[];

test('without a name lists every table with its number of rows', async () => {
  const { code, stdout, stderr } = await postvolt(['tables']);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  for (const name of names) expect(stdout).toMatch(new RegExp(`^${name} +\\d+ `, 'm'));
  expect(stdout).toMatch(new RegExp(`^wires +${standardTables.wires.length} `, 'm'));
});

test.each(names)('%s: every row with low, typical, high, unit, basis and source, within 80 columns', async (name) => {
  const { code, stdout, stderr } = await postvolt(['tables', name]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  const rows = shown[name];
  if ('length' in rows)
    for (const { id } of rows) expect(stdout).toMatch(new RegExp(`^${id.replaceAll('.', '\\.')}$`, 'm'));
  for (const line of stdout.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
  if (name === 'weathers' || name === 'climates') expect(stdout).toContain('source: ');
  else if (name !== 'cautions') {
    if (name !== 'patterns') expect(stdout).toMatch(/Low +Typical +High +Unit +Basis +Source/);
    // As many numbered sources as are cited.
    const cited = new Set([...stdout.matchAll(/ \[(\d+)\]$/gm)].map((match) => match[1]));
    const listed = [...stdout.matchAll(/^ {2}\[(\d+)\] \S/gm)].map((match) => match[1]);
    expect(listed).toEqual([...cited]);
    expect(listed.length).toBeGreaterThan(0);
  }
});

test('values stand in the prefix that suits them', async () => {
  const { stdout } = await postvolt(['tables', 'wires', '12.5 ga high-tensile']);
  // Steel Wire Gauge, US: 12½ gauge is 0.099 in, 2.51 mm [from memory].
  expect(stdout).toMatch(/diameter +[\d.]+ +2\.51 +[\d.]+ +mm/);
  expect(stdout).toMatch(/ohms to the pulse +[\d.]+ +[\d.]+ +[\d.]+ +mΩ\/m +derived/);
  expect(stdout).not.toContain('14 ga');
});

test('a part of a name shows every row that holds it', async () => {
  const { stdout } = await postvolt(['tables', 'insulators', 'cheap']);
  const shown = stdout.split('\n').filter((line) => /^cheap /.test(line));
  expect(shown.length).toBe(standardTables.insulators.filter(({ id }) => id.includes('cheap')).length);
  expect(shown.length).toBeGreaterThan(1);
});

test('--json prints the tables themselves', async () => {
  const [all, soils] = await Promise.all([postvolt(['tables', '--json']), postvolt(['tables', 'soils', '--json'])]);
  const {
    weathers: weather,
    climates: climate,
    patterns: pattern,
    prices: price,
    works: work,
    ...rows
  } = JSON.parse(all.stdout);
  expect(tableSetSchema.parse(rows)).toEqual(standardTables);
  expect([weather, climate, pattern, price]).toEqual([weathers, climates, patterns, prices]);
  expect(work.slice(0, -1)).toEqual(works);
  expect(JSON.parse(soils.stdout)).toEqual(standardTables.soils);
});

test('a climate is shown by its months, a pattern by the heights of its strands', async () => {
  const [climate, pattern] = await Promise.all([
    postvolt(['tables', 'climates', 'Northern Temperate']),
    postvolt(['tables', 'patterns', 'cattle boundary']),
  ]);
  const { months } = climates.find(({ id }) => id === 'temperate')!;
  expect(climate.stdout).toMatch(/^ {2}july +rain, dew, dry spell +moderate +1 \(0\.7 to 1\.3\) +19 \(11 to 27\)$/m);
  expect(months[6]?.temperatureC.typical).toBe(19);
  expect(pattern.stdout).toContain('in practice: 20, 34 in; common practice [1]');
});
