import { standardTables, tableSetSchema } from '@postvolt/tables';
import { expect, test } from 'vitest';
import { postvolt } from './run.js';

const names = Object.keys(standardTables);

test('without a name lists every table with its number of rows', async () => {
  const { code, stdout, stderr } = await postvolt(['tables']);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  for (const name of names) expect(stdout).toMatch(new RegExp(`^${name} +\\d+ `, 'm'));
  expect(stdout).toMatch(new RegExp(`^wires +${standardTables.wires.length} `, 'm'));
});

test.each(names)('%s: every row with low, typical, high, unit, basis and source, within 80 columns', async (name) => {
  const { code, stdout, stderr } = await postvolt(['tables', name]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  const rows = standardTables[name as 'wires'];
  if (Array.isArray(rows))
    for (const { id } of rows) expect(stdout).toMatch(new RegExp(`^${id.replaceAll('.', '\\.')}$`, 'm'));
  for (const line of stdout.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
  if (name !== 'cautions') {
    expect(stdout).toMatch(/Low +Typical +High +Unit +Basis +Source/);
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
  expect(tableSetSchema.parse(JSON.parse(all.stdout))).toEqual(standardTables);
  expect(JSON.parse(soils.stdout)).toEqual(standardTables.soils);
});
