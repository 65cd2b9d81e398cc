import { formatPercent, formatSignedVolts, formatVolts } from '@postvolt/core';
import { type CompareResult, formatAmount, type InsulatorYears } from '@postvolt/core/studies';
import { comparisonInput, yearLinesInput } from '../data/compare-figures.js';
import { comparison } from '../figures/comparison.js';
import { yearLines } from '../figures/year-lines.js';
import type { ReportSection } from '../page/report.js';
import { numeric } from '../page/table.js';

const signedAmount = (amount: number): string =>
  Math.abs(amount) < 0.5 ? '0' : `${amount < 0 ? '−' : '+'}${formatAmount(Math.abs(amount))}`;

/** Variants side by side, from a comparison of one or more. */
export const compareSection = (compared: CompareResult): ReportSection => ({
  title: 'What if',
  lead: compared.sentence,
  figures: [
    {
      caption: 'Volts at the weakest post in each condition, variant by variant',
      draw: (options) => comparison(comparisonInput(compared), options),
    },
  ],
  tables: [
    {
      caption: 'Variants',
      columns: [
        { head: 'Variant' },
        numeric('Least'),
        numeric('Won'),
        { head: 'Target' },
        { head: 'Largest leak' },
        numeric('Cost'),
        numeric('A year'),
      ],
      rows: compared.variants.map((variant) => {
        const [leak] = variant.conditions.find(({ id }) => id === variant.worst)!.leaks;
        return [
          variant.name,
          formatVolts(variant.leastVolts),
          variant.isPresent ? '' : formatSignedVolts(variant.wonVolts),
          variant.holds ? 'holds' : 'falls short',
          leak === undefined ? '' : `${leak.cause} ${formatPercent(leak.percent)}`,
          variant.isPresent ? '' : signedAmount(variant.costDifference.typical),
          formatAmount(variant.costPerYear.typical),
        ];
      }),
      strong: [0],
      note: `Costs are of materials in ${compared.currency}, over the plan as it is; a year’s cost is of the whole fence, with replacements.`,
    },
  ],
});

/** Kinds of insulator year by year, from a comparison that followed them (`insulatorYears`). */
export function insulatorsSection(compared: CompareResult & { readonly years: InsulatorYears }): ReportSection {
  const { years, variants, currency } = compared;
  const condition = variants[0]!.conditions.find(({ id }) => id === years.condition)!.name;
  const best = years.series.reduce((a, b) => (b.leastVolts > a.leastVolts ? b : a));
  return {
    title: 'Insulators through the years',
    lead: `Of ${years.series.length} choices of insulator, ${best.name} keeps most through ${years.years} years in ${condition}: ${formatVolts(best.leastVolts)} at the least.`,
    figures: [
      {
        caption: `Volts at the weakest post at the end of each year, in ${condition}`,
        draw: (options) => yearLines(yearLinesInput(compared), options),
      },
    ],
    tables: [
      {
        caption: `Choices of insulator over ${years.years} years`,
        columns: [
          { head: 'Insulators' },
          numeric('New'),
          numeric('Least'),
          numeric('Mean'),
          numeric('Falls short in year'),
          numeric('Cost a year'),
        ],
        rows: years.series.map(({ name, points, leastVolts, meanVolts, fallsShortIn, costPerYear }) => [
          name,
          formatVolts(points[0]!.volts),
          formatVolts(leastVolts),
          formatVolts(meanVolts),
          fallsShortIn === null ? 'never' : String(fallsShortIn),
          formatAmount(costPerYear.typical),
        ]),
        note: `Cost in ${currency}, of insulators and their replacement alone. How they age is an estimate.`,
      },
    ],
  };
}
