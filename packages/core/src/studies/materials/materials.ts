import { type Issue, PlanError } from '../../issue.js';
import { layOut } from '../../network/layout.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import { cautionsOf } from '../../result/cautions.js';
import { materialLines } from './lines.js';
import { noMoney, PriceList, plus, times } from './price-list.js';
import type { MaterialsResult } from './result.js';
import { materialsNotes, materialsSentence } from './words.js';

/** What to ask of `materials`. */
export interface MaterialsOptions {
  /** Years of the life-cycle cost, 1 to 100; 25 where left out. */
  readonly years?: number;
  /** Wire bought beyond what the plan takes, for knots, ends and sag, as a part of it; 0.05 where left out. */
  readonly waste?: number;
}

/** Refuses an option that is not a number within bounds. */
export function checkNumber(key: string, value: number, [least, most]: readonly [number, number]): number {
  if (value >= least && value <= most) return value;
  const issue: Issue = {
    code: 'out-of-range',
    severity: 'error',
    path: [key],
    found: String(value),
    expected: most === Infinity ? `a number, ${least} or more` : `a number from ${least} to ${most}`,
    hint: '',
    at: null,
  };
  throw new PlanError([issue]);
}

/**
 * What a plan takes: wire by whole coils, posts and insulators by kind, ends and corners by the rule of strands, strainers,
 * springs, clamps, switches, rods, signs and the energizer; what it costs, and what it costs over so many years.
 *
 * Prices are the plan's own, else invented default rates with their ranges; the low end of a cost takes every price at its
 * low end. Each thing is replaced when its service life is over, with its work; no interest is reckoned, and the work of
 * building is left out.
 *
 * @throws PlanError for years or waste that are out of range.
 */
export function materials(plan: ResolvedPlan, options: MaterialsOptions = {}): MaterialsResult {
  const years = checkNumber('years', options.years ?? 25, [1, 100]);
  const waste = checkNumber('waste', options.waste ?? 0.05, [0, 1]);
  const lines = materialLines(plan, layOut(plan), { years, waste });
  const cost = lines.reduce((sum, line) => plus(sum, line.cost), noMoney);
  const whole = lines.reduce((sum, line) => plus(sum, line.replacementCost), cost);
  const own = lines.reduce((sum, { price, cost }) => sum + (price?.basis === 'entered' ? cost.typical : 0), 0);
  const result: Omit<MaterialsResult, 'sentence'> = {
    format: 'postvolt materials',
    formatVersion: 1,
    title: plan.title,
    units: plan.units,
    currency: new PriceList(plan).currency,
    lines,
    cost,
    ownPriceShare: cost.typical > 0 ? own / cost.typical : 0,
    lifeCycle: { years, cost: whole, costPerYear: times(whole, 1 / years) },
    waste,
    notes: materialsNotes(plan, lines),
    cautions: cautionsOf(plan),
  };
  return { ...result, sentence: materialsSentence(result) };
}
