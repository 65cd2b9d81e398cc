import { findRow, type Tables } from '@postvolt/tables';
import { PlanError } from '../../issue.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import { suggestion } from '../../plan/suggest.js';
import type { ReachOptions } from './options.js';

/** Throws a `PlanError` for a run or wire that is not known, or a number that makes no fence. */
export function checkOptions(plan: ResolvedPlan, options: ReachOptions, tables: Tables): void {
  const refuse = (path: string, found: string, expected: string, hint = '') => {
    throw new PlanError([{ code: 'bad-option', severity: 'error', path: [path], found, expected, hint, at: null }]);
  };
  const ids = plan.runs.map(({ id }) => id);
  const { run, mostM, variations } = options;
  const isRun = (id: string, path: string) => {
    if (!ids.includes(id)) refuse(path, `"${id}"`, 'the name of a run', suggestion(id, ids));
  };
  if (run !== undefined) isRun(run, 'run');
  if (mostM !== undefined && !(mostM > 0 && mostM < Number.POSITIVE_INFINITY))
    refuse('mostM', String(mostM), 'a length above 0 m');
  if (variations === undefined || variations === false) return;
  if (variations.energizerAlong !== undefined) isRun(variations.energizerAlong, 'energizerAlong');
  const rows = new Set(Object.keys(plan.rows.wires));
  for (const name of variations.wires ?? []) {
    if (rows.has(name) || findRow(tables, 'wires', name) !== undefined) continue;
    refuse(
      'wires',
      `"${name}"`,
      'a row of the table of wires',
      suggestion(
        name,
        tables.wires.map(({ id }) => id),
      ),
    );
  }
  for (const factor of variations.spacing ?? [])
    if (!(factor > 0 && factor < Number.POSITIVE_INFINITY)) refuse('spacing', String(factor), 'a factor above 0');
  for (const more of variations.hotStrands ?? [])
    if (!Number.isInteger(more)) refuse('hotStrands', String(more), 'a whole number of strands more or fewer');
}
