import { cautionsOf, explainPost } from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import { describe, expect, test } from 'vitest';
import { fallsShort, holds, holdsFile } from './plans.js';
import { postvolt } from './run.js';

const outcome = readPlanText(holds);
if (!outcome.ok) throw new Error('the plan cannot be read');
const plan = outcome.value;

describe('explain', () => {
  test('names every resistance at the post, each value with its source, in every condition', async () => {
    const { code, stdout, stderr } = await postvolt(['explain', holdsFile, '--post', 'lane/3']);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const text = stdout.replace(/\s+/g, ' ');
    const explanations = explainPost(plan, { post: 'lane/3' });
    expect(explanations.length).toBe(2);
    for (const { sentence, parts } of explanations) {
      expect(text).toContain(sentence);
      for (const { inputs } of parts)
        for (const { name, source } of inputs)
          expect(text).toMatch(new RegExp(`${escaped(name)}: .*${escaped(source)}`));
    }
    for (const line of stdout.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
  });

  test('--json is the explanation of the library', async () => {
    const { stdout } = await postvolt(['explain', holdsFile, '-p', 'lane/3', '-c', 'rainy day', '--json']);
    const expected = explainPost(plan, { post: 'lane/3', conditions: ['rainy day'] });
    expect(JSON.parse(stdout)).toEqual(JSON.parse(JSON.stringify(expected)));
  });

  test('answers with 0 where the target falls short', async () => {
    const { code } = await postvolt(['explain', '-', '-p', 'corner'], { input: fallsShort });
    expect(code).toBe(0);
  });

  test.each(['lane/99', 'lnae/3', 'nowhere'])('an unknown post %s has exit code 2', async (post) => {
    const { code, stdout, stderr } = await postvolt(['explain', holdsFile, '-p', post]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain(`"${post}"`);
    expect(stderr).toMatch(/expected/);
  });
});

describe('check', () => {
  test('says that a plan can be used, with its cautions', async () => {
    const { code, stdout, stderr } = await postvolt(['check', holdsFile]);
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    const text = stdout.replace(/\s+/g, ' ');
    expect(text).toMatch(/one-paddock\.yaml \("One paddock"\) can be used/);
    expect(cautionsOf(plan).length).toBeGreaterThan(0);
    for (const caution of cautionsOf(plan)) expect(text).toContain(caution.text);
  });

  test('has exit code 0 for a plan that falls short, and 2 for one with errors', async () => {
    const [short, wrong] = await Promise.all([
      postvolt(['check', '-'], { input: fallsShort }),
      postvolt(['check', '-'], { input: holds.replace('to: corner', 'to: cornre') }),
    ]);
    expect(short.code).toBe(0);
    expect(wrong).toMatchObject({ code: 2, stdout: '' });
    expect(wrong.stderr).toMatch(
      /standard input:\d+:\d+: runs\.lane\.to: found "cornre", expected .*Did you mean "corner"\?/,
    );
  });

  test('--json prints the same as data', async () => {
    const { stdout } = await postvolt(['check', holdsFile, '--json']);
    const found = JSON.parse(stdout);
    expect(found.title).toBe('One paddock');
    expect(found.cautions).toEqual(cautionsOf(plan));
    for (const warning of found.warnings)
      expect(warning).toMatchObject({ severity: 'warning', code: expect.any(String) });
  });
});

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
