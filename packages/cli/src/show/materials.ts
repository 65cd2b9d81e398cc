import { formatNumber } from '@postvolt/core';
import {
  formatAmount,
  formatMoney,
  formatMoneyRange,
  type MaterialLine,
  type MaterialsResult,
  wordBought,
  wordNeed,
} from '@postvolt/core/studies';
import type { Colours } from '../text/colours.js';
import { hang, plain, wrap } from '../text/lines.js';
import { table } from '../text/table.js';
import { showCautions } from './cautions.js';

interface Look {
  readonly width: number;
  readonly colours: Colours;
}

/** What a fence takes, for a person: the answer, line by line, then what it costs over the years. */
export function* showMaterials(result: MaterialsResult, look: Look): Generator<string> {
  const { colours, width } = look;
  const { cost, currency, lifeCycle } = result;
  yield `${wrap(result.sentence, width).map(colours.strong).join('\n')}\n\n`;
  yield `${plain(result.title)}\n\n`;
  yield `${lineTable(result, look)}\n\n`;
  const over = `Over ${formatNumber(lifeCycle.years, 3)} years`;
  yield `${hang('  ', `To buy: ${formatMoney(cost, currency)} (${formatMoneyRange(cost)}).`, width)}\n`;
  yield `${hang('  ', `${over}, replacements and their work in it: ${formatMoney(lifeCycle.cost, currency)} (${formatMoneyRange(lifeCycle.cost)}).`, width)}\n\n`;
  for (const note of result.notes) yield `${hang('  ', note, width)}\n`;
  yield '\n';
  yield* showCautions(result.cautions, look);
}

function lineTable({ lines, units }: MaterialsResult, { width, colours }: Look): string {
  let group = '';
  const rows = lines.map((line) => {
    const head = line.group === group ? '' : line.group;
    group = line.group;
    const item = line.note === '' ? line.item : `${line.item}, ${line.note}`;
    return {
      cells: [
        head,
        item,
        wordNeed(line, units),
        wordBought(line, units),
        line.price === null ? 'none' : formatAmount(line.cost.typical),
        lives(line),
      ],
    };
  });
  return table(
    [
      { head: '' },
      { head: 'Item', gives: true },
      { head: 'Takes', align: 'right' },
      { head: 'Buy', align: 'right' },
      { head: 'Cost', align: 'right' },
      { head: 'Years', align: 'right' },
    ],
    rows,
    { width, colours },
  );
}

const lives = ({ serviceYears: { typical } }: MaterialLine): string => formatNumber(typical, 2);
