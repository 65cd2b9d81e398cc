import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type MonthsResult, months, type SpreadResult, spread } from '@postvolt/core/studies';
import { readPlanText } from '@postvolt/core/yaml';
import { climates } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { holds, holdsFile } from './plans.js';
import { folder, postvolt } from './run.js';

const outcome = readPlanText(holds);
if (!outcome.ok) throw new Error('the example does not read');
const plan = outcome.value;

const oneLine = (text: string) => text.replace(/\s+/g, ' ');
const widest = (text: string) => Math.max(...text.split('\n').map((line) => line.length));

describe('spread', () => {
  test('answers in its first sentence, within 80 columns, and its JSON is the library’s result', async () => {
    const [text, data] = await Promise.all([
      postvolt(['spread', holdsFile, '--draws', '300', '--seed', '4']),
      postvolt(['spread', holdsFile, '--draws', '300', '--seed', '4', '--json']),
    ]);
    const result = await spread(plan, { draws: 300, seed: 4 });
    expect(text).toMatchObject({ code: 0, stderr: '' });
    expect(oneLine(text.stdout).startsWith(`${result.sentence} `)).toBe(true);
    expect(text.stdout).toContain('300 draws, seed 4');
    expect(widest(text.stdout)).toBeLessThanOrEqual(80);
    expect(data).toMatchObject({ code: 0, stderr: '' });
    expect(JSON.parse(data.stdout) as SpreadResult).toEqual(result);
  });

  test('lists every post where all are asked for, and one condition alone where one is', async () => {
    const { id, name } = plan.conditions[0]!;
    const { stdout } = await postvolt(['spread', '-', '-c', name, '-n', '100', '--all'], { input: holds });
    const result = await spread(plan, { conditions: [id], draws: 100 });
    for (const post of result.conditions[0]!.posts)
      expect(stdout).toMatch(new RegExp(`^ {2}${post.id} +\\d[\\d.]* k?V `, 'm'));
    expect(stdout).not.toContain('at once');
  });

  test.each([
    [['--draws', 'many'], '--draws: found "many", expected a whole number'],
    [['--draws', '10'], 'draws: found 10, expected a whole number from 100 to 100000.'],
    [['--seed', '1.5'], '--seed: found "1.5", expected a whole number'],
    [['-c', 'monsoon'], 'found condition "monsoon"'],
    [['-o', 'spread.png'], '--output: found "spread.png", expected a file that ends in .svg'],
  ])('%j is bad input', async (words, message) => {
    const { code, stdout, stderr } = await postvolt(['spread', holdsFile, ...words]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain(message);
  });
});

describe('months', () => {
  test('answers in its first sentence, within 80 columns, and its JSON is the library’s result', async () => {
    const words = ['--climate', 'Dry Summer', '--hemisphere', 'SOUTH', '--growth-at-most', 'light'];
    const [text, data] = await Promise.all([
      postvolt(['months', holdsFile, ...words]),
      postvolt(['months', holdsFile, ...words, '--json']),
    ]);
    const result = await months(plan, { climate: 'dry summer', hemisphere: 'south', growthAtMost: 'light' });
    expect(text).toMatchObject({ code: 0, stderr: '' });
    expect(oneLine(text.stdout).startsWith(`${result.sentence} `)).toBe(true);
    expect(widest(text.stdout)).toBeLessThanOrEqual(80);
    for (const { month } of result.months) expect(text.stdout).toMatch(new RegExp(`^[ >] {2}${month} `, 'm'));
    expect(data).toMatchObject({ code: 0, stderr: '' });
    expect(JSON.parse(data.stdout) as MonthsResult).toEqual(result);
  });

  test('reckons the plan’s own months where it has them', async () => {
    const { stdout, code } = await postvolt(['months', '-'], {
      input: `${holds}months: {climate: maritime, may: {weather: dry spell}}\n`,
    });
    expect(code).toBe(0);
    expect(oneLine(stdout)).toContain('the plan’s own months, on a maritime climate');
    expect(stdout).toMatch(/^[ >] {2}May +[\d.]+ kV +dry spell /m);
  });

  test('its help lists the climates of the tables', async () => {
    const { stdout } = await postvolt(['months', '--help']);
    expect(oneLine(stdout)).toContain(`Climates: ${climates.map(({ id }) => id).join(', ')}.`);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
  });

  test.each([
    [['--climate', 'polar'], 'climate: found "polar", expected a row of the climates.'],
    [['--hemisphere', 'east'], '--hemisphere: found "east", expected north or south'],
    [['--growth-at-most', 'lihgt'], 'Did you mean "light"?'],
  ])('%j is bad input', async (words, message) => {
    const { code, stdout, stderr } = await postvolt(['months', holdsFile, ...words]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain(message);
  });
});

test.each(['spread', 'months'])('%s writes its figure to an .svg file and keeps the plan', async (name) => {
  const cwd = folder();
  writeFileSync(join(cwd, 'plan.yaml'), holds);
  const { code, stdout, stderr } = await postvolt([name, 'plan.yaml', '-o', 'out.svg'], { cwd });
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  expect(stdout).toMatch(/^The fence .*\nWrote out\.svg\.\n$/s);
  expect(readFileSync(join(cwd, 'out.svg'), 'utf8')).toMatch(/^<svg .*<\/svg>\s*$/s);
  writeFileSync(join(cwd, 'plan.svg'), holds);
  const over = await postvolt([name, 'plan.svg', '-o', 'plan.svg'], { cwd });
  expect(over).toMatchObject({ code: 2, stdout: '' });
  expect(over.stderr).toContain('that is the plan itself');
  expect(readFileSync(join(cwd, 'plan.svg'), 'utf8')).toBe(holds);
  expect(existsSync(join(cwd, 'plan.yaml'))).toBe(true);
});
