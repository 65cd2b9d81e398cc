import { formatNumber, formatPercent } from '@postvolt/core';
import type { FitResult, FittedGroup, FittedValue } from '@postvolt/core/studies';
import type { Colours } from '../text/colours.js';
import { hang, plain, wrap } from '../text/lines.js';
import { table } from '../text/table.js';
import { reading, readingUnit } from './meter-reading.js';

interface Look {
  /** Every group, in place of those that the readings told of. */
  readonly all: boolean;
  readonly width: number;
  readonly colours: Colours;
}

/** A fit for a person: the answer, the values before and after, what stayed unknown, and the readings. */
export function* showFit(result: FitResult, look: Look): Generator<string> {
  const { colours, width } = look;
  const { groups, entangled, condition, meterErrorPercent, misfit } = result;
  yield `${wrap(result.sentence, width).map(colours.strong).join('\n')}\n\n`;
  const count = result.readings.length;
  yield `${hang('', `${plain(result.title)}, ${plain(condition.name)}; ${count} numbers read, meter off by ${formatPercent(meterErrorPercent)} (standard deviation). Sum of squares ${formatNumber(misfit.before, 3)} before, ${formatNumber(misfit.after, 3)} after; about ${count} is what a meter’s error alone makes.`, width)}\n\n`;
  const told = groups.filter((group) => group.told !== 'not');
  const shown = look.all ? groups : told;
  if (shown.length > 0) yield `${groupTable(shown, look)}\n\n`;
  const untold = groups.filter((group) => group.told === 'not').map(({ name }) => plain(name));
  if (untold.length > 0) {
    const listed = untold.length > 8 && !look.all ? [...untold.slice(0, 8), `${untold.length - 8} more`] : untold;
    yield `${hang('The readings could not tell: ', `${listed.join('; ')}.`, width)}\n`;
  }
  for (const { names } of entangled.slice(0, look.all ? entangled.length : 3))
    yield `${hang('', `Known together only, not apart: ${plain(names[0])}, and ${plain(names[1])}.`, width)}\n`;
  if (count > 0) yield `\n${readingTable(result, look)}\n`;
}

function groupTable(groups: readonly FittedGroup[], { width, colours }: Look): string {
  const rows = groups.map((group) => {
    const value = group.values[0];
    return {
      cells: [
        group.name,
        value === undefined ? '' : threeFigures(value, 'before'),
        value === undefined ? '' : threeFigures(value, 'after'),
        `${formatNumber(group.multiplier, 2)}x`,
        group.atEnd ? 'at the end' : group.told,
      ],
    };
  });
  return table(
    [
      { head: 'Value', gives: true },
      { head: 'Before (range)' },
      { head: 'After (range)' },
      { head: 'Times', align: 'right' },
      { head: 'Told' },
    ],
    rows,
    { width, colours },
  );
}

/** `0.2 (0.08-0.6) µS/m`, all three in the prefix that suits the typical value before. */
function threeFigures({ unit, before, after }: FittedValue, which: 'before' | 'after'): string {
  const prefixes = [
    [1, ''],
    [1e-3, 'm'],
    [1e-6, 'µ'],
    [1e-9, 'n'],
  ] as const;
  const kilo = before.typical >= 1e3 && unit !== '1';
  const [scale, prefix] = kilo
    ? ([1e3, 'k'] as const)
    : unit === '1'
      ? prefixes[0]
      : (prefixes.find(([size]) => before.typical >= size * 0.9995) ?? prefixes[3]);
  const { low, typical, high } = which === 'before' ? before : after;
  const figure = (value: number) => formatNumber(value / scale, 2);
  return `${figure(typical)} (${figure(low)}-${figure(high)}) ${unit === '1' ? '' : prefix + unit}`.trim();
}

function readingTable({ readings }: FitResult, { width, colours }: Look): string {
  const rows = readings.map(({ post, kind, read, before, after, off }) => ({
    cells: [post, readingUnit(kind), reading(kind, read), reading(kind, before), reading(kind, after), formatOff(off)],
  }));
  return table(
    [
      { head: 'Post', gives: true },
      { head: '' },
      { head: 'Read', align: 'right' },
      { head: 'Tables', align: 'right' },
      { head: 'Fitted', align: 'right' },
      { head: 'Off by', align: 'right' },
    ],
    rows,
    { width, colours },
  );
}

const formatOff = (off: number): string => `${off < 0 ? '−' : '+'}${Math.abs(off).toFixed(1)} s.d.`;
