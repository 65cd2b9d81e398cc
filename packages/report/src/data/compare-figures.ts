import { type CompareResult, formatMoney } from '@postvolt/core/studies';
import type { ComparisonInput } from '../figures/comparison.js';
import type { YearLinesInput } from '../figures/year-lines.js';

/** Variants as their figure takes them, each with what it costs over the plan as it is. */
export const comparisonInput = ({ target, variants, currency }: CompareResult): ComparisonInput => ({
  target,
  variants: variants.map(({ name, conditions, costDifference, isPresent }) => ({
    label: name,
    ...(isPresent || Math.abs(costDifference.typical) < 0.5
      ? {}
      : { note: `${costDifference.typical > 0 ? '+' : ''}${formatMoney(costDifference, currency)}` }),
    readings: conditions.map(({ name: condition, weakest }) => ({ condition, volts: weakest.compared })),
  })),
});

/** Insulators year by year as their figure takes them, with the replacements of the commonest kind of each choice. */
export const yearLinesInput = ({ target, years }: CompareResult): YearLinesInput => ({
  title: 'Insulators year by year',
  target,
  series: (years?.series ?? []).map(({ name, points, kinds }) => ({
    label: name,
    points: points.map(({ year, volts }) => ({ year, volts })),
    replacedIn: (kinds[0]?.replacedIn ?? []).filter((year) => Number.isInteger(year)),
  })),
});
