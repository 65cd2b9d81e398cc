import { fontSize, label } from '../look/figure.js';
import { type LineStyle, lineSample } from '../look/line-style.js';
import { wrapText } from '../look/text-width.js';
import { paint } from '../look/theme.js';
import { el, type Markup } from '../markup/element.js';
import type { Plot } from './scales.js';
import { spreadLabels } from './spread-labels.js';

/** One line of a key. */
export interface KeyEntry {
  readonly style: LineStyle;
  readonly name: string;
  readonly note: string;
}

/** Names of lines with a sample of each: beside the plot, level with the lines' ends, or stacked above it. */
export function conditionKey(entries: readonly KeyEntry[], width: number) {
  const tall = entries.length <= 9;
  // All rows are as high as the highest, for the labels to be spread evenly.
  const names = entries.map(({ name }) => wrapText(name, width - 38, fontSize, tall ? 2 : 1));
  const nameLines = Math.max(1, ...names.map((lines) => lines.length));
  const rowHeight = tall ? 19 + nameLines * 15 : 17;
  const entry = ({ style, name, note }: KeyEntry, lines: readonly string[], x: number, y: number): Markup =>
    el(
      'g',
      {},
      lineSample(style, x, y - 4),
      el('title', {}, `${name}, ${note}`),
      lines.map((line, i) => label(line, x + 38, y + i * 15)),
      tall ? label(note, x + 38, y + lines.length * 15, { role: 'soft', size: 11, width: width - 38 }) : null,
    );
  return {
    height: entries.length * rowHeight + 4,
    stacked: (): Markup[] => entries.map((item, i) => entry(item, names[i]!, 0, 14 + i * rowHeight)),
    beside(plot: Plot, wishes: readonly number[]): Markup[] {
      const places = spreadLabels(wishes, rowHeight, plot.top + 4, plot.bottom - rowHeight / 2);
      return entries.map((item, i) => {
        const from = wishes[i]!.toFixed(1);
        const to = places[i]!.toFixed(1);
        return el(
          'g',
          {},
          el('path', {
            d: `M${plot.right + 3} ${from}L${plot.right + 14} ${to}`,
            ...paint({ fill: 'none', stroke: 'line' }),
          }),
          entry(item, names[i]!, plot.right + 18, places[i]! + 4),
        );
      });
    },
  };
}
