import { formatNumber, type UnitSystem } from '@postvolt/core';
import { type ScaleLinear, scaleLinear } from 'd3-scale';
import { label, textWidth } from '../look/figure.js';
import { paint } from '../look/theme.js';
import { el, type Markup } from '../markup/element.js';

/** Rectangle of a plot within its figure. */
export interface Plot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export type Linear = ScaleLinear<number, number>;

/** A scale from zero, or from the lowest value below it, to a round number at or above the highest. */
export function niceScale(low: number, high: number, range: readonly [number, number], ticks: number): Linear {
  const top = high > 0 ? high : 1;
  return scaleLinear([Math.min(0, low), top], range).nice(ticks);
}

/** `4`, `2.5`: volts as kilovolts without their unit, for ticks whose axis names it. */
export const kilovolts = (volts: number): string => formatNumber(volts / 1000, 3);

/** Unit in which a drawing whose longest length is this reads best, and how many metres it has. */
export function lengthUnit(longestM: number, units: UnitSystem): { readonly plural: string; readonly metres: number } {
  if (units === 'imperial')
    return longestM >= 1609.344 ? { plural: 'miles', metres: 1609.344 } : { plural: 'feet', metres: 0.3048 };
  return longestM >= 2000 ? { plural: 'kilometres', metres: 1000 } : { plural: 'metres', metres: 1 };
}

/** Grid lines across a plot with their kilovolts at the left, and the axis's name `rise` above them. */
export function voltsAxis(scale: Linear, plot: Plot, name: string, ticks = 5, rise = 12): Markup[] {
  const lines = scale.ticks(ticks).map((tick) => {
    const y = scale(tick);
    return el(
      'g',
      {},
      el('line', { x1: plot.left, x2: plot.right, y1: y, y2: y, ...paint({ stroke: tick === 0 ? 'line' : 'rule' }) }),
      label(kilovolts(tick), plot.left - 8, y + 4, { anchor: 'end', role: 'soft' }),
    );
  });
  return [...lines, label(name, plot.left - 30, plot.top - rise, { role: 'soft', width: plot.right - plot.left + 30 })];
}

/** The target as a dashed line with its name on it, at the left end; without a name where it stands elsewhere. */
export function targetLine(scale: Linear, volts: number, text: string | null, plot: Plot): Markup[] {
  const y = scale(volts);
  return [
    el('line', {
      x1: plot.left,
      x2: plot.right,
      y1: y,
      y2: y,
      'stroke-width': 1.5,
      'stroke-dasharray': '1 4',
      'stroke-linecap': 'round',
      ...paint({ stroke: 'ink' }),
    }),
    ...(text === null
      ? []
      : [label(text, plot.left + 6, y - 6, { halo: true, size: 11, width: plot.right - plot.left - 12 })]),
  ];
}

/** Ticks of an axis along the bottom, thinned until their words fit. */
export function bottomTicks(scale: Linear, plot: Plot, word: (tick: number) => string, most = 8): Markup[] {
  let count = most;
  let ticks = scale.ticks(count);
  const widest = () => Math.max(...ticks.map((tick) => textWidth(word(tick), 12))) + 14;
  while (count > 2 && ticks.length * widest() > plot.right - plot.left) ticks = scale.ticks(--count);
  return ticks.map((tick) => {
    const x = scale(tick);
    return el(
      'g',
      {},
      el('line', { x1: x, x2: x, y1: plot.bottom, y2: plot.bottom + 5, ...paint({ stroke: 'line' }) }),
      label(word(tick), x, plot.bottom + 18, { anchor: 'middle', role: 'soft' }),
    );
  });
}
