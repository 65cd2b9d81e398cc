import { fontSize, label, textWidth } from '../look/figure.js';
import { wrapText } from '../look/text-width.js';
import { paint, type Role } from '../look/theme.js';
import { el, type Markup } from '../markup/element.js';
import { type Linear, niceScale } from './scales.js';

/** One bar of a list of bars. */
export interface BarRow {
  readonly label: string;
  /** Smaller, under the label. */
  readonly note?: string;
  /** The bar reaches from `from` (0 where left out) to `to`. */
  readonly from?: number;
  readonly to: number;
  /** Ends of a whisker over the bar's end. */
  readonly low?: number;
  readonly high?: number;
  /** Written at the bar's end. */
  readonly value: string;
  readonly role?: Role;
  readonly bold?: boolean;
}

const barHeight = 14;

/**
 * Bars side by side with their names at the left (above them where it is narrow) and their values at the ends.
 * `mark` draws a dotted line across all rows with words at its head.
 */
export function barRows(
  rows: readonly BarRow[],
  {
    width,
    narrow,
    top = 0,
    mark,
  }: {
    readonly width: number;
    readonly narrow: boolean;
    readonly top?: number;
    readonly mark?: { readonly at: number; readonly words: string };
  },
): { readonly drawing: Markup[]; readonly height: number } {
  const valueRoom = Math.max(0, ...rows.map(({ value, bold }) => textWidth(value, fontSize, bold ?? false))) + 12;
  const labelRoom = narrow ? 8 : Math.min(250, width * 0.34);
  const values = rows.flatMap(({ from = 0, to, low = to, high = to }) => [from, to, low, high]);
  const [least, most] = [Math.min(0, ...values), Math.max(0, ...values, mark?.at ?? 0)];
  // Values of bars to the left of zero stand to the left of them.
  const leftRoom = least < 0 ? valueRoom : 0;
  const x = niceScale(least, most, [labelRoom + leftRoom, width - valueRoom - 8], 5);
  x.domain([least, most > least ? most : least + 1]);
  const markTop = top + (mark ? 18 : 0);
  let y = markTop;
  const drawn = rows.map((row) => {
    const lines = wrapText(row.label, narrow ? width - 16 : labelRoom - 22, fontSize, 2);
    const noteLines = row.note === undefined ? 0 : 1;
    const block = lines.length * 15 + noteLines * 14;
    const rowTop = y;
    const barY = narrow ? y + block + 4 : y + Math.max(0, (block - barHeight) / 2);
    const textTop = narrow ? y + 12 : y + Math.max(0, (barHeight - block) / 2) + 12;
    y += narrow ? block + barHeight + 16 : Math.max(block, barHeight) + 11;
    const anchor = narrow ? 'start' : 'end';
    const textX = narrow ? 8 : labelRoom - 12;
    return el(
      'g',
      {},
      el('title', {}, `${row.label}: ${row.value}`),
      lines.map((line, i) => label(line, textX, textTop + i * 15, { anchor, bold: row.bold ?? false, halo: narrow })),
      row.note === undefined
        ? null
        : label(row.note, textX, textTop + lines.length * 15 - 1, {
            anchor,
            size: 11,
            role: 'soft',
            width: narrow ? width - 16 : labelRoom - 22,
          }),
      // Where names stand above bars the base line is broken for them.
      el('line', {
        x1: x(0),
        x2: x(0),
        y1: narrow ? barY - 3 : rowTop - 3,
        y2: narrow ? barY + barHeight + 3 : y - 3,
        ...paint({ stroke: 'line' }),
      }),
      bar(row, x, barY),
    );
  });
  return {
    drawing: [...(mark ? markLine(x(mark.at), mark.words, top, y - 6, width) : []), ...drawn],
    height: y,
  };
}

function bar(row: BarRow, x: Linear, y: number): Markup[] {
  const { from = 0, to, low, high, value, role = 'bar', bold = false } = row;
  const [start, end] = [x(Math.min(from, to)), x(Math.max(from, to))];
  const reach = Math.max(end, high === undefined ? end : x(high));
  const before = Math.min(start, low === undefined ? start : x(low));
  const left = to < 0 && from <= 0;
  return [
    el('rect', {
      x: start,
      y,
      width: Math.max(end - start, 1),
      height: barHeight,
      ...paint({ fill: role, stroke: 'bar' }),
      'stroke-width': 0.8,
    }),
    ...(low === undefined || high === undefined ? [] : whisker(x(low), x(high), y + barHeight / 2)),
    label(value, left ? before - 7 : reach + 7, y + 11, { anchor: left ? 'end' : 'start', bold, halo: true }),
  ];
}

/** A range: a thin line with short ends, on a rim of paper. */
export function whisker(low: number, high: number, y: number): Markup[] {
  const d = `M${low.toFixed(1)} ${y}H${high.toFixed(1)}M${low.toFixed(1)} ${y - 4}v8M${high.toFixed(1)} ${y - 4}v8`;
  return [
    el('path', { d, 'stroke-width': 3.5, ...paint({ fill: 'none', stroke: 'paper' }) }),
    el('path', { d, 'stroke-width': 1.3, ...paint({ fill: 'none', stroke: 'ink' }) }),
  ];
}

/** A dotted upright at a value, such as the target, with its words at the head. */
export function markLine(x: number, words: string, top: number, bottom: number, width: number): Markup[] {
  const size = textWidth(words, 11);
  const anchor = x + size / 2 > width - 8 ? 'end' : x - size / 2 < 8 ? 'start' : 'middle';
  return [
    el('line', {
      x1: x,
      x2: x,
      y1: top + 16,
      y2: bottom,
      'stroke-width': 1.5,
      'stroke-dasharray': '1 4',
      'stroke-linecap': 'round',
      ...paint({ stroke: 'ink' }),
    }),
    label(words, anchor === 'end' ? width - 8 : anchor === 'start' ? 8 : x, top + 10, { anchor, size: 11, halo: true }),
  ];
}
