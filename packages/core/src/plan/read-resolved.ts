import { standardTables } from '@postvolt/tables';
import type { Outcome } from '../issue.js';
import { checkCarried, checkEntered } from './check-carried.js';
import { fillResolved } from './fill-resolved.js';
import { fillRows } from './fill-rows.js';
import { guardInput } from './guard.js';
import { checkResolved, type ReadOptions } from './read.js';
import { Reporter } from './reporter.js';
import { type ResolvedPlan, resolvedPlanSchema } from './resolved.js';
import { reportZod } from './zod-issues.js';

const inputSchema = resolvedPlanSchema.extend({ rows: resolvedPlanSchema.shape.rows.partial() });

/** True for a document that calls itself a resolved plan. */
export const isResolvedPlan = (input: unknown): boolean =>
  typeof input === 'object' && input !== null && 'format' in input && input.format === 'postvolt resolved plan';

/**
 * Reads a plan in SI, as other farm software writes it.
 *
 * What has an obvious default may be left out, bare SI numbers stand for values without a range, and table rows that
 * are named but not carried come from the tables. A resolved plan reads back as it is. Never throws.
 */
export function readResolvedPlan(input: unknown, options: ReadOptions = {}): Outcome<ResolvedPlan> {
  const report = new Reporter();
  guardInput(input, report);
  if (report.failed) return { ok: false, issues: report.issues };
  const tables = options.tables ?? standardTables;
  const parsed = inputSchema.safeParse(fillResolved(input, tables));
  if (!parsed.success) {
    reportZod(parsed.error.issues, inputSchema, input, report);
    return { ok: false, issues: report.issues };
  }
  const { rows, ...rest } = parsed.data;
  checkCarried(rows, report);
  checkEntered(rest, report);
  const plan: ResolvedPlan = { ...rest, rows: fillRows(rest, rows, tables, report) };
  report.add(checkResolved(plan, report.failed));
  return report.failed ? { ok: false, issues: report.issues } : { ok: true, value: plan, issues: report.issues };
}
