import type { Tables } from '@postvolt/tables';
import { withOwnTables } from './own-tables.js';
import type { Reporter } from './reporter.js';
import { resolveConditions } from './resolve-conditions.js';
import { pulseHzOf, resolveEnergizer } from './resolve-energizer.js';
import { resolveBuilds, resolveJunctions, resolveRuns } from './resolve-lines.js';
import { resolveMonths } from './resolve-months.js';
import { PartsResolver } from './resolve-parts.js';
import { resolvePrices } from './resolve-prices.js';
import { resolveTarget } from './resolve-target.js';
import type { ResolvedPlan } from './resolved.js';
import { RowLookup } from './row-lookup.js';
import type { Plan } from './schema.js';

/** Looks up every name of a plan's tables and fills in every default; what is wrong goes to `report`. */
export function resolvePlan(plan: Plan, tables: Tables, report: Reporter): ResolvedPlan {
  const book = new RowLookup(withOwnTables(tables, plan.tables, report), report);
  const { target, animal } = resolveTarget(plan, book, report);
  const soil = book.keep('soils', plan.soil, ['soil']);
  const energizer = resolveEnergizer(plan.energizer, book, report);
  const junctions = resolveJunctions(plan, book);
  const spaced = resolveBuilds(plan, book, report);
  const builds = spaced.map(({ build }) => build);
  const runs = resolveRuns(plan, junctions, spaced, report);
  const conditions = resolveConditions(plan, book, report);
  const months = resolveMonths(plan, { conditions, junctions, runs }, book, report);
  const parts = new PartsResolver(plan, runs, builds, book, report).resolve();
  return {
    format: 'postvolt resolved plan',
    formatVersion: 1,
    title: plan.title,
    units: plan.units,
    pulseHz: pulseHzOf(plan),
    target,
    animal,
    near: [...plan.near],
    soil,
    energizer,
    junctions,
    runs,
    builds,
    ...parts,
    conditions,
    months,
    prices: resolvePrices(plan.prices, book, report),
    calibration: null,
    rows: book.rows(),
  };
}
