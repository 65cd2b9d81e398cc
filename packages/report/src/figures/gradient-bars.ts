import { formatVolts } from '@postvolt/core';
import { type FigureOptions, figure, figureWidth, isNarrow } from '../look/figure.js';
import { type BarRow, barRows } from './bar-rows.js';

/** One cause and what it costs, in volts; negative where it gives. */
export interface CauseLoss {
  readonly label: string;
  readonly note?: string;
  readonly volts: number;
  /** Range of the cost, where it is known. */
  readonly lowVolts?: number;
  readonly highVolts?: number;
}

/** What the bars of a gradient are drawn from. */
export interface GradientBarsInput {
  readonly title?: string;
  /** Post whose volts these causes cost. */
  readonly postId: string;
  readonly costs: readonly CauseLoss[];
}

/** What costs a post its volts: a bar a cause, the largest first. */
export function gradientBars(input: GradientBarsInput, options: FigureOptions = {}): string {
  const costs = [...input.costs].sort((a, b) => Math.abs(b.volts) - Math.abs(a.volts));
  const { drawing, height } = barRows(
    costs.map(
      ({ label, note, volts, lowVolts, highVolts }): BarRow => ({
        label,
        ...(note === undefined ? {} : { note }),
        to: volts,
        ...(lowVolts === undefined || highVolts === undefined ? {} : { low: lowVolts, high: highVolts }),
        value: formatVolts(volts),
      }),
    ),
    { width: figureWidth(options), narrow: isNarrow(options), top: 6 },
  );
  const words = costs.map(({ label, volts }) => `${label} ${formatVolts(volts)}`).join('; ');
  return figure(
    {
      title: input.title ?? `What costs ${input.postId} its volts`,
      description: `Bars of volts lost to each cause: ${words}.`,
    },
    height,
    options,
    drawing,
  );
}
