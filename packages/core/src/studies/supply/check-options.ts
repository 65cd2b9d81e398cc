import { findRow, mostRods as mostInArray, type Tables } from '@postvolt/tables';
import { PlanError } from '../../issue.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import { suggestion } from '../../plan/suggest.js';
import type { SupplyOptions } from './options.js';
import type { RodKind } from './result.js';

function refuse(path: string, found: string, expected: string, hint = ''): never {
  throw new PlanError([{ code: 'bad-option', severity: 'error', path: [path], found, expected, hint, at: null }]);
}

type Checked = Required<Pick<SupplyOptions, 'probeM' | 'shortAtM' | 'shortVolts' | 'mostRods' | 'counts'>>;

/** Throws a `PlanError` for a number that no ground system or test can have. */
export function checkOptions(options: Checked, rod: RodKind): void {
  const positive = (path: string, value: number, what: string) => {
    if (!(value > 0 && value < Number.POSITIVE_INFINITY)) refuse(path, String(value), `${what} above 0`);
  };
  positive('rod.lengthM', rod.lengthM, 'a length in metres');
  positive('rod.diameterM', rod.diameterM, 'a diameter in metres');
  positive('rod.spacingM', rod.spacingM, 'a distance in metres');
  if (rod.lengthM <= rod.diameterM)
    refuse('rod.lengthM', String(rod.lengthM), `more than the diameter of ${rod.diameterM} m`);
  if (rod.spacingM <= rod.diameterM)
    refuse('rod.spacingM', String(rod.spacingM), `more than the diameter of ${rod.diameterM} m`);
  if (!(options.probeM > rod.diameterM / 2))
    refuse('probeM', String(options.probeM), 'a distance outside the rod, in metres');
  positive('probeM', options.probeM, 'a distance in metres');
  positive('shortVolts', options.shortVolts, 'volts');
  if (!(options.shortAtM >= 0)) refuse('shortAtM', String(options.shortAtM), 'a distance in metres');
  const isCount = (value: number) => Number.isInteger(value) && value >= 1 && value <= mostInArray;
  if (!isCount(options.mostRods))
    refuse('mostRods', String(options.mostRods), `a whole number from 1 to ${mostInArray}`);
  for (const count of options.counts)
    if (!isCount(count)) refuse('counts', String(count), `whole numbers from 1 to ${mostInArray}`);
}

/** The plan's soil and those asked for, by id, with their rows in a copy of the plan. */
export function soilsOf(
  plan: ResolvedPlan,
  wanted: readonly string[],
  tables: Tables,
): { plan: ResolvedPlan; soils: string[] } {
  const rows = { ...plan.rows.soils };
  const ids = wanted.map((name) => {
    const row = rows[name] ?? findRow(tables, 'soils', name);
    if (row === undefined)
      refuse(
        'soils',
        `"${name}"`,
        'a row of the table of soils',
        suggestion(
          name,
          tables.soils.map(({ id }) => id),
        ),
      );
    rows[row.id] = row;
    return row.id;
  });
  return { plan: { ...plan, rows: { ...plan.rows, soils: rows } }, soils: [...new Set([plan.soil, ...ids])] };
}
