import { formatVolts } from '../../quantity/format.js';
import type { Chance } from './chance.js';
import type { ConditionSpread, SpreadResult } from './result.js';

/** `87 of 100 draws (± 2)`, to the whole hundredth: the tables' ranges support no more. */
export function wordChance({ share, low, high }: Chance): string {
  const hundredths = Math.round(100 * share);
  if (share === 1) return 'all draws';
  if (share === 0) return 'no draw';
  if (hundredths === 100) return 'over 99 of 100 draws';
  if (hundredths === 0) return 'under 1 of 100 draws';
  return `${hundredths} of 100 draws (±${Math.max(1, Math.round(50 * (high - low)))})`;
}

type Condition = Omit<ConditionSpread, 'sentence'>;

/** One condition in a sentence. */
export function conditionSentence({ name, chance, weakest, influences }: Condition, noise: number): string {
  const volts = `the weakest post has ${formatVolts(weakest.p10)} to ${formatVolts(weakest.p90)} (8 draws of 10), ${formatVolts(weakest.p50)} in the middle`;
  const first = influences[0];
  const most = first === undefined || first.varianceShare < noise ? '' : `; what matters most is ${first.name}`;
  return `The target holds in ${wordChance(chance)} in ${name}: ${volts}${most}.`;
}

/** All conditions in a sentence, by the least sure. */
export function spreadSentence({
  target,
  conditions,
  chance,
  shareNoise,
}: Pick<SpreadResult, 'target' | 'conditions' | 'chance' | 'shareNoise'>): string {
  // Where all are as sure, the one with the fewest volts stands for them.
  const isLess = (a: ConditionSpread, b: ConditionSpread) =>
    a.chance.share === b.chance.share ? a.weakest.p10 < b.weakest.p10 : a.chance.share < b.chance.share;
  const least = conditions.reduce((a, b) => (isLess(b, a) ? b : a));
  const count = conditions.length;
  const isAlike = conditions.every(({ chance: { share } }) => share === least.chance.share);
  const what = `The fence holds ${formatVolts(target.volts)} for ${target.label} in ${wordChance(least.chance)}`;
  const where =
    count === 1
      ? ` in ${least.name}`
      : isAlike
        ? ` in each of ${count} conditions`
        : ` in ${least.name}, the least sure of ${count} conditions`;
  const all = count === 1 || chance.share === least.chance.share ? '' : ` (in all at once: ${wordChance(chance)})`;
  const whose = isAlike && count > 1 ? `the weakest post in ${least.name}` : 'its weakest post';
  const first = least.influences[0];
  const most = first === undefined || first.varianceShare < shareNoise ? '' : `; what matters most is ${first.name}`;
  const { p10, p50, p90, typical } = least.weakest;
  const volts = `${formatVolts(p10)} to ${formatVolts(p90)} in 8 draws of 10`;
  // With all values typical the volts are not in the middle: what leaks more than usual takes more than what leaks less gives.
  const middle = `${formatVolts(p50)} in the middle${formatVolts(p50) === formatVolts(typical) ? '' : `, ${formatVolts(typical)} were every value typical`}`;
  return `${what}${where}${all}: ${whose} has ${volts} (${middle})${most}.`;
}
