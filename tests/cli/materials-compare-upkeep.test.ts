import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { smallPlan } from '../plan/small-plan.js';
import { folder, postvolt } from './run.js';

const input = smallPlan;
const widest = (text: string) => Math.max(...text.split('\n').map((line) => line.length));

test.each([
  [['materials', '-'], /^The fence takes /],
  [['compare', '-', '--with', 'rods +2', '--with', 'spray'], /^As it is the weakest post has /],
  [['compare', '-', '--insulators', '--years', '10', '--condition', 'storm'], /^As it is the weakest post has /],
  [['upkeep', '-', '--steps', '3'], /^First /],
])('%j answers in its first line, within 80 columns', async (words, first) => {
  const { code, stdout, stderr } = await postvolt(words, { input });
  expect([code, stderr]).toEqual([0, '']);
  expect(stdout).toMatch(first);
  expect(widest(stdout)).toBeLessThanOrEqual(80);
});

test.each([['materials'], ['compare'], ['upkeep']])('%s --json prints its result', async (command) => {
  const { code, stdout } = await postvolt([command, '-', '--json'], { input });
  expect(code).toBe(0);
  expect(JSON.parse(stdout)).toMatchObject({ format: `postvolt ${command}`, formatVersion: 1, title: 'Home pasture' });
});

test.each([
  [['materials', '-', '--years', 'many'], /--years: found "many"/],
  [['materials', '-', '--waste', '300 %'], /--waste/],
  [['compare', '-', '--with', 'paint it'], /--with: found "paint it", expected a change such as/],
  [['compare', '-', '--with', 'wire spaghetti'], /"spaghetti"/],
  [['compare', '-', '--variants', '/nowhere.yaml'], /no such file/],
  [['compare', '-', '-o', 'figure.png'], /\.svg/],
  [['upkeep', '-', '--by', 'luck'], /--by: found "luck", expected hour or money/],
  [['upkeep', '-', '--hours', '-1'], /--hours/],
])('%j is refused with exit code 2', async (words, message) => {
  const { code, stdout, stderr } = await postvolt(words, { input });
  expect(code).toBe(2);
  expect(stdout).toBe('');
  expect(stderr).toMatch(message);
});

test('compare reads a file of variants and writes either figure', async () => {
  const here = folder();
  writeFileSync(join(here, 'ideas.yaml'), 'sprayed: spray\nboth: [spray, rods +2]\n');
  for (const [extra, title] of [
    [[], 'Side by side'],
    [['--insulators'], 'Insulators year by year'],
  ] as const) {
    const file = join(here, 'figure.svg');
    const words = ['compare', '-', '--variants', join(here, 'ideas.yaml'), '-c', 'storm', '-o', file, ...extra];
    const { code, stdout } = await postvolt(words, { input });
    expect([code, stdout.includes('Wrote')]).toEqual([0, true]);
    expect(readFileSync(file, 'utf8')).toContain(title);
  }
});
