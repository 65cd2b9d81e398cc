import { formatNumber, formatVolts } from '../../quantity/format.js';
import type { FitResult, FittedGroup } from './result.js';

/** `2.1 times`, `0.6 times`. */
export const wordMultiplier = ({ multiplier }: Pick<FittedGroup, 'multiplier'>): string =>
  `${formatNumber(multiplier, 2)} times`;

/** The answer of `fit` in a sentence. */
export function fitSentence({ groups, fits, readings, condition, weakestVolts }: Omit<FitResult, 'sentence'>): string {
  if (readings.length === 0) return 'There are no readings, so the tables stay as they are.';
  const told = groups.filter((group) => group.told !== 'not');
  const moved = [...told].sort((a, b) => Math.abs(b.place) - Math.abs(a.place))[0];
  const weakest = `the weakest post has ${formatVolts(weakestVolts.after)} in ${condition.name} with the fitted tables (${formatVolts(weakestVolts.before)} before)`;
  if (!fits)
    return `No tables within their ranges explain the readings, so look for a fault: fitted as well as may be, ${weakest}.`;
  const counted = `${told.length} of ${groups.length} uncertain values`;
  if (moved === undefined) return `The readings agree with the tables and told little of any value; ${weakest}.`;
  const most = `most moved is ${moved.name}, now ${wordMultiplier(moved)} the table's`;
  return `The readings told something of ${counted}; ${most}; ${weakest}.`;
}
