import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { solvePlan } from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import { toCsv, toGeoJson, toSvg } from '@postvolt/report';
import { describe, expect, test } from 'vitest';
import { placedInput } from '../report/plans.js';
import { fallsShort, holds } from './plans.js';
import { folder, postvolt } from './run.js';

function resolved(text: string) {
  const outcome = readPlanText(text);
  if (!outcome.ok) throw new Error('the plan is wrong');
  return outcome.value;
}

async function report(plan: string, output: string, ...words: string[]) {
  const cwd = folder();
  writeFileSync(join(cwd, 'plan.yaml'), plan);
  const ended = await postvolt(['report', 'plan.yaml', '-o', output, ...words], { cwd });
  const files = readdirSync(cwd).filter((name) => name !== 'plan.yaml');
  const text = files.includes(output) ? readFileSync(join(cwd, output), 'utf8') : null;
  return { ...ended, files, text };
}

describe('postvolt report', () => {
  test('writes a page, says the verdict and the file, exit code 0 whatever the verdict', async () => {
    for (const plan of [holds, fallsShort]) {
      const { code, stdout, stderr, files, text } = await report(plan, 'home.html');
      expect({ code, stderr, files }).toEqual({ code: 0, stderr: '', files: ['home.html'] });
      expect(stdout).toMatch(/^The fence [\s\S]*\nWrote home\.html\.\n$/);
      expect(text).toMatch(/^<!doctype html>\n<html lang="en">/);
      expect(text).toMatch(/Made from plan\.yaml on \d{4}-\d\d-\d\d\./);
    }
  });

  test('adds the studies asked for to a page, each with its answer, figures and table', async () => {
    const words = ['costs', 'spread', 'months', 'insulators', 'upkeep', 'materials'].flatMap((name) => [
      '--with',
      name,
    ]);
    const { code, stderr, text } = await report(fallsShort, 'home.html', ...words);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const titles = [
      'What costs the weakest post its volts',
      'How sure that is',
      'Through the year',
      'Insulators through the years',
      'What to mend first',
      'What to buy',
    ];
    for (const title of titles) {
      expect(text).toMatch(new RegExp(`<h2[^>]*>${title}</h2>`));
    }
    expect(text!.match(/<section[^>]*id="study-\d"/g) ?? text!.match(/id="study-\d"/g)).toHaveLength(6);
  });

  test('sets variants beside the plan, and says so where one is not understood', async () => {
    const { code, text } = await report(fallsShort, 'home.html', '--change', 'rods +2', '--change', 'spray');
    expect(code).toBe(0);
    expect(text).toMatch(/<h2[^>]*>What if<\/h2>/);
    const bad = await report(fallsShort, 'home.html', '--change', 'paint it');
    expect([bad.code, bad.files]).toEqual([2, []]);
    expect(bad.stderr).toContain('--change: found "paint it"');
  });

  test('refuses a study that there is none of, and studies in a file that is no page', async () => {
    const unknown = await report(holds, 'home.html', '--with', 'mnths');
    expect([unknown.code, unknown.files]).toEqual([2, []]);
    expect(unknown.stderr).toContain('Did you mean "months"?');
    const drawing = await report(holds, 'home.svg', '--with', 'months');
    expect([drawing.code, drawing.files]).toEqual([2, []]);
  });

  test('writes the drawing asked for, of the condition asked for', async () => {
    const plan = resolved(holds);
    const volts = await report(holds, 'home.SVG');
    expect(volts.text).toBe(toSvg('volts', { plan, result: solvePlan(plan) }));
    const leaks = await report(holds, 'leaks.svg', '--figure', 'leaks', '-c', 'dry day');
    expect(leaks.text).toBe(toSvg('leaks', { plan, result: solvePlan(plan, { conditions: ['dry day'] }) }));
  });

  test('writes CSV as solve does', async () => {
    const { text } = await report(holds, 'posts.csv');
    expect(text).toBe(toCsv(solvePlan(resolved(holds))));
  });

  test('writes GeoJSON of a plan with coordinates', async () => {
    const input = JSON.stringify(placedInput);
    const plan = resolved(input);
    const { code, text } = await report(input, 'home.geojson');
    expect(code).toBe(0);
    const outcome = toGeoJson(plan, solvePlan(plan));
    expect(outcome.ok && JSON.parse(text!)).toEqual(outcome.ok && outcome.value);
  });

  test.each([
    ['home.geojson', [], /plan\.yaml cannot be used[\s\S]*found no coordinates for run/],
    [
      'home.pdf',
      [],
      /cannot tell what to write to home\.pdf: found "\.pdf", expected \.html, \.svg, \.geojson or \.csv/,
    ],
    ['home', [], /found no ending, expected \.html/],
    [
      'a.svg',
      ['--figure', 'leeks'],
      /no figure "leeks"; expected one of volts, fence, leaks, budget\. Did you mean "leaks"\?/,
    ],
    ['a.html', ['--figure', 'leaks'], /--figure goes with a file that ends in \.svg/],
    ['a.html', ['-c', 'wett'], /found condition "wett"/],
    ['no/such.html', [], /cannot write no\/such\.html: there is no such file or folder/],
  ] as const)('%s %j is refused, exit code 2, nothing written', async (output, words, message) => {
    const { code, stdout, stderr, files } = await report(holds, output, ...words);
    expect({ code, stdout, files }).toEqual({ code: 2, stdout: '', files: [] });
    expect(stderr).toMatch(message);
  });

  test('never writes over the plan, and needs to know where to write', async () => {
    const cwd = folder();
    writeFileSync(join(cwd, 'plan.csv'), holds);
    const over = await postvolt(['report', 'plan.csv', '-o', './plan.csv'], { cwd });
    expect(over).toMatchObject({ code: 2, stderr: expect.stringContaining('that is the plan itself') });
    expect(readFileSync(join(cwd, 'plan.csv'), 'utf8')).toBe(holds);
    const nowhere = await postvolt(['report', 'plan.csv'], { cwd });
    expect(nowhere).toMatchObject({
      code: 2,
      stderr: expect.stringContaining("required option '-o, --output <file>'"),
    });
  });
});

describe('the profile in the answer of solve', () => {
  test('stands once, at the condition that decides, in ASCII where the locale has no more', async () => {
    const unicode = await postvolt(['solve', '-'], { input: holds, env: { LC_ALL: 'C.UTF-8' } });
    expect(unicode.stdout.split('└─').length).toBe(2);
    const plain = await postvolt(['solve', '-'], { input: holds, env: { LC_ALL: 'C' } });
    expect(plain.stdout).toMatch(/^ +0 \+-{20,}$/m);
    expect(plain.stdout).not.toContain('└');
  });
});
