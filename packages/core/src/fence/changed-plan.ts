import { EngineError } from '../engine/issue.js';
import { type Issue, PlanError } from '../issue.js';
import { ReferenceCheck } from '../plan/check-references.js';
import { rowsNamed } from '../plan/fill-rows.js';
import { Reporter } from '../plan/reporter.js';
import type { ResolvedPlan } from '../plan/resolved.js';

const advice =
  'The plan was changed after it was read. Hand it to `readResolvedPlan` again, which says all that is wrong with it.';

/**
 * Throws what an error that came up while a plan was solved means: a {@link PlanError} where the plan no longer holds
 * together, as a plan does that was changed by hand after it was read; else the error itself.
 */
export function throwChangedPlan(plan: ResolvedPlan, error: unknown): never {
  if (error instanceof PlanError && error.issues[0]?.code !== 'not-fed') throw error;
  const issues = whatIsWrong(plan);
  if (issues.length > 0) throw new PlanError(issues.map((issue) => ({ ...issue, hint: advice })));
  // Names that are all known, with values that no circuit can have, are the plan's fault too.
  if (error instanceof EngineError) throw new PlanError([changed(error.message)]);
  throw error;
}

function whatIsWrong(plan: ResolvedPlan): readonly Issue[] {
  const report = new Reporter();
  try {
    new ReferenceCheck(plan, report).check();
    for (const [table, name, path] of rowsNamed(plan))
      if (!Object.hasOwn(plan.rows[table], name))
        report.error('unknown-row', path, `"${name}"`, `a row that the plan carries in rows.${table}`);
  } catch (error) {
    return [changed(String(error))];
  }
  return report.issues.filter(({ severity }) => severity === 'error').slice(0, 1);
}

const changed = (found: string): Issue => ({
  code: 'changed-plan',
  severity: 'error',
  path: [],
  found,
  expected: 'a plan as `readPlan` or `readResolvedPlan` gives it',
  hint: advice,
  at: null,
});
