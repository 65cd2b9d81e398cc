import { standardTables, type Tables } from '@postvolt/tables';
import { Pacer, type TaskOptions } from '../../engine/pacer.js';
import { worstOf } from '../../fence/hot-posts.js';
import { type OpenFence, openFence } from '../../fence/open-fence.js';
import { pickConditions } from '../../fence/pick-conditions.js';
import { layOut } from '../../network/layout.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import { leakBudget } from '../../result/leaks.js';
import { weakestPost } from '../../result/verdict.js';
import { checkNumber, materials } from '../materials/materials.js';
import { type Money, noMoney, PriceList, plus, times } from '../materials/price-list.js';
import type { MaterialsResult } from '../materials/result.js';
import { applyChanges } from './apply-change.js';
import type { PlanVariant } from './change.js';
import { usualChoices } from './insulator-choices.js';
import { insulatorYears } from './insulator-years.js';
import { refuse } from './refuse.js';
import type { CompareResult, VariantCondition, VariantResult } from './result.js';
import { compareSentence } from './words.js';

/** What to ask of `compare`. */
export interface CompareOptions extends TaskOptions {
  /** Variants beside the plan as it is; see `readVariants` and `readChanges` for those that a person writes. */
  readonly variants?: readonly PlanVariant[];
  /** Ids of the conditions; all where left out. */
  readonly conditions?: readonly string[];
  /** Follow insulators through so many years, 1 to 100; the usual ones, or your own choice of them. */
  readonly insulatorYears?: { readonly years?: number; readonly choices?: readonly PlanVariant[] };
  /** Where the rows named by changes are looked up; the standard tables where left out. */
  readonly tables?: Tables;
}

const mostLeaks = 3;

/**
 * Variants of a plan side by side: the weakest post and its margin in each condition, the largest leaks, materials and cost
 * over the plan as it is. Volts, and money in the plan's currency.
 *
 * Each variant is built as a plan of its own; where it has the nodes and branches of the plan as it is, the ordering of its
 * equations serves again. Insulators through the years follow `ageingLaw`: new, aged, and a growing part of them cracked
 * until their service life is over and they are replaced; each year is one numeric pass, in the condition in which the plan
 * has the least volts.
 *
 * @throws PlanError for a condition, run or row that does not exist, or a change that does not fit. Rejects with the
 * signal's reason when it is aborted.
 */
export async function compare(plan: ResolvedPlan, options: CompareOptions = {}): Promise<CompareResult> {
  const { variants = [], tables = standardTables } = options;
  const conditions = pickConditions(plan, options.conditions);
  const names = new Set<string>([presentName]);
  for (const { name } of variants) {
    if (names.has(name)) refuse(['variants'], `"${name}" twice`, 'variants of different names');
    names.add(name);
  }
  const asked = options.insulatorYears;
  const years = asked === undefined ? 0 : checkNumber('insulatorYears', asked.years ?? 25, [1, 100]);
  const pacer = new Pacer(options);
  const plans = variants.map(({ changes }) => applyChanges(plan, changes, tables));
  const share = asked === undefined ? 1 : 0.5;
  const present = await variantOf({ name: presentName, changes: [] }, plan, conditions, null);
  await pacer.step(share / (plans.length + 1));
  const results = [present.result];
  for (const [v, variant] of variants.entries()) {
    results.push((await variantOf(variant, plans[v]!, conditions, present)).result);
    if (pacer.due) await pacer.step((share * (v + 2)) / (plans.length + 1));
  }
  const condition = conditions.find(({ id }) => id === present.result.worst)!;
  const followed =
    asked === undefined
      ? null
      : await insulatorYears(plan, condition, asked.choices ?? usualChoices(plan, tables), {
          years,
          tables,
          pause: (done) => pacer.step(share + (1 - share) * done),
        });
  options.onProgress?.(1);
  const result: Omit<CompareResult, 'sentence'> = {
    format: 'postvolt compare',
    formatVersion: 1,
    title: plan.title,
    units: plan.units,
    target: plan.target,
    currency: new PriceList(plan).currency,
    variants: results,
    years: followed,
  };
  return { ...result, sentence: compareSentence(result) };
}

const presentName = 'as it is';

interface Present {
  readonly plan: ResolvedPlan;
  readonly result: VariantResult;
  readonly solved: ReadonlyMap<string, OpenFence>;
  readonly materials: MaterialsResult;
}

async function variantOf(
  { name, changes }: PlanVariant,
  plan: ResolvedPlan,
  conditions: readonly ResolvedCondition[],
  present: Present | null,
): Promise<Present> {
  const layout = layOut(plan);
  const solved = new Map<string, OpenFence>();
  const found = conditions.map(({ id }): VariantCondition => {
    // The variant's own, which its changes may have altered.
    const condition = plan.conditions.find((own) => own.id === id)!;
    const like = present?.solved.get(id);
    const fence = openFence(plan, condition, like === undefined ? { layout } : { layout, like });
    solved.set(id, fence);
    const { holds, marginVolts } = fence.lowest();
    const leaks = leakBudget(fence).slice(0, mostLeaks);
    return { id, name: condition.name, holds, weakest: weakestPost(fence), marginVolts, leaks };
  });
  const worst = worstOf(found);
  const takes = materials(plan);
  const before = present ?? null;
  const isCleared = before !== null && growthOf(plan) !== growthOf(before.plan);
  const clearing = isCleared ? clearingMoney(plan, changes) : noMoney;
  const result: VariantResult = {
    name,
    isPresent: present === null,
    holds: found.every(({ holds }) => holds),
    conditions: found,
    worst: worst.id,
    leastVolts: worst.weakest.compared,
    wonVolts: before === null ? 0 : worst.weakest.compared - before.result.leastVolts,
    cost: takes.cost,
    costDifference: before === null ? noMoney : difference(takes.cost, before.materials.cost),
    costPerYear: plus(takes.lifeCycle.costPerYear, clearing),
  };
  return { plan, result, solved, materials: takes };
}

/** All that a plan says of growth, to tell whether a change of it has held any down. */
const growthOf = ({ conditions, stretches }: ResolvedPlan): string =>
  JSON.stringify([
    conditions.map(({ growth }) => growth),
    stretches.map(({ set }) => [set.growth, set.leakSiemensPerMetre]).filter((set) => set.some((own) => own !== null)),
  ]);

/** A year's mowing or spraying: once along every run whose growth is held down. */
function clearingMoney(plan: ResolvedPlan, changes: PlanVariant['changes']): Money {
  let metres = 0;
  for (const change of changes) {
    if (change.what !== 'growth') continue;
    for (const run of plan.runs) if (change.run === undefined || change.run === run.id) metres += run.lengthM;
  }
  return new PriceList(plan).workMoney('clear growth', metres);
}

function difference(a: Money, b: Money): Money {
  const { low, typical, high } = plus(a, times(b, -1));
  return { low: Math.min(low, typical, high), typical, high: Math.max(low, typical, high) };
}
