import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { holdsFile } from './plans.js';
import { folder, postvolt } from './run.js';

const commands = ['solve', 'report', 'explain', 'check', 'netlist', 'tables'];

describe('help', () => {
  test('lists every command and the exit codes, on standard output', async () => {
    const { code, stdout, stderr } = await postvolt(['--help']);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    for (const name of commands) expect(stdout).toMatch(new RegExp(`^ {2}${name} `, 'm'));
    expect(stdout).toMatch(/0 the target holds.*\b3 the target falls short/s);
  });

  test.each(commands)('of %s has an example, and both ways to ask print the same', async (name) => {
    const [flag, word] = await Promise.all([postvolt([name, '--help']), postvolt(['help', name])]);
    expect(flag).toEqual(word);
    expect(flag).toMatchObject({ code: 0, stderr: '' });
    expect(flag.stdout).toMatch(new RegExp(`Examples:\n {2}postvolt ${name}`));
  });

  test('fits into 80 columns', async () => {
    const texts = await Promise.all(
      [[], ...commands.map((name) => [name])].map((words) => postvolt([...words, '--help'])),
    );
    for (const { stdout } of texts) for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('stands on standard error where no command was given, with exit code 2', async () => {
    const { code, stdout, stderr } = await postvolt([]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain('Usage: postvolt');
  });

  test('loads neither the units nor the schemas', async () => {
    const [help, solve] = await Promise.all([scriptsOf(['--help']), scriptsOf(['solve', holdsFile])]);
    // A name that each library's own code carries into a bundle.
    const marks = { mathjs: 'createUnitClass', zod: '$ZodObject', commander: 'commander.helpDisplayed' };
    const holds = (scripts: readonly string[], name: keyof typeof marks) =>
      scripts.some((file) => readFileSync(file, 'utf8').includes(marks[name]));
    for (const name of ['mathjs', 'zod'] as const)
      expect([name, holds(solve, name), holds(help, name)]).toEqual([name, true, false]);
    expect(holds(help, 'commander')).toBe(true);
    const folders = /packages\/cli\/(bin|dist)\//;
    expect(help.filter((file) => !folders.test(file.replaceAll('\\', '/')))).toEqual([]);
  });
});

/** Files that a run of the command line loads, as V8's coverage lists them. */
async function scriptsOf(words: readonly string[]): Promise<string[]> {
  const coverage = folder();
  await postvolt(words, { alone: true, env: { NODE_V8_COVERAGE: coverage } });
  return readdirSync(coverage)
    .flatMap((file) => JSON.parse(readFileSync(join(coverage, file), 'utf8')).result as { url: string }[])
    .map(({ url }) => url)
    .filter((url) => url.startsWith('file:'))
    .map((url) => fileURLToPath(url));
}

test('--version prints the version of the package', async () => {
  const manifest = JSON.parse(readFileSync(new URL('../../packages/cli/package.json', import.meta.url), 'utf8'));
  expect(await postvolt(['--version'])).toEqual({ code: 0, stdout: `${manifest.version}\n`, stderr: '' });
});

describe('wrong usage has exit code 2 and says what was wrong', () => {
  test.each([
    [['slove', 'plan.yaml'], /unknown command 'slove'[\s\S]*Did you mean solve/],
    [['solve'], /missing required argument 'plan'/],
    [['solve', 'plan.yaml', '--jsno'], /unknown option '--jsno'[\s\S]*Did you mean --json/],
    [['solve', 'a.yaml', 'b.yaml'], /too many arguments/],
    [['solve', 'plan.yaml', '--json', '--csv'], /'--json' and '--csv' exclude each other/],
    [['explain', 'plan.yaml'], /required option '-p, --post <run\/number>' not specified/],
    [['tables', 'wierd'], /found table "wierd", expected one of: wires, /],
    [['tables', 'wirse'], /Did you mean "wires"\?/],
    [['tables', 'soils', 'laom'], /found row of soils "laom".*Did you mean "loam"\?/],
  ])('%j', async (words, message) => {
    const { code, stdout, stderr } = await postvolt(words);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(message);
  });
});

describe('a plan that cannot be read has exit code 2 and says why', () => {
  test.each(['solve', 'check', 'explain'])('%s: no such file', async (name) => {
    const { code, stdout, stderr } = await postvolt([
      name,
      'no-such.yaml',
      ...(name === 'explain' ? ['-p', 'a/1'] : []),
    ]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toBe('postvolt: cannot read no-such.yaml: there is no such file or folder\n');
  });

  test('a folder', async () => {
    const cwd = folder();
    mkdirSync(join(cwd, 'farm'));
    const { code, stderr } = await postvolt(['solve', 'farm'], { cwd });
    expect(code).toBe(2);
    expect(stderr).toBe('postvolt: cannot read farm: it is a folder, not a plan file\n');
  });

  test('bytes that are no text', async () => {
    const { code, stderr } = await postvolt(['solve', '-'], { input: Buffer.from([0x66, 0xff, 0xfe, 0x00, 0xc3]) });
    expect(code).toBe(2);
    expect(stderr).toMatch(/cannot read standard input: it is not text/);
  });

  test('an input without end', async () => {
    const { code, stderr } = await postvolt(['solve', '-'], { input: Buffer.alloc(65 * 2 ** 20, 'a') });
    expect(code).toBe(2);
    expect(stderr).toMatch(/cannot read standard input: it is longer than 64 MiB/);
  });

  test('an empty file', async () => {
    const cwd = folder();
    writeFileSync(join(cwd, 'empty.yaml'), '');
    const { code, stdout, stderr } = await postvolt(['solve', 'empty.yaml'], { cwd });
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(/empty\.yaml/);
  });
});
