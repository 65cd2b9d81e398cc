import { fontSize, label, textWidth } from '../look/figure.js';
import { type LineStyle, lineMark } from '../look/line-style.js';
import { wrapText } from '../look/text-width.js';
import { paint } from '../look/theme.js';
import { el, type Markup } from '../markup/element.js';
import { markLine, whisker } from './bar-rows.js';
import { bottomTicks, kilovolts, type Linear, niceScale } from './scales.js';

/** One row of marks on a common scale of volts. */
export interface DotRow {
  readonly label: string;
  readonly note?: string;
  readonly marks: readonly { readonly volts: number; readonly style: LineStyle; readonly title: string }[];
  /** Ends of a range drawn under the marks. */
  readonly range?: { readonly low: number; readonly high: number };
  /** Written at the right end. */
  readonly value: string;
}

/** Rows of marks with names at the left (above them where it is narrow), a scale of kilovolts below and the target across. */
export function dotRows(
  rows: readonly DotRow[],
  {
    width,
    narrow,
    top,
    target,
    axis,
  }: {
    readonly width: number;
    readonly narrow: boolean;
    readonly top: number;
    readonly target: { readonly volts: number; readonly words: string };
    readonly axis: string;
  },
): { readonly drawing: Markup[]; readonly height: number } {
  const valueRoom = Math.max(0, ...rows.map(({ value }) => textWidth(value, fontSize, true))) + 20;
  const labelRoom = narrow ? 8 : Math.min(250, width * 0.34);
  const plot = { left: labelRoom + 8, right: width - valueRoom - 8 };
  const values = rows.flatMap(({ marks, range }) => [
    ...marks.map(({ volts }) => volts),
    ...(range ? [range.low, range.high] : []),
  ]);
  const x = niceScale(Math.min(0, ...values), Math.max(target.volts, ...values), [plot.left, plot.right], 5);
  let y = top + 20;
  const drawn = rows.map((row) => {
    const lines = wrapText(row.label, narrow ? width - 16 : labelRoom - 14, fontSize, 2);
    const block = lines.length * 15 + (row.note === undefined ? 0 : 14);
    const dotY = narrow ? y + block + 8 : y + Math.max(block, 18) / 2;
    const textTop = narrow ? y + 12 : dotY - block / 2 + 12;
    y += narrow ? block + 26 : Math.max(block, 18) + 12;
    const [textX, anchor] = narrow ? ([8, 'start'] as const) : ([labelRoom - 8, 'end'] as const);
    const room = narrow ? width - 16 : labelRoom - 14;
    return el(
      'g',
      {},
      lines.map((line, i) => label(line, textX, textTop + i * 15, { anchor, halo: narrow })),
      row.note === undefined
        ? null
        : label(row.note, textX, textTop + lines.length * 15 - 1, {
            anchor,
            size: 11,
            role: 'soft',
            width: room,
            halo: narrow,
          }),
      // Where names stand above their rows the grid is broken for them.
      narrow ? uprights(x, dotY - 8, dotY + 8) : null,
      el('line', { x1: plot.left, x2: plot.right, y1: dotY, y2: dotY, ...paint({ stroke: 'rule' }) }),
      row.range ? whisker(x(row.range.low), x(row.range.high), dotY) : null,
      ...inOrder(row, x).map(({ volts, style, title }) =>
        el('g', {}, el('title', {}, title), lineMark(style, x(volts), dotY, 68)),
      ),
      label(row.value, width - 8, dotY + 4, { anchor: 'end', bold: true }),
    );
  });
  const bottom = y - 4;
  return {
    drawing: [
      ...(narrow ? [] : uprights(x, top + 18, bottom)),
      ...markLine(x(target.volts), target.words, top, bottom, width),
      ...drawn,
      ...bottomTicks(x, { ...plot, top, bottom }, kilovolts, 5),
      label(axis, plot.left, bottom + 36, { role: 'soft', width: width - plot.left }),
    ],
    height: bottom + 44,
  };
}

/** Grid lines at round kilovolts. */
const uprights = (x: Linear, top: number, bottom: number): Markup[] =>
  x
    .ticks(5)
    .map((tick) =>
      el('line', { x1: x(tick), x2: x(tick), y1: top, y2: bottom, ...paint({ stroke: tick === 0 ? 'line' : 'rule' }) }),
    );

/** Lowest last, so that it stands on top of what it covers. */
const inOrder = ({ marks }: DotRow, x: Linear) => [...marks].sort((a, b) => x(b.volts) - x(a.volts));
