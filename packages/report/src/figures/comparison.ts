import { formatVolts, type PlanResult } from '@postvolt/core';
import { type FigureOptions, figure, figureWidth, isNarrow, label, textWidth } from '../look/figure.js';
import { lineSample, lineStyle } from '../look/line-style.js';
import { el, type Markup } from '../markup/element.js';
import { dotRows } from './dot-rows.js';
import { targetWords, voltsName } from './words.js';

/** One variant of a plan with its volts at the weakest post in each condition. */
export interface Variant {
  readonly label: string;
  /** Such as its cost. */
  readonly note?: string;
  readonly readings: readonly { readonly condition: string; readonly volts: number }[];
}

/** What a comparison of plans is drawn from. */
export interface ComparisonInput {
  readonly title?: string;
  readonly target: PlanResult['target'];
  readonly variants: readonly Variant[];
}

/** Variants side by side: for each the weakest post's volts in every condition, the lowest written out. */
export function comparison(input: ComparisonInput, options: FigureOptions = {}): string {
  const width = figureWidth(options);
  const conditions = [...new Set(input.variants.flatMap(({ readings }) => readings.map(({ condition }) => condition)))];
  const styles = new Map(conditions.map((condition, i) => [condition, lineStyle(i)]));
  const key = markKey(conditions, width);
  const lowest = ({ readings }: Variant) => readings.reduce((a, b) => (b.volts < a.volts ? b : a));
  const variants = input.variants.filter(({ readings }) => readings.length > 0);
  const { drawing, height } = dotRows(
    variants.map((variant) => ({
      label: variant.label,
      ...(variant.note === undefined ? {} : { note: variant.note }),
      marks: variant.readings.map(({ condition, volts }) => ({
        volts,
        style: styles.get(condition)!,
        title: `${variant.label}, ${condition}: ${formatVolts(volts)}`,
      })),
      value: formatVolts(lowest(variant).volts),
    })),
    {
      width,
      narrow: isNarrow(options),
      top: key.height + 4,
      target: { volts: input.target.volts, words: targetWords(input) },
      axis: `kV ${voltsName(input)} at the weakest post; the least at the right`,
    },
  );
  const words = variants.map(
    (variant) => `${variant.label} ${formatVolts(lowest(variant).volts)} in ${lowest(variant).condition}`,
  );
  return figure(
    {
      title: input.title ?? 'Side by side',
      description: `Least volts of each variant: ${words.join('; ')}. ${targetWords(input)}.`,
    },
    height,
    options,
    key.drawing,
    drawing,
  );
}

/** Conditions with their marks, in rows. */
export function markKey(
  names: readonly string[],
  width: number,
): { readonly drawing: Markup[]; readonly height: number } {
  let [x, row] = [8, 0];
  const drawing = names.map((name, i) => {
    const size = 36 + Math.min(textWidth(name, 12), 150) + 18;
    if (x > 8 && x + size > width) [x, row] = [8, row + 1];
    const at = x;
    x += size;
    return el(
      'g',
      {},
      lineSample(lineStyle(i), at, row * 20 + 10),
      label(name, at + 36, row * 20 + 14, { width: 150 }),
    );
  });
  return { drawing, height: (row + 1) * 20 };
}
