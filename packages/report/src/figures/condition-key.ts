import { label } from '../look/figure.js';
import { type LineStyle, lineSample } from '../look/line-style.js';
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
  const rowHeight = tall ? 34 : 17;
  const entry = ({ style, name, note }: KeyEntry, x: number, y: number): Markup =>
    el(
      'g',
      {},
      lineSample(style, x, y - 4),
      label(name, x + 38, y, { width: width - 38 }),
      tall ? label(note, x + 38, y + 15, { role: 'soft', size: 11, width: width - 38 }) : null,
    );
  return {
    height: entries.length * rowHeight + 4,
    stacked: (): Markup[] => entries.map((item, i) => entry(item, 0, 14 + i * rowHeight)),
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
          entry(item, plot.right + 18, places[i]! + 4),
        );
      });
    },
  };
}
