import { formatVolts, type PlanResult } from '@postvolt/core';

/** The weakest post of a plan in its worst condition. */
export interface WeakestOf {
  readonly postId: string;
  readonly condition: string;
  /** To earth or across the animal, as the target has it. */
  readonly volts: number;
  readonly holds: boolean;
}

/** What the weakest post had before a change and has after it, as data and in a sentence. */
export function changeSentence(
  resultBefore: PlanResult,
  resultAfter: PlanResult,
): { readonly sentence: string; readonly before: WeakestOf; readonly after: WeakestOf } {
  const [before, after] = [weakestOf(resultBefore), weakestOf(resultAfter)];
  const { target } = resultAfter;
  const goal = `${formatVolts(target.volts)} for ${target.label}`;
  const sentence =
    `The weakest post had ${words(before)} and has ${words(after)} now, ` +
    `which ${after.holds ? 'holds' : 'falls short of'} ${goal}.`;
  return { sentence, before, after };
}

const words = ({ volts, postId, condition }: WeakestOf): string => `${formatVolts(volts)} (${postId}, ${condition})`;

function weakestOf({ conditions }: PlanResult): WeakestOf {
  const worst = conditions.reduce((a, b) => (b.verdict.marginVolts < a.verdict.marginVolts ? b : a));
  const { weakest } = worst.verdict;
  return {
    postId: weakest.postId,
    condition: worst.name,
    volts: weakest.compared,
    holds: conditions.every(({ verdict }) => verdict.holds),
  };
}
