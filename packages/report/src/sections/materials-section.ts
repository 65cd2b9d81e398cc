import { formatNumber } from '@postvolt/core';
import {
  formatAmount,
  formatMoney,
  formatMoneyRange,
  type MaterialsResult,
  wordBought,
  wordNeed,
} from '@postvolt/core/studies';
import type { ReportSection } from '../page/report.js';
import { numeric } from '../page/table.js';

/** What the fence takes, to buy from, with what it costs over the years. */
export function materialsSection(materials: MaterialsResult): ReportSection {
  const { lines, units, cost, currency, lifeCycle, notes } = materials;
  const years = `Over ${formatNumber(lifeCycle.years, 3)} years, replacements and their work in it: ${formatMoney(lifeCycle.cost, currency)} (${formatMoneyRange(lifeCycle.cost)}).`;
  return {
    title: 'What to buy',
    lead: materials.sentence,
    tables: [
      {
        caption: `To buy: ${formatMoney(cost, currency)} (${formatMoneyRange(cost)})`,
        columns: [{ head: 'Item' }, { head: 'For' }, ...['Takes', 'Buy', 'Cost', 'Years'].map(numeric)],
        rows: lines.map((line) => [
          line.note === '' ? line.item : `${line.item}, ${line.note}`,
          line.group,
          wordNeed(line, units),
          wordBought(line, units),
          line.price === null ? 'none' : formatAmount(line.cost.typical),
          formatNumber(line.serviceYears.typical, 2),
        ]),
        note: [years, ...notes].join(' '),
      },
    ],
  };
}
