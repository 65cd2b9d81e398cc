import { type ResolvedPlan, wordPath } from '@postvolt/core';
import { parseReadings, readReadings } from '@postvolt/core/studies';
import { readReadingsText } from '@postvolt/core/yaml';
import { describe, expect, test } from 'vitest';
import { scoringFarms } from '../scoring/farms.js';

const farm = (name: string): ResolvedPlan => scoringFarms.find((known) => known.name === name)!.plan;
const line = farm('one line');
const branches = farm('branches');

const text = (rows: string, more = '') => `${more}readings:\n${rows}`;

describe('a file of readings', () => {
  test('names posts by run and number or by junction, and a wire by where it leads', () => {
    const outcome = readReadingsText(
      text(`  - { post: lane/12, strand: all, kV: 7.1, amps: 3.2, towards: lane/13 }
  - { post: fork, strand: all, kV: 6.8, amps: 1.4, towards: west }
  - { post: fork, kV: 6.9, amps: 0.6, from: hill }
  - { post: ridge, kV: 6.5 }
`),
      branches,
    );
    expect(outcome).toEqual({
      ok: true,
      issues: [],
      value: {
        condition: 'usual',
        meterErrorPercent: 5,
        readings: [
          {
            post: 'lane/12',
            run: 'lane',
            postNumber: 12,
            strands: ['top', 'low'],
            volts: 7100,
            amps: 3.2,
            direction: 1,
          },
          { post: 'fork', run: 'west', postNumber: 0, strands: ['top', 'low'], volts: 6800, amps: 1.4, direction: 1 },
          { post: 'fork', run: 'slope', postNumber: 0, strands: ['top'], volts: 6900, amps: -0.6, direction: 1 },
          { post: 'ridge', run: 'top', postNumber: 50, strands: ['top'], volts: 6500, amps: null, direction: -1 },
        ],
      },
    });
  });

  test('leaves out rows that were not filled in', () => {
    const read = parseReadings({ readings: [{ post: 'line/4' }, { post: 'line/9', kV: null, amps: null }] }, line);
    expect(read.readings).toEqual([]);
  });

  test('takes the meter’s error and the condition from the file, and what the caller says before that', () => {
    const input = { condition: 'USUAL', meterError: '8 %', readings: [] };
    expect(parseReadings(input, line)).toMatchObject({ condition: 'usual', meterErrorPercent: 8 });
    expect(parseReadings(input, line, { meterErrorPercent: 3 }).meterErrorPercent).toBe(3);
  });

  const wrong: [what: string, rows: string, path: string, hint: RegExp][] = [
    ['a post beyond the run', '  - { post: lane/99, kV: 5 }', 'readings[0].post', /lane\/0 to lane\/59/],
    ['an unknown post', '  - { post: frk, kV: 5 }', 'readings[0].post', /"fork"/],
    ['amps without a direction', '  - { post: lane/3, strand: all, kV: 5, amps: 1 }', 'readings[0].towards', /^$/],
    ['amps without a strand', '  - { post: lane/3, amps: 1, towards: lane/4 }', 'readings[0].strand', /^$/],
    ['an unknown strand', '  - { post: lane/3, strand: tip, kV: 5 }', 'readings[0].strand', /"top"/],
    [
      'a direction that no wire takes',
      '  - { post: lane/3, strand: all, amps: 1, towards: west }',
      'readings[0].towards',
      /lane/,
    ],
    ['two directions', '  - { post: hill, amps: 1, towards: top, from: slope }', 'readings[0].from', /^$/],
    ['volts in place of kilovolts', '  - { post: lane/3, kV: 5100 }', 'readings[0].kV', /^$/],
    ['an unknown key', '  - { post: lane/3, kv: 5.1 }', 'readings[0].kv', /"kV"/],
  ];
  test.each(wrong)('refuses %s', (_, rows, path, hint) => {
    const outcome = readReadingsText(text(rows), branches);
    expect(outcome.ok).toBe(false);
    expect(outcome.issues.map((issue) => wordPath(issue.path))).toContain(path);
    const issue = outcome.issues.find((known) => wordPath(known.path) === path)!;
    expect(issue.hint).toMatch(hint);
    expect(issue.at?.line).toBe(2);
  });

  test('asks which condition where the plan has several', () => {
    const plan = { ...line, conditions: [line.conditions[0]!, { ...line.conditions[0]!, id: 'storm', name: 'storm' }] };
    const outcome = readReadings({ readings: [] }, plan);
    expect(outcome.issues.map(({ path }) => wordPath(path))).toEqual(['condition']);
    expect(readReadings({ condition: 'strom', readings: [] }, plan).issues[0]!.hint).toMatch(/"storm"/);
    // What the readings say of themselves goes before what is usual.
    expect(parseReadings({ readings: [] }, plan, { usualCondition: 'storm' }).condition).toBe('storm');
    const own = { condition: 'usual', readings: [] };
    expect(parseReadings(own, plan, { usualCondition: 'storm' }).condition).toBe('usual');
  });
});

describe('readings as CSV (RFC 4180)', () => {
  test('read as the same readings as YAML', () => {
    const csv =
      'post,strand,kV,amps,towards,from,reason\r\nfork,all,6.8,1.4,"west",,junction\r\nlane/3,,,,,,between\r\n';
    const yaml = text('  - { post: fork, strand: all, kV: 6.8, amps: 1.4, towards: west }');
    const [a, b] = [readReadingsText(csv, branches), readReadingsText(yaml, branches)];
    expect(a).toEqual(b);
  });

  test('may use semicolons or tabs, and remarks', () => {
    for (const separator of [';', '\t']) {
      const csv = `# read on a damp evening\npost,kV\nline/9,6.5\n`.replaceAll(',', separator);
      expect(readReadingsText(csv, line)).toMatchObject({
        ok: true,
        value: { readings: [{ post: 'line/9', volts: 6500 }] },
      });
    }
  });

  test('name the line of what is wrong, and warn of columns that are not read', () => {
    const outcome = readReadingsText('post,kV,amsp\nline/9,6.5,\nline/10,six,\n', line);
    expect(outcome.ok).toBe(false);
    expect(outcome.issues[0]).toMatchObject({ path: ['readings', 1, 'kV'], found: '"six"', at: { line: 3 } });
    expect(outcome.issues[1]).toMatchObject({
      code: 'unknown-column',
      severity: 'warning',
      hint: 'Did you mean "amps"?',
    });
  });
});
