import {
  closeSync,
  existsSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { type ResolvedPlan, solvePlan } from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import { scenario, scenarios } from '@postvolt/scenarios';
import { describe, expect, test } from 'vitest';
import { widthOf } from '../../packages/cli/src/text/lines.js';
import { parseCsv } from './parse-csv.js';
import { fallsShort, holds, holdsFile, oddNames } from './plans.js';
import { folder, postvolt } from './run.js';

function resolved(text: string): ResolvedPlan {
  const outcome = readPlanText(text);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues, null, 1));
  return outcome.value;
}

/** As JSON carries it. */
const asJson = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

const solve = (text: string | Buffer, ...words: string[]) => postvolt(['solve', '-', ...words], { input: text });

describe('exit code', () => {
  test('0 where the target holds in every condition', async () => {
    expect(await postvolt(['solve', holdsFile])).toMatchObject({ code: 0, stderr: '' });
  });

  test('3 where it falls short in one', async () => {
    expect(await solve(fallsShort)).toMatchObject({ code: 3, stderr: '' });
  });

  test('follows the conditions that were asked for', async () => {
    expect((await solve(fallsShort, '--condition', 'dry day')).code).toBe(0);
    expect((await solve(fallsShort, '--condition', 'rainy day')).code).toBe(3);
  });

  test('is the same in every form', async () => {
    for (const form of ['--json', '--csv', '--all']) expect((await solve(fallsShort, form)).code).toBe(3);
  });
});

describe('text', () => {
  test('begins with the answer in a sentence', async () => {
    const { stdout } = await solve(fallsShort);
    const sentence = solvePlan(resolved(fallsShort)).sentence;
    expect(stdout.replace(/\n/g, ' ').startsWith(sentence)).toBe(true);
  });

  test('names the weakest post of each condition, and marks it in the table', async () => {
    const { stdout } = await solve(holds);
    for (const { verdict } of solvePlan(resolved(holds)).conditions)
      expect(stdout).toMatch(new RegExp(`^ {2}> +${verdict.weakest.postId} .*weakest$`, 'm'));
  });

  test('says energizer, ground, volts budget, leaks and cautions', async () => {
    const { stdout } = await solve(holds);
    for (const heading of ['Energizer', 'Ground', 'Volts', 'Leak', 'Cautions'])
      expect(stdout).toMatch(new RegExp(`^ *${heading}\\b`, 'm'));
  });

  test.each<[name: string, plan: string]>([
    ['a short fence', holds],
    ['odd names', oddNames],
    ...scenarios.map(({ id, plan }): [string, string] => [id, plan]),
  ])('of %s keeps to 80 columns', async (_name, plan) => {
    const { stdout } = await solve(plan);
    expect(stdout.split('\n').filter((line) => widthOf(line) > 80)).toEqual([]);
  });

  test('of a long fence is thinned, with the weakest posts in it', async () => {
    const plan = scenario('demo farm').plan;
    const [{ stdout }, all] = await Promise.all([solve(plan), solve(plan, '--all')]);
    const result = solvePlan(resolved(plan));
    expect(stdout.split('\n').length).toBeLessThan(250);
    for (const condition of result.conditions) {
      const from = stdout.indexOf(`\n${condition.name}: `);
      const table = stdout.slice(from, stdout.indexOf('--all shows every one', from));
      expect(table).toMatch(new RegExp(`^ {2}> +${condition.verdict.weakest.postId} `, 'm'));
    }
    // One line a strand and post in each condition.
    const strands = result.conditions.flatMap(({ posts }) => posts.flatMap((post) => post.strands));
    const lines = all.stdout.split('\n').filter((line) => /^ {2}[ >] {2}\S.* V? .*A( |$)/.test(line));
    expect(lines.length).toBe(strands.length);
  });

  test('carries no control characters from a plan', async () => {
    const { stdout } = await solve(oddNames);
    expect(stdout).toContain('paddock');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: it looks for them
    expect(stdout).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
  });
});

