import { formatVolts } from '@postvolt/core';
import type { MonthsResult } from '@postvolt/core/studies';
import type { Colours } from '../text/colours.js';
import { hang, plain, wrap } from '../text/lines.js';
import { table } from '../text/table.js';

interface Look {
  readonly width: number;
  readonly colours: Colours;
}

/** Costs that the table shows. */
const fewCosts = 6;

/** The year for a person: the answer, month by month, then what costs the worst month its volts. */
export function* showMonths(result: MonthsResult, look: Look): Generator<string> {
  const { colours, width } = look;
  yield `${wrap(result.sentence, width).map(colours.strong).join('\n')}\n\n`;
  const { from, climate } = result.calendar;
  const year =
    from === 'climate'
      ? `the months of a ${climate} climate, as estimated in the tables`
      : `the plan’s own months${climate === null ? '' : `, on a ${climate} climate`}`;
  yield `${hang('', `${plain(result.title)}; target ${formatVolts(result.target.volts)} ${result.target.of} (${plain(result.target.label)}); ${year}.`, width)}\n\n`;
  yield `${monthTable(result, look)}\n\n`;
  yield `${colours.strong(`What costs ${result.worst} its volts`)}\n`;
  yield `${costTable(result, look)}\n`;
  for (const note of result.notes) yield `\n${hang('', note, width)}\n`;
}

function monthTable({ months, worst, holds: always }: MonthsResult, { width, colours }: Look): string {
  const rows = months.map(({ month, volts, bestVolts, holds, weathers }) => {
    const { condition, weakest } = weathers[0]!;
    return {
      cells: [
        month === worst ? '>' : '',
        month,
        formatVolts(volts),
        formatVolts(bestVolts) === formatVolts(volts) ? '' : `to ${formatVolts(bestVolts)}`,
        condition.name,
        condition.growth.vegetation,
        weakest.postId,
        formatVolts(weakest.animalVolts),
        ...(always ? [] : [holds ? '' : 'short']),
      ],
      ...(month === worst ? { style: colours.strong } : {}),
    };
  });
  return table(
    [
      { head: '' },
      { head: 'Month' },
      { head: 'Volts', align: 'right' },
      { head: '' },
      { head: 'Worst in', gives: true },
      { head: 'Growth', gives: true },
      { head: 'Weakest', gives: true },
      { head: 'Animal', align: 'right' },
      ...(always ? [] : [{ head: '' }]),
    ],
    rows,
    { width, colours },
  );
}

function costTable({ costs, worst }: MonthsResult, { width, colours }: Look): string {
  const rows = costs
    .filter(({ volts }) => volts >= 1)
    .slice(0, fewCosts)
    .map(({ cause, volts, atBestVolts }) => ({ cells: [formatVolts(volts), formatVolts(atBestVolts), cause] }));
  return table(
    [
      { head: worst, align: 'right' },
      { head: 'At best', align: 'right' },
      { head: 'Volts won at the weakest post, were this alone gone', gives: true },
    ],
    rows,
    { width, indent: '  ', colours },
  );
}
