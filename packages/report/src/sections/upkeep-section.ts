import { formatLength, formatNumber, formatSignedVolts, formatVolts } from '@postvolt/core';
import { formatAmount, type UpkeepResult } from '@postvolt/core/studies';
import type { ReportSection } from '../page/report.js';
import { numeric } from '../page/table.js';

/** What to mend first: the steps in the order of what wins most, and as a walk along the fence. */
export function upkeepSection(upkeep: UpkeepResult): ReportSection {
  const actionOf = new Map(upkeep.actions.map((action) => [action.id, action]));
  const steps = upkeep.steps.map((step) => ({ ...step, ...actionOf.get(step.action)!, wonVolts: step.wonVolts }));
  const walk = upkeep.walk.map((id) => actionOf.get(id)!);
  const tables = [
    {
      caption: `In this order, by volts ${upkeep.by === 'hour' ? 'an hour of work' : 'for the money'}`,
      columns: [{ head: 'Do' }, numeric('Wins'), numeric('Then'), numeric('Hours so far'), numeric('Cost so far')],
      rows: steps.map(({ text, wonVolts, leastVolts, hoursSoFar, moneySoFar }) => [
        text,
        formatSignedVolts(wonVolts),
        formatVolts(leastVolts),
        wordHours(hoursSoFar),
        formatAmount(moneySoFar),
      ]),
    },
    {
      caption: 'As a walk from the energizer',
      columns: [{ head: 'Do' }, numeric('Along the fence'), numeric('Hours')],
      rows: walk.map(({ text, run, distanceM, hours }) => [
        text,
        run === null ? 'at the energizer' : distanceM === null ? run : formatLength(distanceM, upkeep.units),
        wordHours(hours.typical),
      ]),
      note: `Cost in ${upkeep.currency}. Hours and prices are the plan’s own where it has any, else invented rates.`,
    },
  ];
  return { title: 'What to mend first', lead: upkeep.sentence, tables: steps.length === 0 ? [] : tables };
}

/** Hours to two digits, tenths at the finest. */
const wordHours = (hours: number): string => (hours < 0.05 ? 'under 0.1' : formatNumber(Number(hours.toFixed(1)), 2));
