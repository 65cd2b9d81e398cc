import { reach, supply } from '@postvolt/core/studies';
import { readPlanText } from '@postvolt/core/yaml';
import { describe, expect, test } from 'vitest';
import { widthOf } from '../../packages/cli/src/text/lines.js';
import { holds, holdsFile, oddNames } from './plans.js';
import { postvolt } from './run.js';

const plan = () => {
  const read = readPlanText(holds);
  if (!read.ok) throw new Error('the example does not read');
  return read.value;
};

/** A mile is enough to see; the whole answer takes a while. */
const words = { reach: ['--most', '1 mi'], supply: [] } as const;
const answer = { reach: () => reach(plan(), { mostM: 1609.344 }), supply: () => supply(plan()) } as const;

describe.each(['reach', 'supply'] as const)('%s', (name) => {
  test('begins with the answer, keeps to 80 columns and exits with 0', async () => {
    const { code, stdout, stderr } = await postvolt([name, holdsFile, ...words[name]]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const { sentence } = await answer[name]();
    expect(stdout.split('\n\n')[0]!.replace(/\n/g, ' ')).toBe(sentence);
    for (const line of stdout.split('\n')) expect(widthOf(line)).toBeLessThanOrEqual(80);
  });

  test('--json prints the library’s result', async () => {
    const { code, stdout } = await postvolt([name, '-', '--json', ...words[name]], { input: holds });
    expect(code).toBe(0);
    expect(JSON.parse(stdout)).toEqual(JSON.parse(JSON.stringify(await answer[name]())));
  });

  test('one condition of many, by its name', async () => {
    const { stdout } = await postvolt([name, holdsFile, '-c', 'Rainy Day', '--json', ...words[name]]);
    expect(JSON.parse(stdout).conditions.map(({ id }: { id: string }) => id)).toEqual(['rainy day']);
  });

  test('names of any script and no control characters', async () => {
    const { code, stdout } = await postvolt([name, '-', ...words[name]], { input: oddNames });
    expect(code).toBe(0);
    expect(stdout).toContain('隅の柱');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: none may come through
    expect(stdout).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
  });

  test('has an example in its help, within 80 columns', async () => {
    const { code, stdout } = await postvolt([name, '--help']);
    expect(code).toBe(0);
    expect(stdout).toMatch(new RegExp(`Examples:\n {2}postvolt ${name}`));
    for (const line of stdout.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });
});

test('reach takes its bound in any unit, one run, wires, and leaves out the table', async () => {
  const { stdout } = await postvolt([
    ...['reach', holdsFile, '--run', 'lane', '--most', '2.5 km', '-c', 'dry day', '--json'],
    ...['--wire', '14 ga', '--wire', 'poly braid', '--along', 'lane'],
  ]);
  const result = JSON.parse(stdout);
  expect(result).toMatchObject({ run: 'lane', status: 'beyond', decides: null });
  expect(result.mostM).toBeCloseTo(2500, 9);
  const wires = result.variations.filter(({ kind }: { kind: string }) => kind === 'wire');
  expect(wires.map(({ change }: { change: string }) => change)).toEqual([
    '12.5 ga high-tensile',
    '14 ga high-tensile',
    'poly braid',
  ]);
  const bare = await postvolt(['reach', holdsFile, '--most', '1mi', '--no-variations', '--json']);
  expect(JSON.parse(bare.stdout).variations).toEqual([]);
});

test('supply takes soils, distances and a number of rods', async () => {
  const { stdout } = await postvolt([
    ...['supply', holdsFile, '-c', 'rainy day', '--soil', 'heavy clay', '--rods', '2'],
    ...['--short-at', '660ft', '--probe', '3 ft', '--json'],
  ]);
  const result = JSON.parse(stdout);
  expect(result.mostRods).toBe(2);
  expect(result.tradeOff.map(({ rods }: { rods: number }) => rods)).toEqual([1, 2]);
  expect(result.probeM).toBeCloseTo(0.9144, 9);
  expect(result.groundTests.map(({ soil }: { soil: string }) => soil)).toEqual(['loam', 'clay']);
  for (const { shortAtM } of result.groundTests) expect(shortAtM).toBeGreaterThanOrEqual(201.168 - 1e-9);
});

describe('what is wrong has exit code 2 and is named', () => {
  test.each([
    [['reach', holdsFile, '--run', 'lnae'], /run: found "lnae".*Did you mean "lane"/],
    [['reach', holdsFile, '--most', '10'], /--most: found "10", expected a length/],
    [['reach', holdsFile, '--most', '0 ft'], /--most: found "0 ft"/],
    [['reach', holdsFile, '--wire', 'rope'], /wires: found "rope"/],
    [['reach', holdsFile, '-c', 'winter'], /found condition "winter"/],
    [['supply', holdsFile, '--rods', 'three'], /--rods: found "three", expected a whole number/],
    [['supply', holdsFile, '--rods', '0'], /mostRods: found 0/],
    [['supply', holdsFile, '--probe', '2 mm'], /probeM: found 0.002/],
    [['supply', holdsFile, '--soil', 'laom'], /soils: found "laom".*Did you mean "loam"/],
  ])('%j', async (words, message) => {
    const { code, stdout, stderr } = await postvolt(words);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr.replace(/\s+/g, ' ')).toMatch(message);
  });
});
