import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  expectedReadings,
  type FitResult,
  fit as fitTables,
  type ReadingsResult,
  type TraceResult,
  trace,
} from '@postvolt/core/studies';
import { readPlanText, readReadingsText } from '@postvolt/core/yaml';
import { describe, expect, test } from 'vitest';
import { parseCsv } from './parse-csv.js';
import { holds, holdsFile } from './plans.js';
import { folder, postvolt } from './run.js';

const outcome = readPlanText(holds);
if (!outcome.ok) throw new Error('the example does not read');
const plan = outcome.value;
const condition = plan.conditions[1]!.id;

const oneLine = (text: string) => text.replace(/\s+/g, ' ');
const widest = (text: string) => Math.max(...text.split('\n').map((line) => line.length));

/** A round on a rainy day with a wire lost half way along the lane. */
const round = `condition: ${condition}
readings:
  - { post: barn, strand: all, kV: 2.1, amps: 5.1, towards: lane }
  - { post: lane/12, strand: all, kV: 1.9, amps: 4.9, towards: lane/13 }
  - { post: corner, kV: 1.8 }
`;
const readRound = () => {
  const read = readReadingsText(round, plan);
  if (!read.ok) throw new Error('the round does not read');
  return read.value;
};

describe('readings', () => {
  test('prints a sheet with blanks within 80 columns, and its JSON is the library’s result', async () => {
    const [text, data] = await Promise.all([
      postvolt(['readings', holdsFile, '-c', condition]),
      postvolt(['readings', holdsFile, '-c', condition, '--json']),
    ]);
    const result = await expectedReadings(plan, { conditions: [condition] });
    expect(text).toMatchObject({ code: 0, stderr: '' });
    expect(oneLine(text.stdout).startsWith(`${result.sentence} `)).toBe(true);
    expect(widest(text.stdout)).toBeLessThanOrEqual(80);
    for (const { post } of result.conditions[0]!.lines) expect(text.stdout).toMatch(new RegExp(`^${post} .*____`, 'm'));
    expect(JSON.parse(data.stdout) as ReadingsResult).toEqual(result);
  });

  test('writes a CSV sheet that reads back, empty and filled in', async () => {
    const file = join(folder(), 'round.csv');
    const { code, stdout } = await postvolt(['readings', holdsFile, '-c', condition, '--csv', '-o', file]);
    expect(code).toBe(0);
    expect(stdout).toContain(`Wrote ${file}.`);
    const text = readFileSync(file, 'utf8');
    const [head, ...rows] = parseCsv(text);
    expect(head!.slice(0, 6)).toEqual(['post', 'strand', 'kV', 'amps', 'towards', 'from']);
    const options = { condition };
    expect(readReadingsText(text, plan, options)).toMatchObject({ ok: true, issues: [], value: { readings: [] } });
    const filled = [head!, ...rows.map((row) => row.map((cell, c) => (c === 2 ? row[8]! : c === 3 ? row[11]! : cell)))];
    const read = readReadingsText(filled.map((row) => row.join(',')).join('\n'), plan, options);
    expect(read.ok && read.value.readings).toHaveLength(rows.length);
    // Read as expected, the tables stay where they are.
    const fitted = read.ok ? fitTables(plan, read.value) : null;
    for (const { place } of fitted!.groups) expect(Math.abs(place)).toBeLessThan(0.05);
  });

  test('wants one condition for a CSV, and a meter that is not absurd', async () => {
    const csv = await postvolt(['readings', holdsFile, '--csv']);
    expect(csv).toMatchObject({ code: 2, stdout: '' });
    expect(csv.stderr).toContain('found 2 conditions, expected one; choose it with --condition NAME');
    const meter = await postvolt(['readings', holdsFile, '--meter-error', 'bad']);
    expect(meter.code).toBe(2);
    expect(meter.stderr).toContain('--meter-error: found "bad", expected a share from 0 to 50 %');
    // As in a file of readings a number alone is a part of one.
    const [bare, percent, large] = await Promise.all(
      ['0.03', '3 %', '5'].map((text) => postvolt(['readings', holdsFile, '--meter-error', text])),
    );
    expect(bare).toEqual(percent);
    expect(large).toMatchObject({ code: 2, stderr: expect.stringContaining('Did you mean 5 %?') });
  });
});

test('the sheet of a plan that holds a fault says that it is no sound fence’s', async () => {
  const faulty = holds.replace(
    '\nconditions:',
    '\nfaults:\n  - { kind: wire on ground, run: lane, post: 6 }\nconditions:',
  );
  const [sound, withFault] = await Promise.all([holds, faulty].map((input) => postvolt(['readings', '-'], { input })));
  expect(oneLine(sound!.stdout)).toContain('a sound fence reads');
  expect(oneLine(withFault!.stdout)).toContain('this fence with its fault reads');
  expect(oneLine(withFault!.stdout)).not.toContain('sound fence');
});

