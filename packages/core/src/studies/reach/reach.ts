import { standardTables } from '@postvolt/tables';
import { Pacer } from '../../engine/pacer.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import { pickConditions, solvePlan } from '../../result/solve-plan.js';
import { checkOptions } from './check-options.js';
import { FenceOfLength, type Lowest } from './fence-of-length.js';
import { holdingRanges } from './holding-ranges.js';
import { findLongest, type Longest, type Margin } from './longest.js';
import type { ReachOptions } from './options.js';
import type { ConditionReach, ReachResult, ReachStatus, ReachVariation } from './result.js';
import { variationsOf } from './variations.js';
import { reachSentence } from './words.js';

const usualMostM = { imperial: 80_467.2, metric: 80_000 } as const;
/** Shortest that is looked at: a fence of about a step. */
const tinyM = 1;
/** Spans beyond which a length is not looked at, so that one network stays a matter of seconds. */
const mostSpans = 250_000;
/** Relative width to which the reach of a variation is found. */
const variationWidth = 1e-3;
/** Stands for the logarithm of no volts at all. */
const noVolts = -50;

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
  const base = overall(found);
  const table: ReachVariation[] = [];
  let [builds, passes] = [0, 0];
  for (const { kind, change, make } of variations) {
    if (make === null) {
      const { status, reachM, factor, decides } = base;
      table.push({ kind, change, isPresent: true, status, reachM, factor, decides });
      continue;
    }
    const changed = make();
    const other = new FenceOfLength(changed.plan, runs, changed.place);
    const guess = base.factor ?? 1;
    const ordered = [...conditions].sort((a, b) => Number(b.id === base.decides) - Number(a.id === base.decides));
    const dark = lessFed(fence, other, conditions);
    const answer: Answer =
      dark === null
        ? await variationReach(other, ordered, { least, most, guess }, pause)
        : { status: 'cut off', reachM: null, factor: null, decides: dark.id };
    table.push({ kind, change, isPresent: false, ...answer });
    builds += other.builds;
    passes += other.passes;
    done++;
  }
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
    ...base,
    conditions: found,
    variations: table,
    work: { builds: builds + fence.builds, passes: passes + fence.passes },
  };
  return { ...result, sentence: reachSentence(result) };
}

/** Follows the logarithm, which falls nearly straight along a leaky line. */
const marginOf =
  (lowest: (factor: number) => Lowest, target: number): Margin =>
  (factor) => {
    const { volts } = lowest(factor);
    return volts > 0 ? Math.max(noVolts, Math.log(volts / target)) : noVolts;
  };

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
      weakestPost: present.post.id,
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
    weakestPost: there.post.id,
    weakestVolts: there.volts,
    spans: factor === null ? null : fence.spansAt(factor).reduce((sum, spans) => sum + spans, 0),
    warnings: factor === null ? [] : warningsAt(fence.planAt(factor), condition),
  };
}

const statusOf = ({ kind }: Longest): ReachStatus => (kind === 'always' ? 'beyond' : kind);
const factorOf = (longest: Longest, most: number): number | null =>
  longest.kind === 'never' ? null : longest.kind === 'always' ? most : longest.factor;

const warningsAt = (plan: ResolvedPlan, { id }: ResolvedCondition) =>
  solvePlan(plan, { conditions: [id] }).conditions[0]!.warnings;

type Answer = Pick<ReachVariation, 'status' | 'reachM' | 'factor' | 'decides'>;

/** Of several conditions the one with the shortest longest fence. */
function overall(found: readonly ConditionReach[]): Answer {
  const least = found.reduce((a, b) => ((b.reachM ?? 0) < (a.reachM ?? 0) ? b : a));
  const { status, reachM, factor, id } = least;
  return { status, reachM, factor, decides: status === 'beyond' ? null : id };
}

/** The longest fence that holds in all conditions: the likely one decides first, the others are only asked whether they hold there. */
async function variationReach(
  fence: FenceOfLength,
  conditions: readonly ResolvedCondition[],
  { least, most, guess }: { least: number; most: number; guess: number },
  pause: () => Promise<void>,
): Promise<Answer> {
  let answer: Answer = { status: 'beyond', reachM: most * fence.lengthM, factor: most, decides: null };
  for (const condition of conditions) {
    const lowest = (factor: number) => fence.lowest(condition, factor);
    const margin = marginOf(lowest, fence.plan.target.volts);
    const to = answer.factor!;
    await pause();
    if (lowest(to === most ? guess : to).anyDead)
      return { status: 'cut off', reachM: null, factor: null, decides: condition.id };
    if (to < most && margin(to) >= 0) continue;
    const search = {
      ...{ least, most: to, guess: Math.min(guess, to) },
      ...{ tolerance: variationWidth, spanRates: fence.spanRates },
    };
    const longest = await findLongest(margin, search, pause);
    if (longest.kind === 'always') continue;
    const factor = factorOf(longest, to);
    const reachM = factor === null ? null : factor * fence.lengthM;
    answer = { status: statusOf(longest), reachM, factor, decides: condition.id };
    if (factor === null) return answer;
  }
  return answer;
}

/** Condition in which an energizer that was moved feeds less than it did, being behind an open switch; null where none. */
function lessFed(
  present: FenceOfLength,
  moved: FenceOfLength,
  conditions: readonly ResolvedCondition[],
): ResolvedCondition | null {
  if (!moved.isMoved) return null;
  const fed = (fence: FenceOfLength, condition: ResolvedCondition) => fence.solvedAt(condition, 1).hot.posts.length;
  const plan = present.plan;
  const mayOpen = conditions.filter(({ id }) => plan.switches.some(({ openIn }) => openIn.includes(id)));
  // A run that is split may be a post shorter or longer.
  return mayOpen.find((condition) => fed(moved, condition) < 0.95 * fed(present, condition)) ?? null;
}

function mostFactor(plan: ResolvedPlan, fence: FenceOfLength, mostM: number | undefined): number {
  const wanted = mostM === undefined ? Math.max(usualMostM[plan.units] / fence.lengthM, 4) : mostM / fence.lengthM;
  return Math.min(wanted, mostSpans / fence.spanRates.reduce((sum, rate) => sum + rate, 0));
}
