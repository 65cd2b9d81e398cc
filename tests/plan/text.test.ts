import { readPlanText } from '@postvolt/core/yaml';
import { expect, it } from 'vitest';
import { smallPlan } from './small-plan.js';

it('reads a plan of 25 lines', () => {
  const outcome = readPlanText(smallPlan);
  expect(outcome.issues).toEqual([]);
  expect(outcome.ok).toBe(true);
});
