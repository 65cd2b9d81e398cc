import type { Lowest } from '../../fence/hot-posts.js';
import type { Longest, Margin } from './longest.js';
import type { ConditionReach, ReachStatus, ReachVariation } from './result.js';

/** Stands for the logarithm of no volts at all. */
const noVolts = -50;

/** Follows the logarithm, which falls nearly straight along a leaky line. */
export const marginOf =
  (lowest: (factor: number) => Lowest, target: number): Margin =>
  (factor) => {
    const { volts } = lowest(factor);
    return volts > 0 ? Math.max(noVolts, Math.log(volts / target)) : noVolts;
  };

export const statusOf = ({ kind }: Longest): ReachStatus => (kind === 'always' ? 'beyond' : kind);
export const factorOf = (longest: Longest, most: number): number | null =>
  longest.kind === 'never' ? null : longest.kind === 'always' ? most : longest.factor;

/** Where the longest fence ends, over several conditions. */
export type Answer = Pick<ReachVariation, 'status' | 'reachM' | 'factor' | 'decides'>;

/** Of several conditions the one with the shortest longest fence. */
export function overall(found: readonly ConditionReach[]): Answer {
  const least = found.reduce((a, b) => ((b.reachM ?? 0) < (a.reachM ?? 0) ? b : a));
  const { status, reachM, factor, id } = least;
  return { status, reachM, factor, decides: status === 'beyond' ? null : id };
}
