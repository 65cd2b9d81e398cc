import { type PlanResult, solvePlan } from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import { scenario } from '@postvolt/scenarios';
import { expect, test } from 'vitest';

const text = scenario('demo farm').plan;

function solve(plan: string): PlanResult {
  const outcome = readPlanText(plan);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues, null, 1));
  return solvePlan(outcome.value);
}

/** Changes the plan's text, and fails where there is nothing to change. */
function change(from: string | RegExp, to: string): string {
  const changed = text.replace(from, to);
  if (changed === text) throw new Error(`the plan has no ${from}`);
  return changed;
}

const autumn = (result: PlanResult) => result.conditions.find(({ id }) => id === 'wet autumn')!;
const result = solve(text);

test('it is six miles of perimeter with four cross-fences, some thousands of nodes', () => {
  const outcome = readPlanText(text);
  if (!outcome.ok) throw new Error('unreadable');
  const perimeter = outcome.value.runs.filter(({ id }) => /^(west|north|east|south)/.test(id));
  const metres = perimeter.reduce((sum, { lengthM }) => sum + lengthM, 0);
  // A statute mile is 1609.344 m exactly.
  expect(metres / 1609.344).toBeCloseTo(6, 9);
  expect(new Set(outcome.value.runs.map(({ id }) => /^cross (\d)/.exec(id)?.[1]).filter(Boolean)).size).toBe(4);
  const strands = result.conditions[0]!.posts.reduce((sum, post) => sum + post.strands.length, 0);
  expect(strands).toBeGreaterThan(2000);
});

test('it holds in every condition but the wet autumn', () => {
  expect(result.conditions.map(({ id, verdict }) => [id, verdict.holds])).toEqual([
    ['dry summer', true],
    ['wet autumn', false],
    ['frozen winter', true],
    ['wet spring', true],
  ]);
});

test('the old insulators are the largest leak, and new ones alone hold the target', () => {
  expect(autumn(result).leaks[0]!.cause).toMatch(/cheap t-post clip/);
  const mended = solve(change(/insulator: cheap t-post clip\n +insulatorState: aged/, 'insulator: t-post clip'));
  expect(autumn(mended).verdict.holds).toBe(true);
});

test('a mown ditch alone holds the target too', () => {
  const mown = solve(change('growth: overgrown', 'growth: light'));
  expect(autumn(mown).verdict.holds).toBe(true);
});

test('the spur is switched off in winter and listed so', () => {
  const winter = result.conditions.find(({ id }) => id === 'frozen winter')!;
  expect(winter.switchedOffPosts).toContain('spring');
  expect(winter.deadPosts).toEqual([]);
});

test('the circuit laws hold in every condition', () => {
  // 1e-12: three digits above what double precision leaves in some thousands of sums.
  for (const { residuals } of result.conditions) {
    expect(residuals.kirchhoff).toBeLessThan(1e-12);
    expect(residuals.powerBalance).toBeLessThan(1e-12);
  }
});
