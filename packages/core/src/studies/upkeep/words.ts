import type { ResolvedPlan } from '../../plan/resolved.js';
import { formatNumber, formatVolts, formatVoltsBeside } from '../../quantity/format.js';
import type { UpkeepResult } from './result.js';

/** The answer of `upkeep` in one sentence. */
export function upkeepSentence(result: Omit<UpkeepResult, 'sentence'>, plan: ResolvedPlan): string {
  const { steps, actions, leastVolts, condition, target, postId, afterVolts, holdsAfter, by } = result;
  const name = plan.conditions.find(({ id }) => id === condition)!.name;
  const goal = `${formatVolts(target.volts)} for ${target.label}`;
  const now =
    leastVolts === 0
      ? `post ${postId} is cut off in ${name}`
      : `the weakest post, ${postId}, has ${formatVoltsBeside(leastVolts, target.volts)} in ${name}`;
  const [first] = steps;
  if (first === undefined)
    return `Nothing in this plan wins volts worth the work: ${now}, which ${result.holds ? 'holds' : 'falls short of'} ${goal}.`;
  const text = actions.find(({ id }) => id === first.action)!.text;
  const last = steps.at(-1)!;
  const many = steps.length === 1 ? 'that' : `all ${steps.length} steps`;
  return `First ${text}: it wins most for ${by === 'hour' ? 'an hour of work' : 'the money'}; ${now}, and after ${many} (about ${hoursWords(last.hoursSoFar)}) the weakest has ${formatVoltsBeside(afterVolts, target.volts)}, which ${holdsAfter ? 'holds' : 'still falls short of'} ${goal}.`;
}

function hoursWords(hours: number): string {
  const number = formatNumber(hours, 2);
  return `${number} hour${number === '1' ? '' : 's'}`;
}