describe('--json', () => {
  test.each([
    ['a short fence', holds],
    ['the demo farm', scenario('demo farm').plan],
  ])('is the result of the library: %s', async (_name, plan) => {
    const { stdout } = await solve(plan, '--json');
    expect(JSON.parse(stdout)).toEqual(asJson(solvePlan(resolved(plan))));
  });

  test('has no number that JSON cannot carry', () => {
    const wrong: string[] = [];
    const walk = (value: unknown, path: string) => {
      if (typeof value === 'number' && !Number.isFinite(value)) wrong.push(`${path}: ${value}`);
      if (value === undefined) wrong.push(`${path}: undefined`);
      if (typeof value === 'object' && value !== null)
        for (const [key, inner] of Object.entries(value)) walk(inner, `${path}.${key}`);
    };
    for (const plan of [holds, scenario('demo farm').plan]) walk(solvePlan(resolved(plan)), 'result');
    expect(wrong).toEqual([]);
  });

  test('says its format, and puts each post on a line of its own', async () => {
    const { stdout } = await solve(holds, '--json', '-c', 'dry day');
    const result = JSON.parse(stdout);
    expect(result).toMatchObject({ format: 'postvolt result', formatVersion: 1, holds: true });
    const lines = stdout.split('\n').filter((line) => /^ *\{"id":/.test(line));
    expect(lines.length).toBeGreaterThanOrEqual(result.conditions[0].posts.length);
  });
});

describe('--csv', () => {
  test('is RFC 4180 with one record a strand, post and condition', async () => {
    const { stdout } = await solve(oddNames, '--csv');
    expect(stdout.endsWith('\r\n')).toBe(true);
    const [heads, ...records] = parseCsv(stdout);
    const result = solvePlan(resolved(oddNames));
    const strands = result.conditions.flatMap((condition) =>
      condition.posts.flatMap((post) => post.strands.map((strand) => ({ condition, post, strand }))),
    );
    expect(records.length).toBe(strands.length);
    for (const [i, { condition, post, strand }] of strands.entries()) {
      const record = Object.fromEntries(heads!.map((head, column) => [head, records[i]![column]]));
      expect(record).toMatchObject({ condition: condition.id, run: strand.run, strand: strand.strand });
      expect(Object.values(record)).toContain(post.id);
      // Five figures are printed.
      expect(Math.abs(Number(record['voltsToEarth']) - strand.voltsToEarth)).toBeLessThanOrEqual(
        5e-5 * Math.abs(strand.voltsToEarth),
      );
    }
    expect(records.some((record) => record.includes('lane, "upper"'))).toBe(true);
  });
});

describe('--condition', () => {
  test('takes an id whatever its case, more than once, in the order of the plan', async () => {
    const { stdout } = await solve(holds, '--json', '-c', 'Rainy Day', '-c', 'dry day');
    expect(JSON.parse(stdout).conditions.map(({ id }: { id: string }) => id)).toEqual(['dry day', 'rainy day']);
  });

  test('an unknown one is named with the nearest, exit code 2', async () => {
    const { code, stdout, stderr } = await solve(holds, '-c', 'rainy dya');
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(/found condition "rainy dya", expected one of the plan's: "dry day", "rainy day"/);
    expect(stderr).toContain('Did you mean "rainy day"?');
  });
});

describe('input', () => {
  test('a JSON plan and the resolved plan solve as the YAML plan does', async () => {
    const plan = resolved(holds);
    const [yaml, fromResolved] = await Promise.all([solve(holds, '--json'), solve(JSON.stringify(plan), '--json')]);
    expect(fromResolved.stdout).toBe(yaml.stdout);
  });

  test('UTF-16, as some Windows programs save text', async () => {
    const sixteen = Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(holds, 'utf16le')]);
    const [utf8, utf16] = await Promise.all([solve(holds), solve(sixteen)]);
    expect(utf16).toEqual(utf8);
  });

  test('every error is named with file, line, path, found and expected; exit code 2', async () => {
    const cwd = folder();
    const bad = holds
      .replace('length: 1320 ft', 'length: 1320')
      .replace('target: cattle', 'target: catle')
      .replace('soil: loam', 'siol: loam');
    writeFileSync(join(cwd, 'bad.yaml'), bad);
    const { code, stdout, stderr } = await postvolt(['solve', 'bad.yaml'], { cwd });
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    const lineOf = (text: string) => bad.split('\n').findIndex((line) => line.includes(text)) + 1;
    expect(stderr).toMatch(/^postvolt: bad\.yaml cannot be used because of \d errors:\n/);
    expect(stderr).toMatch(
      new RegExp(`bad\\.yaml:${lineOf('1320')}:\\d+: runs\\.lane\\.length: found 1320, expected a length such as`),
    );
    expect(stderr).toMatch(new RegExp(`bad\\.yaml:${lineOf('siol')}:\\d+: .*soil`));
  });

  test('text that is not a plan', async () => {
    for (const text of ['', 'hello', '[1, 2', '{"a": }', 'a: &a [*a]', '\t- x']) {
      const { code, stdout, stderr } = await solve(text);
      expect({ text, code, stdout }).toEqual({ text, code: 2, stdout: '' });
      expect(stderr).toMatch(/^postvolt: standard input cannot be used because of (an error|\d errors):\n {2}\S/);
      expect(stderr).not.toMatch(/\n {4}at /);
    }
  });
});

