import { nearestPost, postPositionM, readPlan, readResolvedPlan, spanAt, spanCount, wordIssue } from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { loosePlan, smallPlan } from './small-plan.js';

const name = fc.stringMatching(/^[a-z][a-z0-9 é-]{0,10}[a-z0-9]$/);

/** Farms whose runs make a tree, so that all is fed; strands, posts and conditions at random. */
const farm = fc
  .record({
    junctions: fc.uniqueArray(name, { minLength: 2, maxLength: 12 }),
    parents: fc.array(fc.nat(), { minLength: 12, maxLength: 12 }),
    lengths: fc.array(fc.integer({ min: 1, max: 4000 }), { minLength: 12, maxLength: 12 }),
    spacing: fc.integer({ min: 4, max: 80 }),
    strands: fc.uniqueArray(name, { minLength: 1, maxLength: 4 }),
    grounded: fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
    units: fc.constantFrom('imperial', 'metric'),
    conditions: fc.uniqueArray(name, { minLength: 1, maxLength: 3 }),
    soil: fc.constantFrom('dry', 'moist', 'wet', 'frozen'),
    growth: fc.constantFrom('none', 'trace', 'light', 'moderate', 'heavy', 'overgrown'),
  })
  .map((f) => ({
    formatVersion: 1,
    title: 'Made up',
    units: f.units,
    soil: 'clay',
    energizer: { at: f.junctions[0]!, class: '6 J', groundRods: {} },
    junctions: f.junctions,
    builds: {
      only: {
        post: 'wood',
        wire: '14 ga high-tensile',
        strands: f.strands.map((strand, i) => ({
          name: strand,
          height: `${12 + 9 * i} in`,
          role: i > 0 && f.grounded[i] ? 'grounded' : 'hot',
        })),
      },
    },
    runs: Object.fromEntries(
      f.junctions.slice(1).map((to, i) => [
        `run ${i}`,
        {
          from: f.junctions[f.parents[i]! % (i + 1)]!,
          to,
          length: `${f.lengths[i]} ft`,
          postSpacing: `${f.spacing} ft`,
        },
      ]),
    ),
    conditions: Object.fromEntries(f.conditions.map((id) => [id, { soil: f.soil, growth: f.growth }])),
  }));

describe('any farm', () => {
  it('resolves, and reads back the same as text, as JSON and resolved', () => {
    fc.assert(
      fc.property(farm, (plan) => {
        const outcome = readPlan(plan);
        if (!outcome.ok) throw new Error(outcome.issues.map((issue) => wordIssue(issue)).join('\n'));
        const { value } = outcome;
        expect(value.runs.map((run) => run.id)).toEqual(Object.keys(plan.runs));
        expect(readPlanText(stringify(plan))).toEqual(outcome);
        expect(readPlanText(JSON.stringify(plan))).toEqual(outcome);
        const again = readResolvedPlan(JSON.parse(JSON.stringify(value)));
        expect(again.ok && again.value).toEqual(value);
      }),
      { numRuns: 60, seed: 11 },
    );
  });
});

describe('any slip of the pen', () => {
  const parts: (string | number)[][] = [];
  const walk = (value: unknown, path: (string | number)[]) => {
    if (path.length > 0) parts.push(path);
    if (typeof value !== 'object' || value === null) return;
    for (const [key, inner] of Object.entries(value)) walk(inner, [...path, Array.isArray(value) ? Number(key) : key]);
  };
  walk(loosePlan(), []);
  const junk = fc.oneof(
    fc.anything(),
    fc.constantFrom(
      '',
      '5',
      '5 ft',
      '-5 ft',
      '1e9 mi',
      'NaN',
      'cattle',
      'north',
      '20 kohm (10 to 40)',
      -1,
      0,
      1,
      1e308,
      null,
      true,
    ),
    fc.string(),
  );

  it('is answered by a plan or by clear issues', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom(...parts), junk), { minLength: 1, maxLength: 3 }), (slips) => {
        const plan: unknown = loosePlan();
        for (const [path, value] of slips) {
          let at = plan as Record<string | number, unknown>;
          for (const key of path.slice(0, -1)) {
            const next = at[key];
            if (typeof next !== 'object' || next === null) return;
            at = next as typeof at;
          }
          if (Object.isFrozen(at) || (Array.isArray(at) && typeof path.at(-1) !== 'number')) return;
          at[path.at(-1)!] = value;
        }
        const outcome = readPlan(plan);
        if (!outcome.ok) expect(outcome.issues.some((issue) => issue.severity === 'error')).toBe(true);
        for (const issue of outcome.issues) {
          expect(issue.code).toMatch(/^[a-z]+(-[a-z]+)*$/);
          expect(issue.expected).not.toMatch(/undefined|\[object|Invalid|NaN/);
          expect(issue.found.length).toBeLessThan(300);
          expect(issue.found.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 1500, seed: 12 },
    );
  });

  it('in the text is answered as well', () => {
    fc.assert(
      fc.property(fc.nat(smallPlan.length - 1), fc.nat(8), fc.string({ maxLength: 4 }), (at, cut, insert) => {
        const outcome = readPlanText(smallPlan.slice(0, at) + insert + smallPlan.slice(at + cut));
        for (const issue of outcome.issues) {
          expect(issue.at === null || (issue.at.line >= 1 && issue.at.column >= 1)).toBe(true);
        }
        if (!outcome.ok) expect(outcome.issues.length).toBeGreaterThan(0);
      }),
      { numRuns: 1000, seed: 13 },
    );
  });
});

describe('posts of a run', () => {
  const run = fc.record({
    lengthM: fc.double({ min: 0.5, max: 5000, noNaN: true }),
    spacingM: fc.double({ min: 0.5, max: 60, noNaN: true }),
  });
  it('stand at equal spans no longer than the spacing, as few as that allows', () => {
    fc.assert(
      fc.property(run, ({ lengthM, spacingM }) => {
        const equal = { lengthM, posts: { kind: 'equal' as const, spacingM } };
        const spans = spanCount(equal);
        expect(lengthM / spans).toBeLessThanOrEqual(spacingM * (1 + 1e-8));
        if (spans > 1) expect(lengthM / (spans - 1)).toBeGreaterThan(spacingM * (1 - 1e-8));
        expect(postPositionM(equal, 0)).toBe(0);
        expect(postPositionM(equal, spans)).toBe(lengthM);
      }),
      { seed: 14 },
    );
  });

  it('are found by distance, the same whether listed or spaced', () => {
    fc.assert(
      fc.property(run, fc.double({ min: 0, max: 1, noNaN: true }), ({ lengthM, spacingM }, part) => {
        const equal = { lengthM, posts: { kind: 'equal' as const, spacingM } };
        const spans = spanCount(equal);
        const positionsM = Array.from({ length: spans + 1 }, (_, i) => postPositionM(equal, i));
        const listed = { lengthM, posts: { kind: 'at' as const, positionsM } };
        const atM = part * lengthM;
        const post = nearestPost(equal, atM);
        const nearest = Math.min(...positionsM.map((position) => Math.abs(position - atM)));
        expect(Math.abs(positionsM[post]! - atM)).toBe(nearest);
        expect(nearestPost(listed, atM)).toBe(post);
        const span = spanAt(equal, atM);
        expect(positionsM[span]! <= atM && (atM < positionsM[span + 1]! || span === spans - 1)).toBe(true);
        expect(spanAt(listed, atM)).toBe(span);
      }),
      { seed: 15 },
    );
  });
});
