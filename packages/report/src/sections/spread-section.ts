import { formatNumber, formatPercent, formatVolts, type PlanResult, type ResolvedPlan } from '@postvolt/core';
import type { SpreadResult } from '@postvolt/core/studies';
import { conditionOf } from '../data/condition-of.js';
import { spreadBand, spreadRows } from '../data/study-figures.js';
import { spreadBars } from '../figures/spread-bars.js';
import { voltsAlong } from '../figures/volts-along.js';
import type { ReportSection } from '../page/report.js';
import { numeric } from '../page/table.js';

/** How sure the answer is, from a spread over the conditions of `result`: their ranges, and the worst one's along the fence. */
export function spreadSection(plan: ResolvedPlan, result: PlanResult, spread: SpreadResult): ReportSection {
  const worstId = conditionOf(result, undefined).id;
  const worst = spread.conditions.find(({ id }) => id === worstId) ?? spread.conditions[0]!;
  return {
    title: 'How sure that is',
    lead: spread.sentence,
    figures: [
      {
        caption: 'The weakest post in each condition: eight draws of ten lie in the bar',
        draw: (options) => spreadBars({ target: spread.target, rows: spreadRows(spread) }, options),
      },
      {
        caption: `Volts along the fence in ${worst.name}, with the band that holds eight draws of ten`,
        draw: (options) => voltsAlong({ plan, result, conditions: [worst.id], band: spreadBand(worst) }, options),
      },
    ],
    tables: [
      {
        caption: `The weakest post over ${formatNumber(spread.draws, 6)} draws of the tables' ranges`,
        columns: [{ head: 'Condition' }, ...['P10', 'P50', 'P90', 'Target holds'].map(numeric)],
        rows: spread.conditions.map(({ name, weakest: { p10, p50, p90 }, chance }) => [
          name,
          formatVolts(p10),
          formatVolts(p50),
          formatVolts(p90),
          formatPercent(100 * chance.share),
        ]),
      },
    ],
  };
}
