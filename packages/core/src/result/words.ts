import { worstOf } from '../fence/hot-posts.js';
import type { ResolvedPlan } from '../plan/resolved.js';
import { formatVolts, formatVoltsBeside } from '../quantity/format.js';
import type { ConditionResult, Verdict } from './result.js';

/** The verdict of one condition in a sentence. */
export function verdictSentence(
  plan: ResolvedPlan,
  conditionName: string,
  verdict: Omit<Verdict, 'sentence'>,
  deadPosts: readonly string[],
): string {
  const { weakest, marginVolts, targetVolts, largestCause } = verdict;
  const head = `${verdict.holds ? 'Holds' : 'Falls short'} in ${conditionName}: `;
  if (deadPosts.length > 0) {
    const which =
      deadPosts.length === 1 ? `post ${deadPosts[0]} is` : `${deadPosts.length} posts from ${deadPosts[0]} on are`;
    return `${head}${which} cut off from the energizer by a fault.`;
  }
  const across = plan.target.of === 'to earth' ? '' : ' across the animal';
  const margin =
    marginVolts === 0
      ? `just the ${formatVolts(targetVolts)}`
      : `${formatVolts(Math.abs(marginVolts))} ${marginVolts > 0 ? 'above' : 'under'} the ${formatVolts(targetVolts)}`;
  const cause =
    largestCause === null ? '' : `; the largest leak is ${largestCause.cause} (${Math.round(largestCause.percent)} %)`;
  return `${head}the weakest post, ${weakest.postId} (${weakest.strand}), has ${formatVoltsBeside(weakest.compared, targetVolts)}${across}, ${margin} for ${plan.target.label}${cause}.`;
}

/** `dry summer`, `both conditions`, `all 4 conditions`. */
export const wordConditions = (conditions: readonly { readonly name: string }[]): string =>
  conditions.length === 1
    ? conditions[0]!.name
    : conditions.length === 2
      ? 'both conditions'
      : `all ${conditions.length} conditions`;

/** All conditions in a sentence. */
export function planSentence(plan: ResolvedPlan, conditions: readonly ConditionResult[]): string {
  const short = conditions.filter((c) => !c.verdict.holds);
  const worst = worstOf(conditions.map((condition) => ({ ...condition, ...condition.verdict })));
  const target = `${formatVolts(plan.target.volts)} for ${plan.target.label}`;
  const { compared, postId } = worst.weakest;
  const dead = worst.deadPosts[0];
  const at =
    dead === undefined || worst.marginVolts < 0
      ? `the least is ${formatVoltsBeside(compared, plan.target.volts)} at ${postId} in ${worst.name}`
      : `a fault cuts off ${dead} in ${worst.name}`;
  if (short.length === 0) {
    return `The fence holds ${target} in ${wordConditions(conditions)}; ${at}.`;
  }
  const which = short.length <= 3 ? short.map((c) => c.name).join(', ') : `${short.length} conditions`;
  const of = conditions.length === 1 ? '' : ` (${short.length} of ${conditions.length} conditions)`;
  return `The fence falls short of ${target} in ${which}${of}; ${at}.`;
}
