import { standardTables, type Tables } from '@postvolt/tables';
import type { z } from 'zod';
import { type Issue, type Outcome, PlanError } from '../issue.js';
import { checkMetal } from './check-metal.js';
import { ReferenceCheck } from './check-references.js';
import { checkValues } from './check-values.js';
import { guardInput } from './guard.js';
import { toPlanPath } from './plan-path.js';
import { isWithin, repair } from './repair.js';
import { Reporter } from './reporter.js';
import { resolvePlan } from './resolve.js';
import type { ResolvedPlan } from './resolved.js';
import { type Plan, planSchema } from './schema.js';
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
    report.add(unknownNames(input, parsed.error.issues, options));
    return { ok: false, issues: report.issues };
  }
  const plan = resolveInto(report, parsed.data, input, options);
  return report.failed ? { ok: false, issues: report.issues } : { ok: true, value: plan, issues: report.issues };
}

function resolveInto(report: Reporter, parsed: Plan, input: unknown, options: ReadOptions): ResolvedPlan {
  const plan = resolvePlan(parsed, options.tables ?? standardTables, report);
  const known = report.issues;
  const issues = checkResolved(plan, report.failed).map((issue) => ({
    ...issue,
    path: toPlanPath(plan, input, issue.path),
  }));
  // What follows from an error that was found while resolving is not said again.
  report.add(issues.filter(({ path }) => !known.some((k) => isWithin(k.path, path) || isWithin(path, k.path))));
  return plan;
}

/** Names that lead nowhere in a plan that the schema refused for other reasons. */
function unknownNames(input: unknown, issues: readonly z.core.$ZodIssue[], options: ReadOptions): Issue[] {
  const repaired = repair(input, issues, planSchema);
  const parsed = repaired === null ? null : planSchema.safeParse(repaired.input);
  if (repaired === null || parsed === null || !parsed.success) return [];
  const report = new Reporter();
  resolveInto(report, parsed.data, repaired.input, options);
  return report.issues.filter(
    ({ code, path }) => code.startsWith('unknown-') && !repaired.places.some((place) => isWithin(path, place)),
  );
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
