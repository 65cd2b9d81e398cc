import { formatVolts, type PlanResult } from '@postvolt/core';
import { type FigureOptions, figure, figureWidth, isNarrow, label, textWidth } from '../look/figure.js';
import { wrapText } from '../look/text-width.js';
import { paint } from '../look/theme.js';
import { el, type Markup } from '../markup/element.js';
import { kilovolts, niceScale, type Plot, targetLine, voltsAxis } from './scales.js';
import { targetWords, voltsName } from './words.js';

/** Volts at the weakest post in one month (or any other part of a year). */
export interface MonthVolts {
  readonly label: string;
  readonly volts: number;
  readonly lowVolts?: number;
  readonly highVolts?: number;
  /** Condition that the month stands in; neighbours of one condition share a bracket. */
  readonly condition?: string;
}

/** What a year of volts is drawn from. */
export interface MonthsInput {
  readonly title?: string;
  readonly target: PlanResult['target'];
  readonly months: readonly MonthVolts[];
}

/** Through the year: the weakest post's volts month by month, the worst month ringed, conditions bracketed below. */
export function months(input: MonthsInput, options: FigureOptions = {}): string {
  const { target } = input;
  const width = figureWidth(options);
  const plot: Plot = { left: 40, right: width - 12, top: 48, bottom: isNarrow(options) ? 230 : 280 };
  const values = input.months.flatMap(({ volts, lowVolts = volts, highVolts = volts }) => [volts, lowVolts, highVolts]);
  const y = niceScale(Math.min(0, ...values), Math.max(target.volts, ...values), [plot.bottom, plot.top], 5);
  const slot = (plot.right - plot.left) / Math.max(1, input.months.length);
  const x = (i: number) => plot.left + (i + 0.5) * slot;
  const worst = input.months.reduce((a, { volts }, i) => (volts < input.months[a]!.volts ? i : a), 0);
  const points = input.months.map(({ volts }, i) => `${x(i).toFixed(1)} ${y(volts).toFixed(1)}`);
  const size = slot < 34 ? 10 : 12;
  const targetAt = y(target.volts);
  return figure(
    {
      title: input.title ?? 'Through the year',
      description: `Volts ${voltsName(input)} at the weakest post: ${input.months.map((m) => `${m.label} ${formatVolts(m.volts)}`).join('; ')}. ${targetWords(input)}.`,
    },
    plot.bottom + 66,
    options,
    voltsAxis(y, plot, `kV ${voltsName(input)} at the weakest post; dotted: ${targetWords(input)}`, 5, 34),
    input.months.map((month, i) => rangeOf(month, x(i), y, Math.min(9, slot / 4))),
    points.length > 1
      ? el('path', { d: `M${points.join('L')}`, 'stroke-width': 1.2, ...paint({ fill: 'none', stroke: 'line0' }) })
      : null,
    targetLine(y, target.volts, null, plot),
    input.months.map((month, i) => {
      const at = y(month.volts);
      // Beneath the dot, since the range rises above it, as long as there is room.
      const under = Math.abs(at + 18 - targetAt) < 12 ? targetAt + 16 : at + 22;
      const words = under + 2 > plot.bottom ? at - 12 : under;
      return el(
        'g',
        {},
        el('title', {}, `${month.label}: ${formatVolts(month.volts)}${month.condition ? `, ${month.condition}` : ''}`),
        i === worst
          ? el('circle', { cx: x(i), cy: at, r: 8, 'stroke-width': 2, ...paint({ fill: 'none', stroke: 'seal' }) })
          : null,
        el('circle', { cx: x(i), cy: at, r: 4, ...paint({ fill: 'line0', stroke: 'paper' }) }),
        label(kilovolts(Math.round(month.volts / 100) * 100), x(i), words, {
          anchor: 'middle',
          size,
          halo: true,
          bold: i === worst,
          role: i === worst ? 'seal' : 'ink',
        }),
        label(month.label, x(i), plot.bottom + 18, { anchor: 'middle', size, role: 'soft', width: slot + 4 }),
      );
    }),
    brackets(input.months, plot, slot),
  );
}

function rangeOf(
  { volts, lowVolts, highVolts }: MonthVolts,
  x: number,
  y: (volts: number) => number,
  half: number,
): Markup | null {
  if (lowVolts === undefined && highVolts === undefined) return null;
  const [top, bottom] = [y(highVolts ?? volts), y(lowVolts ?? volts)];
  return el('rect', {
    x: x - half,
    y: top,
    width: 2 * half,
    height: Math.max(bottom - top, 1),
    rx: 2,
    ...paint({ fill: 'volts2' }),
  });
}

/** One bracket for each stretch of months that share a condition. */
function brackets(list: readonly MonthVolts[], plot: Plot, slot: number): Markup[] {
  const groups: { condition: string; from: number; to: number }[] = [];
  list.forEach(({ condition }, i) => {
    const last = groups.at(-1);
    if (condition === undefined) return;
    if (last?.condition === condition && last.to === i - 1) last.to = i;
    else groups.push({ condition, from: i, to: i });
  });
  return groups.map((group) => {
    const { condition, from, to } = group;
    const [left, right] = [plot.left + from * slot + 3, plot.left + (to + 1) * slot - 3];
    const y = plot.bottom + 28;
    // A winter that goes on in January is named once, where there is more room.
    const longer = groups.some((other) => other.condition === condition && other.to - other.from > to - from);
    const lines = wrapText(condition, right - left + 5, 11, 2);
    const words = longer && textWidth(condition, 11) > right - left ? [] : lines;
    return el(
      'g',
      {},
      el('title', {}, condition),
      el('path', {
        d: `M${left.toFixed(1)} ${y}v4H${right.toFixed(1)}v-4`,
        ...paint({ fill: 'none', stroke: 'line' }),
      }),
      words.map((line, i) =>
        label(line, (left + right) / 2, y + 18 + i * 13, { anchor: 'middle', size: 11, role: 'soft' }),
      ),
    );
  });
}
