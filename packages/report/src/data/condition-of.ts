import type { ConditionResult, PlanResult } from '@postvolt/core';

/**
 * The condition of a result with this id; the one with the least margin where the id is left out.
 * Throws a RangeError for an id that the result does not have.
 */
export function conditionOf(result: PlanResult, id?: string): ConditionResult {
  if (id === undefined)
    return result.conditions.reduce((a, b) => (b.verdict.marginVolts < a.verdict.marginVolts ? b : a));
  const found = result.conditions.find((condition) => condition.id === id);
  if (found !== undefined) return found;
  const ids = result.conditions.map((condition) => JSON.stringify(condition.id)).join(', ');
  throw new RangeError(`condition: found ${JSON.stringify(id)}, expected one of ${ids}`);
}
