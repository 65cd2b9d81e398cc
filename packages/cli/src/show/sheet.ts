import { formatLength, formatPercent } from '@postvolt/core';
import type { ConditionSheet, ExpectedReading, ReadingsResult, SheetLine } from '@postvolt/core/studies';
import type { Colours } from '../text/colours.js';
import { hang, plain, wrap } from '../text/lines.js';
import { table } from '../text/table.js';

interface Look {
  readonly width: number;
  readonly colours: Colours;
}

/** Sheets of expected readings with blanks to fill in, one a condition, run by run. */
export function* showSheets(result: ReadingsResult, look: Look): Generator<string> {
  const { colours, width } = look;
  yield `${wrap(result.sentence, width).map(colours.strong).join('\n')}\n`;
  for (const sheet of result.conditions) yield* showSheet(sheet, result, look);
  const error = formatPercent(result.meterErrorPercent);
  yield `\n${hang('', `Nine of ten readings of ${result.faults === 0 ? 'a sound fence' : 'the fence with its faults'} lie in the range, by the ranges of the tables and a meter that is off by ${error} (standard deviation). Clamp the wire that leads to the post named, all hot strands added up; > says that its current should flow there, < that it should come from there. Amps hold the charging current of the line, some 0.4 to 2 A a mile.`, width)}\n`;
}

function* showSheet(sheet: ConditionSheet, result: ReadingsResult, { width, colours }: Look): Generator<string> {
  yield `\n${colours.strong(`${plain(result.title)}: ${plain(sheet.name)}`)}   date ________  time ______\n`;
  const rows = sheet.lines.map((line) => ({
    cells: [
      line.post,
      place(line, result.units),
      kilovolts(line.volts.typical),
      range(line.volts, kilovolts),
      '____',
      line.amps === null ? '' : `${line.flows === 'towards' ? '>' : '<'} ${line.wireTo.slice(line.run.length + 1)}`,
      line.amps === null ? '' : amps(line.amps.typical),
      line.amps === null ? '' : range(line.amps, amps),
      line.amps === null ? '' : '____',
    ],
  }));
  yield `${table(
    [
      { head: 'Post', gives: true },
      { head: 'What', gives: true },
      { head: 'kV', align: 'right' },
      { head: 'range' },
      { head: 'read' },
      { head: 'Wire' },
      { head: 'A', align: 'right' },
      { head: 'range' },
      { head: 'read' },
    ],
    rows,
    { width, colours },
  )}\n`;
}

function place({ reason, name, positionM }: SheetLine, units: ReadingsResult['units']): string {
  if (reason === 'between') return formatLength(positionM, units, 2);
  if (reason === 'corner') return 'corner';
  if (reason === 'gate') return name;
  return reason === 'junction' ? name : `${reason} ${name}`;
}

const kilovolts = (volts: number): string => (volts / 1000).toFixed(1);
const amps = (value: number): string => (value < 10 ? value.toFixed(1) : value.toFixed(0));
const range = ({ low, high }: ExpectedReading, format: (value: number) => string): string =>
  `${format(low)}-${format(high)}`;