describe('--output', () => {
  test('writes the file and prints the verdict', async () => {
    const cwd = folder();
    const { code, stdout, stderr } = await postvolt(['solve', holdsFile, '--csv', '-o', 'posts.csv'], { cwd });
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toMatch(/^The fence holds[\s\S]*\nWrote posts\.csv\.\n$/);
    expect(parseCsv(readFileSync(join(cwd, 'posts.csv'), 'utf8')).length).toBeGreaterThan(100);
    expect(readdirSync(cwd)).toEqual(['posts.csv']);
  });

  test('replaces what was there, through a symbolic link too', async () => {
    const cwd = folder();
    writeFileSync(join(cwd, 'old.json'), 'old');
    symlinkSync('old.json', join(cwd, 'link.json'));
    await postvolt(['solve', holdsFile, '--json', '-o', 'link.json'], { cwd });
    expect(JSON.parse(readFileSync(join(cwd, 'old.json'), 'utf8')).holds).toBe(true);
    expect(readdirSync(cwd).sort()).toEqual(['link.json', 'old.json']);
  });

  test.each([
    ['no-such-folder/posts.csv', /cannot write no-such-folder\/posts\.csv: there is no such file or folder/],
    ['taken', /cannot write taken: it is a folder/],
    ['plan.yaml', /cannot write plan\.yaml: that is the plan itself/],
  ])('%s: refused, nothing written, exit code 2', async (output, message) => {
    const cwd = folder();
    mkdirSync(join(cwd, 'taken'));
    writeFileSync(join(cwd, 'plan.yaml'), holds);
    const { code, stdout, stderr } = await postvolt(['solve', 'plan.yaml', '--csv', '-o', output], { cwd });
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(message);
    expect(readFileSync(join(cwd, 'plan.yaml'), 'utf8')).toBe(holds);
    expect(readdirSync(cwd).sort()).toEqual(['plan.yaml', 'taken']);
  });
});

test('a closed pipe is no failure, and keeps the exit code', async () => {
  const ended = await postvolt(['solve', '-', '--all'], { input: scenario('demo farm').plan, closeOutput: true });
  expect(ended).toMatchObject({ code: 3, stderr: '' });
});

test.skipIf(!existsSync('/dev/full'))('a full disk is said, exit code 2', async () => {
  const { spawnSync } = await import('node:child_process');
  const { program } = await import('./run.js');
  const full = openSync('/dev/full', 'w');
  const { status, stderr } = spawnSync(process.execPath, [program, 'solve', holdsFile], {
    stdio: ['ignore', full, 'pipe'],
  });
  closeSync(full);
  expect(status).toBe(2);
  expect(String(stderr)).toBe('postvolt: cannot write the output: the disk is full\n');
});
