import { type Issue, parsePlan } from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import { describe, expect, it } from 'vitest';
import { loosePlan, smallPlan } from './small-plan.js';

const places = (issues: readonly Issue[]) => issues.map(({ code, at }) => `${at?.line}:${at?.column} ${code}`);
const replaced = (...pairs: [from: string, to: string][]) =>
  pairs.reduce((text, [from, to]) => {
    if (!text.includes(from)) throw new Error(`no ${from}`);
    return text.replace(from, to);
  }, smallPlan);

describe('a plan as text', () => {
  it('reads YAML', () => {
    const outcome = readPlanText(smallPlan);
    expect(outcome).toEqual({ ok: true, value: parsePlan(loosePlan()), issues: [] });
  });

  it('reads JSON, with a byte order mark or Windows line ends', () => {
    const json = JSON.stringify(loosePlan(), null, 2).replaceAll('\n', '\r\n');
    expect(readPlanText(`\uFEFF${json}`)).toEqual(readPlanText(smallPlan));
  });

  it('reads a resolved plan, told by its format', () => {
    const plan = parsePlan(loosePlan());
    expect(readPlanText(JSON.stringify(plan))).toEqual({ ok: true, value: plan, issues: [] });
  });

  it('fits in 28 lines', () => {
    expect(smallPlan.trimEnd().split('\n').length).toBeLessThanOrEqual(28);
  });

  it('lets anchors save typing', () => {
    const text = replaced(
      ['summer: {soil', 'summer: &wet {soil'],
      ['storm: {soil: wet, surface: wet, growth: moderate}', 'storm: *wet'],
    );
    const outcome = readPlanText(text);
    expect(outcome.ok && outcome.value.conditions[2]).toMatchObject({ id: 'storm', soil: 'moist', film: 'damp' });
  });
});

describe('lines and columns', () => {
  it('point at the value that is wrong, at the key that is not known, in order', () => {
    const text = replaced(
      ['soil: loam', 'soil: loem'],
      ['class: 6 J', 'clas: 6 J'],
      ['height: 36 in', 'height: 36'],
      ['to: creek', 'to: crek'],
      ['soil: dry', 'soil: drie'],
    );
    const { issues } = readPlanText(text);
    expect(places(issues)).toEqual([
      '5:7 unknown-row',
      '8:3 unknown-key',
      '18:29 missing-unit',
      '22:28 unknown-junction',
      '26:19 bad-value',
    ]);
    const lines = text.split('\n');
    for (const issue of issues) {
      const rest = lines[issue.at!.line - 1]!.slice(issue.at!.column - 1);
      expect(rest).toMatch(/^(loem|clas|36|crek|drie)/);
    }
  });

  it('point at the map that lacks a key', () => {
    expect(places(readPlanText(replaced([', length: 660 ft', ''])).issues)).toEqual(['23:3 missing-key']);
  });

  it('follow an alias to its anchor', () => {
    const text = replaced(
      ['summer: {soil: moist', 'summer: &a {soil: moistish'],
      ['storm: {soil: wet, surface: wet, growth: moderate}', 'storm: *a'],
    );
    expect(places(readPlanText(text).issues)).toEqual(['25:21 bad-value', '25:21 bad-value']);
  });
});

describe('text that is no plan', () => {
  it.each([
    ['nothing', '', 'empty'],
    ['comments only', '# my fence\n', 'empty'],
    ['a word', 'fence', 'bad-value'],
    ['a tab for an indent', replaced(['  at: barn', '\tat: barn']), 'bad-yaml'],
    ['an open bracket', replaced(['length: 60 ft}', 'length: 60 ft']), 'bad-yaml'],
    ['a key twice', `${smallPlan}soil: clay\n`, 'repeated-key'],
    ['a key twice in JSON', '{"formatVersion": 1, "formatVersion": 1}', 'repeated-key'],
    ['two documents', `${smallPlan}---\n${smallPlan}`, 'bad-yaml'],
    ['an alias of nothing', replaced(['soil: loam', 'soil: *none']), 'bad-yaml'],
    ['a tag that runs code', replaced(['soil: loam', 'soil: !!js/function "function () {}"']), 'bad-yaml'],
    ['a key that reaches a prototype', replaced(['hill]', 'hill]\n__proto__: {a: 1}']), 'refused-key'],
    ['a binary file', '\u0000\u0001\u0002', 'bad-value'],
    ['brackets without end', '['.repeat(100_000), 'too-deep'],
    ['lists within lists without end', '- '.repeat(50_000), 'too-deep'],
    [
      'more aliases than a plan has',
      `a: &a 1\n${Array.from({ length: 1001 }, (_, i) => `b${i}: *a`).join('\n')}`,
      'too-many-aliases',
    ],
    ['a long text', 'a: b\n'.repeat(1_000_000), 'too-large'],
    ['a number that is none', replaced(['length: 660 ft', 'length: .nan']), 'bad-number'],
  ])('%s', (_, text, code) => {
    const outcome = readPlanText(text);
    expect(outcome.ok).toBe(false);
    expect(outcome.issues.map((issue) => issue.code)).toContain(code);
  });

  it('says where a key stands a second time', () => {
    expect(places(readPlanText(`${smallPlan}soil: clay\n`).issues)).toEqual(['28:1 repeated-key']);
  });

  it('never reaches a prototype', () => {
    readPlanText('{"__proto__": {"polluted": true}, "constructor": {"prototype": {"polluted": true}}}');
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  // Nine levels of nine aliases make 9⁹ values; refusal has to come before they are made.
  it('refuses an alias bomb', () => {
    const levels = Array.from({ length: 9 }, (_, i) => `l${i + 1}: &l${i + 1} [${Array(9).fill(`*l${i}`).join(', ')}]`);
    const outcome = readPlanText(`l0: &l0 [a, a, a, a, a, a, a, a, a]\n${levels.join('\n')}\n`);
    expect(outcome.ok).toBe(false);
    expect(outcome.issues.map((issue) => issue.code)).toEqual(['bad-yaml']);
    expect(outcome.issues[0]!.found).toMatch(/alias/i);
  });

  it('refuses an alias within its own anchor', () => {
    expect(readPlanText('a: &a [*a]\n').ok).toBe(false);
  });
});

describe('what people do to YAML is answered in plain words', () => {
  it.each([
    ['a colon in a text', replaced(['title: Home pasture', 'title: Home: the pasture']), /colon.*quotes/],
    ['a brace left open', replaced(['length: 660 ft}', 'length: 660 ft']), /left open/],
    ['a quote left open', replaced(['title: Home pasture', 'title: "Home pasture']), /left open/],
    ['a tab', replaced(['  at: barn', '\tat: barn']), /spaces, not tabs/],
  ])('%s', (_, text, hint) => {
    const { issues } = readPlanText(text);
    expect(issues.some((issue) => hint.test(issue.hint))).toBe(true);
  });
});
