import { standardTables } from '@postvolt/tables';
import { Pacer } from '../../engine/pacer.js';
import { pickConditions } from '../../fence/pick-conditions.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import { solvePlan } from '../../result/solve-plan.js';
import { checkOptions } from './check-options.js';
import { FenceOfLength } from './fence-of-length.js';
import { holdingRanges } from './holding-ranges.js';
import { factorOf, marginOf, overall, statusOf } from './judge.js';
import type { ReachOptions } from './options.js';
import type { ConditionReach, ReachResult } from './result.js';
import { judgeVariations } from './variation-reach.js';
import { variationsOf } from './variations.js';
import { reachSentence } from './words.js';

const usualMostM = { imperial: 40_233.6, metric: 40_000 } as const;
/** Shortest that is looked at: a fence of about a step. */
const tinyM = 1;
/** Spans beyond which a length is not looked at, so that one network stays a matter of seconds. */
const mostSpans = 250_000;

/**
 * How far a fence can go: the longest that still holds the target in each condition, which condition decides, and how the
 * answer moves with the wire, the number of hot strands, the distance of the posts and the energizer's place. Metres and volts.
 *
 * Posts stay as close together as they are, so their number is discrete; what stands on a run keeps its place in proportion,
 * gate cables and lead-outs keep their length. The logarithm of the weakest post's volts is followed by inverse quadratic
 * steps inside a bracket (R. K. Chandrupatla 1997), and the network is built again only where the number of posts changes.
 * Shorter and longer fences are looked at too, for those that do not simply get worse with length. All values are typical ones.
 *
 * @throws PlanError for a condition or run that the plan does not have, a wire that the tables do not have, or a length
 * that is not one. Rejects with the signal's reason when it is aborted.
 */
export async function reach(plan: ResolvedPlan, options: ReachOptions = {}): Promise<ReachResult> {
  const conditions = pickConditions(plan, options.conditions);
  const tables = options.tables ?? standardTables;
  const choice = options.variations === false ? null : (options.variations ?? {});
  checkOptions(plan, options, tables);
  const pacer = new Pacer(options);
  const runs = new Set(options.run === undefined ? plan.runs.map(({ id }) => id) : [options.run]);
  const fence = new FenceOfLength(plan, runs);
  const most = mostFactor(plan, fence, options.mostM);
  const least = Math.min(tinyM / fence.lengthM, most / 2);
  const variations = choice === null ? [] : variationsOf(plan, runs, choice, tables);

  const parts = conditions.length + variations.filter(({ make }) => make !== null).length;
  let done = 0;
  const pause = async () => {
    if (pacer.due) await pacer.step(done / parts);
  };
  const found: ConditionReach[] = [];
  for (const condition of conditions) {
    found.push(await conditionReach(fence, condition, { least, most }, pause));
    done++;
  }
  const judged = await judgeVariations(fence, variations, conditions, found, { least, most }, pause, () => {
    done++;
  });
  options.onProgress?.(1);
  const lengthM = fence.lengthM;
  const result: Omit<ReachResult, 'sentence'> = {
    format: 'postvolt reach',
    formatVersion: 1,
    title: plan.title,
    units: plan.units,
    target: plan.target,
    run: options.run ?? null,
    presentM: lengthM,
    leastM: least * lengthM,
    mostM: most * lengthM,
    ...overall(found),
    conditions: found,
    variations: judged.table,
    variationsIn: judged.conditions,
    work: { builds: judged.builds + fence.builds, passes: judged.passes + fence.passes },
  };
  return { ...result, sentence: reachSentence(result) };
}

async function conditionReach(
  fence: FenceOfLength,
  condition: ResolvedCondition,
  { least, most }: { least: number; most: number },
  pause: () => Promise<void>,
): Promise<ConditionReach> {
  const { plan, lengthM, spanRates } = fence;
  const lowest = (factor: number) => fence.lowest(condition, factor);
  const present = lowest(1);
  const whole = { id: condition.id, name: condition.name, presentVolts: present.volts };
  if (present.anyDead) {
    return {
      ...whole,
      ...{ status: 'cut off', reachM: null, factor: null, endedBy: null, holds: [], spans: null, warnings: [] },
      weakestPost: present.postId,
      weakestVolts: present.volts,
    };
  }
  const search = { least, most, guess: 1, tolerance: null, spanRates };
  const { longest, ranges } = await holdingRanges(marginOf(lowest, plan.target.volts), search, pause);
  const factor = factorOf(longest, most);
  const there = lowest(factor ?? least);
  return {
    ...whole,
    status: statusOf(longest),
    reachM: factor === null ? null : factor * lengthM,
    factor,
    endedBy: longest.kind === 'found' ? longest.by : null,
    holds: ranges.map(({ from, to }) => ({ fromM: from * lengthM, toM: to * lengthM })),
    weakestPost: there.postId,
    weakestVolts: there.volts,
    spans: factor === null ? null : fence.spansAt(factor).reduce((sum, spans) => sum + spans, 0),
    warnings: factor === null ? [] : warningsAt(fence.planAt(factor), condition),
  };
}

const warningsAt = (plan: ResolvedPlan, { id }: ResolvedCondition) =>
  solvePlan(plan, { conditions: [id] }).conditions[0]!.warnings;

function mostFactor(plan: ResolvedPlan, fence: FenceOfLength, mostM: number | undefined): number {
  const wanted = mostM === undefined ? Math.max(usualMostM[plan.units] / fence.lengthM, 4) : mostM / fence.lengthM;
  return Math.min(wanted, mostSpans / fence.spanRates.reduce((sum, rate) => sum + rate, 0));
}
