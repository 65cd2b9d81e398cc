import { formatNumber, formatVolts, type PlanResult } from '@postvolt/core';
import type { CauseLoss } from '@postvolt/core/studies';
import { conditionOf } from '../data/condition-of.js';
import { gradientBars } from '../figures/gradient-bars.js';
import type { ReportSection } from '../page/report.js';
import { numeric } from '../page/table.js';

/**
 * What costs the weakest post its volts, from `lossesByCause` at the post that `result` calls the weakest.
 *
 * `conditionId` is the condition that the costs were worked out in; without it the one with the least margin.
 */
export function costsSection(
  result: PlanResult,
  lossesByCause: readonly CauseLoss[],
  conditionId?: string,
): ReportSection {
  const condition = conditionOf(result, conditionId);
  const { postId } = condition.verdict.weakest;
  const costs = lossesByCause.filter(({ volts }) => volts >= 1);
  const [first] = costs;
  return {
    title: 'What costs the weakest post its volts',
    lead:
      first === undefined
        ? `Nothing costs ${postId} a volt in ${condition.name}.`
        : `In ${condition.name}, ${postId} would have ${formatVolts(first.volts)} more if it were not for one cause: ${first.cause}.`,
    figures: [
      {
        caption: `Volts that ${postId} would gain in ${condition.name}, were each cause alone gone`,
        draw: (options) =>
          gradientBars(
            {
              postId,
              costs: costs.map(({ cause, volts, places }) => ({ label: cause, note: wordPlaces(places), volts })),
            },
            options,
          ),
      },
    ],
    tables: [
      {
        caption: `What each cause costs ${postId} in ${condition.name}`,
        columns: [{ head: 'Cause' }, numeric('Volts'), numeric('Places')],
        rows: costs.map(({ cause, volts, places }) => [cause, formatVolts(volts), formatNumber(places, 6)]),
        note: 'The costs do not add up: two leaks shadow each other.',
      },
    ],
  };
}

const wordPlaces = (places: number): string => (places === 1 ? '1 place' : `${places} places`);
