import type { ResolvedCondition } from '../../plan/resolved.js';
import { FenceOfLength } from './fence-of-length.js';
import { type Answer, factorOf, marginOf, overall, statusOf } from './judge.js';
import { findLongest } from './longest.js';
import type { ConditionReach, ReachVariation } from './result.js';
import type { Variation } from './variations.js';

/** Relative width to which the reach of a variation is found. */
const variationWidth = 1e-3;

interface Judged {
  readonly table: readonly ReachVariation[];
  /** Ids of the conditions that were judged in. */
  readonly conditions: readonly string[];
  readonly builds: number;
  readonly passes: number;
}

/** The longest fence after each change; `done` is called after each that took work. */
export async function judgeVariations(
  fence: FenceOfLength,
  variations: readonly Variation[],
  conditions: readonly ResolvedCondition[],
  found: readonly ConditionReach[],
  { least, most }: { least: number; most: number },
  pause: () => Promise<void>,
  done: () => void,
): Promise<Judged> {
  // What no length satisfies says nothing about a change.
  const some = found.filter(({ status }) => status === 'found' || status === 'beyond');
  const compared = some.length > 0 ? some : found;
  const present = overall(compared);
  const judged = conditions.filter(({ id }) => compared.some((condition) => condition.id === id));
  const isFirst = ({ id }: ResolvedCondition) => Number(id === present.decides);
  const ordered = [...judged].sort((a, b) => isFirst(b) - isFirst(a));
  const bounds = { least, most, guess: present.factor ?? 1 };
  const table: ReachVariation[] = [];
  let [builds, passes] = [0, 0];
  for (const { kind, change, make } of variations) {
    if (make === null) {
      table.push({ kind, change, isPresent: true, ...present });
      continue;
    }
    const { plan, place } = make();
    const other = new FenceOfLength(plan, fence.runs, place);
    const dark = lessFed(fence, other, judged);
    const answer: Answer =
      dark === null
        ? await variationReach(other, ordered, bounds, pause)
        : { status: 'cut off', reachM: null, factor: null, decides: dark.id };
    table.push({ kind, change, isPresent: false, ...answer });
    builds += other.builds;
    passes += other.passes;
    done();
  }
  return { table, conditions: judged.map(({ id }) => id), builds, passes };
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
  const fed = (fence: FenceOfLength, condition: ResolvedCondition) => fence.at(condition, 1).hot.count;
  const plan = present.plan;
  const mayOpen = conditions.filter(({ id }) => plan.switches.some(({ openIn }) => openIn.includes(id)));
  // A run that is split may be a post shorter or longer.
  return mayOpen.find((condition) => fed(moved, condition) < 0.95 * fed(present, condition)) ?? null;
}
