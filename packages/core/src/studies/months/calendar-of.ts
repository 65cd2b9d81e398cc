import { climates, findClimate, findRow, standardTables, type Tables, type VegetationRow } from '@postvolt/tables';
import { type Issue, PlanError } from '../../issue.js';
import { type CalendarRows, climateCalendar, isSouth } from '../../plan/calendar.js';
import { defaults } from '../../plan/defaults.js';
import type { ResolvedCalendar, ResolvedPlan } from '../../plan/resolved.js';
import { suggestion } from '../../plan/suggest.js';

/** How the year is chosen where the plan's own is not taken. */
export interface CalendarOptions {
  /** Row of the climates, in place of the plan's own calendar; `temperate` where neither is given. */
  readonly climate?: string;
  /** Where left out, by the latitude of the plan's places, else north. */
  readonly hemisphere?: 'north' | 'south';
  /** Row of the vegetation table that mowing or spraying keeps the growth to. */
  readonly growthAtMost?: string;
  /** Tables that hold the climate's growth and ground cover; the standard ones where left out. */
  readonly tables?: Tables;
}

/** The calendar to reckon with, and the plan with the table rows that it names. */
export interface Year {
  readonly plan: ResolvedPlan;
  readonly calendar: ResolvedCalendar;
  readonly from: 'plan' | 'climate';
}

/** The plan's own calendar, unless options ask for another. */
export function yearOf(plan: ResolvedPlan, options: CalendarOptions): Year {
  const { climate, hemisphere, growthAtMost, tables = standardTables } = options;
  const asked = climate !== undefined || hemisphere !== undefined || growthAtMost !== undefined;
  if (plan.months !== null && !asked) return { plan, calendar: plan.months, from: 'plan' };
  const name = climate ?? plan.months?.climate ?? defaults.climate;
  const row = findClimate(name) ?? refuse('climate', name, 'a row of the climates', climates);
  const vegetation: Record<string, VegetationRow> = {};
  const groundCovers: ResolvedPlan['rows']['groundCovers'] = {};
  const growth = (id: string) => {
    const carried = plan.rows.vegetation;
    const found = Object.hasOwn(carried, id) ? carried[id] : findRow(tables, 'vegetation', id);
    if (found === undefined) return refuse('growthAtMost', id, 'a row of the vegetation table', tables.vegetation);
    vegetation[found.id] = found;
    return found;
  };
  const rows: CalendarRows = {
    vegetation: growth,
    groundCover: (id) => {
      groundCovers[id] = plan.rows.groundCovers[id] ?? findRow(tables, 'groundCovers', id)!;
      return id;
    },
  };
  const calendar = climateCalendar(row, rows, {
    south: hemisphere === undefined ? isSouth(plan) : hemisphere === 'south',
    mostGrowth: growthAtMost === undefined ? null : growth(growthAtMost),
  });
  const carried = {
    ...plan.rows,
    vegetation: { ...vegetation, ...plan.rows.vegetation },
    groundCovers: { ...groundCovers, ...plan.rows.groundCovers },
  };
  return { plan: { ...plan, rows: carried }, calendar, from: 'climate' };
}

function refuse(key: string, found: string, expected: string, known: readonly { readonly id: string }[]): never {
  const hint = suggestion(
    found,
    known.map(({ id }) => id),
  );
  const issue: Issue = {
    code: 'unknown-row',
    severity: 'error',
    path: [key],
    found: `"${found}"`,
    expected,
    hint,
    at: null,
  };
  throw new PlanError([issue]);
}
