import { formatPercent, formatVolts, type PlanResult } from '@postvolt/core';
import { type FigureOptions, figure, figureWidth, isNarrow } from '../look/figure.js';
import { lineStyle } from '../look/line-style.js';
import { dotRows } from './dot-rows.js';
import { targetWords, voltsName } from './words.js';

/** Spread of the volts at one place, such as the weakest post in one condition. */
export interface SpreadRow {
  readonly label: string;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
  /** Of holding the target, in percent. */
  readonly chancePercent?: number;
}

/** What the bars of a spread are drawn from. */
export interface SpreadBarsInput {
  readonly title?: string;
  readonly target: PlanResult['target'];
  readonly rows: readonly SpreadRow[];
}

/** How sure the volts are: P10 to P90 as a range with P50 on it, and the chance that the target holds. */
export function spreadBars(input: SpreadBarsInput, options: FigureOptions = {}): string {
  const words = ({ label, p10, p50, p90 }: SpreadRow) =>
    `${label} ${formatVolts(p50)}, from ${formatVolts(p10)} to ${formatVolts(p90)}`;
  const { drawing, height } = dotRows(
    input.rows.map((row) => ({
      label: row.label,
      ...(row.chancePercent === undefined ? {} : { note: `holds in ${formatPercent(row.chancePercent)} of draws` }),
      range: { low: row.p10, high: row.p90 },
      marks: [{ volts: row.p50, style: lineStyle(0), title: words(row) }],
      value: formatVolts(row.p50),
    })),
    {
      width: figureWidth(options),
      narrow: isNarrow(options),
      top: 0,
      target: { volts: input.target.volts, words: targetWords(input) },
      axis: `kV ${voltsName(input)}: P10 to P90, P50 at the mark`,
    },
  );
  return figure(
    {
      title: input.title ?? 'How sure the volts are',
      description: `${input.rows.map(words).join('; ')}. ${targetWords(input)}.`,
    },
    height,
    options,
    drawing,
  );
}
