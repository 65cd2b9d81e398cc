import { standardTables, type Tables } from '@postvolt/tables';
import { type Issue, type Outcome, PlanError } from '../issue.js';
import { checkMetal } from './check-metal.js';
import { ReferenceCheck } from './check-references.js';
import { checkValues } from './check-values.js';
import { guardInput } from './guard.js';
import { toPlanPath } from './plan-path.js';
import { Reporter } from './reporter.js';
import { resolvePlan } from './resolve.js';
import type { ResolvedPlan } from './resolved.js';
import { planSchema } from './schema.js';
import { reportZod } from './zod-issues.js';

/** Options of the entry points that read a plan. */
export interface ReadOptions {
  /** Reference tables in place of the standard ones; `extendTables` makes them. */
  readonly tables?: Tables;
}

/**
 * Reads a plan as people write it, an object with names and quantities as text.
 *
 * Never throws: all errors that could be found together come back as issues. Warnings come with a plan that is good.
 */
export function readPlan(input: unknown, options: ReadOptions = {}): Outcome<ResolvedPlan> {
  const report = new Reporter();
  guardInput(input, report);
  if (report.failed) return { ok: false, issues: report.issues };
  const parsed = planSchema.safeParse(input);
  if (!parsed.success) {
    reportZod(parsed.error.issues, planSchema, input, report);
    return { ok: false, issues: report.issues };
  }
  const plan = resolvePlan(parsed.data, options.tables ?? standardTables, report);
  report.add(
    checkResolved(plan, report.failed).map((issue) => ({ ...issue, path: toPlanPath(plan, input, issue.path) })),
  );
  return report.failed ? { ok: false, issues: report.issues } : { ok: true, value: plan, issues: report.issues };
}

/** Like `readPlan`; throws a `PlanError` where the plan is wrong. */
export function parsePlan(input: unknown, options: ReadOptions = {}): ResolvedPlan {
  const outcome = readPlan(input, options);
  if (!outcome.ok) throw new PlanError(outcome.issues);
  return outcome.value;
}

/** All that can be checked of a resolved plan; values and metal only once names and places hold. */
export function checkResolved(plan: ResolvedPlan, hasErrors = false): readonly Issue[] {
  const report = new Reporter();
  new ReferenceCheck(plan, report).check();
  checkValues(plan, report);
  if (!report.failed && !hasErrors) checkMetal(plan, report);
  return report.issues;
}
