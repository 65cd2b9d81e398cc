import { type Issue, PlanError } from '../issue.js';
import type { ResolvedCondition, ResolvedPlan } from '../plan/resolved.js';

/** Picks conditions by id; all where none are named. Throws a {@link PlanError} for an id that the plan does not have. */
export function pickConditions(plan: ResolvedPlan, ids: readonly string[] | undefined): readonly ResolvedCondition[] {
  if (ids === undefined) return plan.conditions;
  const known = new Map(plan.conditions.map((condition) => [condition.id, condition]));
  const refuse = (found: string): never => {
    const expected = `one of ${[...known.keys()].map((key) => `"${key}"`).join(', ')}`;
    const where = { code: 'unknown-name', severity: 'error', path: ['conditions'] } as const;
    const issue: Issue = { ...where, found, expected, hint: '', at: null };
    throw new PlanError([issue]);
  };
  if (ids.length === 0) refuse('none');
  return ids.map((id) => known.get(id) ?? refuse(`"${id}"`));
}
