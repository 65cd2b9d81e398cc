import type { ConditionSpread, MonthsResult, SpreadResult } from '@postvolt/core/studies';
import type { MonthsInput } from '../figures/months.js';
import type { SpreadRow } from '../figures/spread-bars.js';
import type { VoltsBand } from '../figures/volts-along.js';

/** A year as its figure takes it: the worst weather of each month, with the range up to the best. */
export const monthsInput = ({ target, months }: MonthsResult): MonthsInput => ({
  target,
  months: months.map(({ label, volts, bestVolts, weathers }) => ({
    label,
    volts,
    ...(weathers.length > 1 ? { lowVolts: volts, highVolts: bestVolts } : {}),
    condition: weathers[0]!.condition.name,
  })),
});

/** The weakest post in each condition, with its range and chance. */
export const spreadRows = ({ conditions }: SpreadResult): SpreadRow[] =>
  conditions.map(({ name, weakest: { p10, p50, p90 }, chance }) => ({
    label: name,
    p10,
    p50,
    p90,
    chancePercent: Math.round(100 * chance.share),
  }));

/** P10 to P90 of what the target compares at every post, as a band round the condition's line along the fence. */
export const spreadBand = ({ id, posts }: ConditionSpread): VoltsBand => ({
  condition: id,
  label: 'P10 to P90',
  posts: new Map(
    posts.map((post) => {
      const { p10, p90 } = post.animalVolts ?? post.voltsToEarth;
      return [post.id, { low: p10, high: p90 }];
    }),
  ),
});
