import { formatVolts } from '@postvolt/core';
import type { MonthsResult } from '@postvolt/core/studies';
import { monthsInput } from '../data/study-figures.js';
import { months } from '../figures/months.js';
import type { ReportSection } from '../page/report.js';
import { numeric } from '../page/table.js';

/** The year, month by month. */
export const monthsSection = (year: MonthsResult): ReportSection => ({
  title: 'Through the year',
  lead: year.sentence,
  figures: [
    {
      caption: 'Volts at the weakest post, month by month',
      draw: (options) => months(monthsInput(year), options),
    },
  ],
  tables: [
    {
      caption: 'The year',
      columns: [{ head: 'Month' }, numeric('Least'), numeric('Best'), { head: 'Target' }],
      rows: year.months.map(({ label, volts, bestVolts, holds }) => [
        label,
        formatVolts(volts),
        formatVolts(bestVolts),
        holds ? 'holds' : 'falls short',
      ]),
      note: year.notes.join(' '),
    },
  ],
});