test('a page of one condition takes a sheet of readings, which cannot name it', async () => {
  const sheet = join(folder(), 'round.csv');
  const page = join(folder(), 'round.html');
  await postvolt(['readings', holdsFile, '-c', condition, '--csv', '-o', sheet]);
  const { code, stderr } = await postvolt(['report', holdsFile, '-c', condition, '-o', page, '--readings', sheet]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  expect(existsSync(page)).toBe(true);
});

describe('fit', () => {
  test('answers, and its JSON is the library’s result', async () => {
    const [text, data] = await Promise.all([
      postvolt(['fit', holdsFile, '-', '--all'], { input: round }),
      postvolt(['fit', holdsFile, '-', '--json'], { input: round }),
    ]);
    const result = fitTables(plan, readRound());
    expect(text).toMatchObject({ code: 0, stderr: '' });
    expect(oneLine(text.stdout).startsWith(`${result.sentence} `)).toBe(true);
    expect(widest(text.stdout)).toBeLessThanOrEqual(80);
    for (const { read } of result.readings.filter(({ kind }) => kind === 'volts'))
      expect(text.stdout).toContain(` ${(read / 1000).toFixed(1)} `);
    expect(JSON.parse(data.stdout) as FitResult).toEqual(result);
  });

  test('writes a calibrated plan that solves, and neither over the plan nor over the readings', async () => {
    const place = folder();
    const [file, input] = [join(place, 'calibrated.json'), join(place, 'round.yaml')];
    writeFileSync(input, round);
    const { code } = await postvolt(['fit', holdsFile, input, '-o', file]);
    expect(code).toBe(0);
    const solved = await postvolt(['solve', file, '-c', condition, '--json']);
    const { weakestVolts } = fitTables(plan, readRound());
    const { conditions } = JSON.parse(solved.stdout) as {
      conditions: { verdict: { weakest: { voltsToEarth: number } } }[];
    };
    expect(conditions[0]!.verdict.weakest.voltsToEarth / weakestVolts.after).toBeCloseTo(1, 6);
    const over = await postvolt(['fit', holdsFile, input, '-o', input]);
    expect(over.code).toBe(2);
    expect(readFileSync(input, 'utf8')).toBe(round);
  });

  test('says where the readings are wrong', async () => {
    const place = folder();
    const file = join(place, 'wrong.yaml');
    writeFileSync(file, round.replace('lane/12', 'lane/120'));
    const { code, stdout, stderr } = await postvolt(['fit', holdsFile, file, '-o', join(place, 'out.json')]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain('wrong.yaml:4:');
    expect(oneLine(stderr)).toMatch(/found "lane\/120", expected a junction, or RUN\/NUMBER with a post of that run/);
    expect(existsSync(join(place, 'out.json'))).toBe(false);
  });
});

describe('trace', () => {
  test('answers, and its JSON is the library’s result', async () => {
    const [text, data] = await Promise.all([
      postvolt(['trace', holdsFile, '-'], { input: round }),
      postvolt(['trace', holdsFile, '-', '--json'], { input: round }),
    ]);
    const result = await trace(plan, readRound());
    expect(text).toMatchObject({ code: 0, stderr: '' });
    expect(oneLine(text.stdout).startsWith(`${result.sentence} `)).toBe(true);
    expect(widest(text.stdout)).toBeLessThanOrEqual(80);
    expect(text.stdout).toContain(result.faults[0]!.causes[0]!.cause);
    expect(JSON.parse(data.stdout) as TraceResult).toEqual(result);
  });

  test('says where to read first when nothing was read', async () => {
    const [amps, volts] = await Promise.all([
      postvolt(['trace', holdsFile, '-c', condition]),
      postvolt(['trace', holdsFile, '-c', condition, '--volts-only', '--json']),
    ]);
    expect(oneLine(amps.stdout)).toMatch(/^Nothing was read yet; read kV next at /);
    expect(amps.stdout).toContain('Where to read next');
    expect((JSON.parse(volts.stdout) as TraceResult).next?.wireTo).toBeNull();
  });

  test('asks which condition prevails where the plan has several', async () => {
    const { code, stderr } = await postvolt(['trace', holdsFile]);
    expect(code).toBe(2);
    expect(oneLine(stderr)).toContain("condition: found nothing, expected the plan's condition that prevailed");
  });
});
