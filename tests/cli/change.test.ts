import { chmodSync, existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readPlanText } from '@postvolt/core/yaml';
import { expect, test } from 'vitest';
import { smallPlan } from '../plan/small-plan.js';
import { folder, postvolt } from './run.js';

const input = `# home\n${smallPlan}`;
const withRods = input.replace('count: 3', 'count: 5');
const sentence = /^The weakest post had \S+ kV \(.*\) and has \S+ kV \(.*\) now, which holds 3 kV for cattle\./;
/** Text as it was before it was broken into lines. */
const unbroken = (text: string) => text.replace(/\s+/g, ' ');

/** A folder with the plan in it. */
function home(): { readonly here: string; readonly file: string } {
  const here = folder();
  const file = join(here, 'home.yaml');
  writeFileSync(file, input);
  return { here, file };
}

test('the changed plan goes to standard output, what it gives to standard error', async () => {
  const { code, stdout, stderr } = await postvolt(['change', '-', '--with', 'rods +2'], { input });
  expect([code, stdout]).toEqual([0, withRods]);
  expect(unbroken(stderr)).toMatch(sentence);
  expect(Math.max(...stderr.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
});

test('changes are made in order, and what comes out can be changed and solved again', async () => {
  const first = await postvolt(['change', '-', '-w', 'rods 9, rods +1', '-w', 'wire 14 ga on lane'], { input });
  expect(first.stdout).toContain('count: 10');
  const second = await postvolt(['change', '-', '-w', 'wire 10 ga on lane'], { input: first.stdout });
  expect(second.stdout).toBe(first.stdout.replace('wire: 14 ga\n', 'wire: 10 ga\n'));
  expect(readPlanText(second.stdout).ok).toBe(true);
});

test('-o writes another file and leaves the plan', async () => {
  const { here, file } = home();
  const better = join(here, 'better.yaml');
  const { code, stdout, stderr } = await postvolt(['change', file, '-w', 'rods +2', '-o', better]);
  expect([code, stdout]).toEqual([0, '']);
  expect(unbroken(stderr)).toMatch(sentence);
  expect(unbroken(stderr)).toContain(`Wrote ${better}.`);
  expect([readFileSync(better, 'utf8'), readFileSync(file, 'utf8')]).toEqual([withRods, input]);
});

test('--in-place writes over the plan, whole and with its permissions', async () => {
  const { here, file } = home();
  chmodSync(file, 0o640);
  const { code, stdout } = await postvolt(['change', file, '-w', 'rods +2', '--in-place']);
  expect([code, stdout]).toEqual([0, '']);
  expect(readFileSync(file, 'utf8')).toBe(withRods);
  expect(readdirSync(here)).toEqual(['home.yaml']);
  if (process.platform !== 'win32') expect(statSync(file).mode & 0o777).toBe(0o640);
  const { mtimeMs } = statSync(file);
  const again = await postvolt(['change', file, '-w', 'rods 5', '--in-place']);
  expect(again.stderr).toMatch(/^The plan has all of that already\./);
  expect(again.stderr).not.toContain('Wrote');
  expect(statSync(file).mtimeMs).toBe(mtimeMs);
});

test('--json prints the text with the volts before and after', async () => {
  const { code, stdout, stderr } = await postvolt(['change', '-', '-w', 'spray', '--json'], { input });
  expect([code, stderr]).toEqual([0, '']);
  const { text, before, after } = JSON.parse(stdout) as Record<string, { volts: number; holds: boolean }>;
  expect(text).toBe(input.replace(/growth: \w+/g, 'growth: none'));
  expect(after!.volts).toBeGreaterThan(before!.volts);
  expect(after!.holds).toBe(true);
});

test('a doubt that the change brings up is said, once', async () => {
  const plan = input.replace('    wire: 12.5 ga', '    insulator: t-post clip\n    wire: 12.5 ga');
  const { code, stderr } = await postvolt(['change', '-', '-w', 'post wood'], { input: plan });
  expect(code).toBe(0);
  expect(stderr.match(/Warning:/g)).toHaveLength(1);
  expect(stderr).toMatch(/found "t-post clip" on "wood", expected an insulator that fits/);
});

test.each([
  [[], /required option '-w, --with <changes>'/],
  [['-w', 'paint it'], /--with: found "paint it", expected a change such as/],
  [['-w', 'wire spaghetti'], /"spaghetti", expected a row of the table of wires/],
  [['-w', 'mend on lan'], /Did you mean "lane"/],
  [['-w', 'spray', '--in-place', '-o', 'x.yaml'], /both --output and --in-place/],
  [['-w', 'spray', '-o', 'home.yaml'], /that is the plan itself.*--in-place/],
  [['-w', 'spray', '-o', 'nowhere/x.yaml'], /no such file or folder/],
])('change %j is refused with exit code 2, and nothing is written', async (words, message) => {
  const { here, file } = home();
  const { code, stdout, stderr } = await postvolt(['change', 'home.yaml', ...words], { cwd: here });
  expect([code, stdout]).toEqual([2, '']);
  expect(stderr).toMatch(message);
  expect(readFileSync(file, 'utf8')).toBe(input);
  expect(existsSync(join(here, 'x.yaml'))).toBe(false);
});

test('a plan that is wrong, and standard input in place, are refused', async () => {
  const wrong = await postvolt(['change', '-', '-w', 'spray'], { input: input.replace('loam', 'lomy') });
  expect([wrong.code, wrong.stdout]).toEqual([2, '']);
  expect(wrong.stderr).toMatch(/standard input:6:7: soil: found "lomy"/);
  const placeless = await postvolt(['change', '-', '-w', 'spray', '--in-place'], { input });
  expect([placeless.code, placeless.stdout]).toEqual([2, '']);
});

test('compare ends with the command that writes its best variant', async () => {
  const { here } = home();
  const { stdout } = await postvolt(['compare', 'home.yaml', '-w', 'rods +2', '-w', 'spray, rods +2'], { cwd: here });
  const command = /^ {2}postvolt change home\.yaml --with "spray, rods \+2" -o FILE$/m;
  expect(stdout).toMatch(command);
  const best = /gives it most, (\S+)\s+kV/.exec(stdout)![1];
  const { stderr } = await postvolt(['change', 'home.yaml', '--with', 'spray, rods +2', '-o', 'x.yaml'], { cwd: here });
  expect(unbroken(stderr)).toContain(`has ${best} kV (`);
});
