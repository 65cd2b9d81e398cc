import { formatLength, formatNumber, formatSignedVolts, formatVolts } from '@postvolt/core';
import { formatAmount, type UpkeepAction, type UpkeepResult } from '@postvolt/core/studies';
import type { Colours } from '../text/colours.js';
import { hang, plain, wrap } from '../text/lines.js';
import { table } from '../text/table.js';

interface Look {
  readonly width: number;
  readonly colours: Colours;
}

/** Actions that the list of all shows. */
const fewActions = 20;

/** What to mend first, for a person: the answer, the steps, the walk, then what each thing wins alone. */
export function* showUpkeep(result: UpkeepResult, look: Look): Generator<string> {
  const { colours, width } = look;
  yield `${wrap(result.sentence, width).map(colours.strong).join('\n')}\n\n`;
  yield `${plain(result.title)}; target ${formatVolts(result.target.volts)} ${result.target.of} (${plain(result.target.label)}).\n`;
  const byId = new Map(result.actions.map((action) => [action.id, action]));
  const find = (id: string) => byId.get(id)!;
  if (result.steps.length > 0) {
    yield `\n${colours.strong(`In this order, by volts ${result.by === 'hour' ? 'an hour' : 'for the money'}`)}\n${stepTable(result, find, look)}\n`;
    yield `\n${colours.strong('As a walk from the energizer')}\n`;
    for (const id of result.walk) yield `${hang('  ', `${placeOf(find(id), result)}: ${find(id).text}`, width)}\n`;
  }
  if (result.actions.length > 0) {
    yield `\n${colours.strong('What each wins alone')}\n${actionTable(result, look)}\n`;
    const more = result.actions.length - fewActions;
    if (more > 0) yield `  ... and ${more} more.\n`;
  }
}

const hoursOf = (hours: number): string => formatNumber(hours, 2);

function stepTable({ steps }: UpkeepResult, find: (id: string) => UpkeepAction, { width, colours }: Look): string {
  const rows = steps.map(({ action, wonVolts, leastVolts, hoursSoFar, moneySoFar }, n) => ({
    cells: [
      String(n + 1),
      find(action).text,
      formatSignedVolts(wonVolts),
      formatVolts(leastVolts),
      hoursOf(hoursSoFar),
      formatAmount(moneySoFar),
    ],
  }));
  return table(
    [
      { head: '', align: 'right' },
      { head: 'Do', gives: true },
      { head: 'Wins', align: 'right' },
      { head: 'Then', align: 'right' },
      { head: 'Hours so far', align: 'right' },
      { head: 'Money', align: 'right' },
    ],
    rows,
    { width, colours },
  );
}

function actionTable({ actions }: UpkeepResult, { width, colours }: Look): string {
  const rows = actions.slice(0, fewActions).map(({ text, wonVolts, hours, money, voltsPerHour, voltsPerMoney }) => ({
    cells: [
      text,
      formatSignedVolts(wonVolts),
      hoursOf(hours.typical),
      formatAmount(money.typical),
      formatNumber(voltsPerHour, 2),
      formatNumber(voltsPerMoney, 2),
    ],
  }));
  return table(
    [
      { head: 'Do', gives: true },
      { head: 'Wins', align: 'right' },
      { head: 'Hours', align: 'right' },
      { head: 'Money', align: 'right' },
      { head: 'V/hour', align: 'right' },
      { head: 'V/money', align: 'right' },
    ],
    rows,
    { width, colours },
  );
}

function placeOf({ run, distanceM }: UpkeepAction, { units }: UpkeepResult): string {
  if (run === null) return 'at the energizer';
  return distanceM === null ? `on ${run}` : formatLength(distanceM, units);
}
