import type { Basis, Estimate } from './estimate.js';

/** Low and high end of a value; null where the value is not in doubt. */
export type Range = readonly [low: number, high: number] | null;

/** Removes the noise that conversion to SI leaves in the last digits (0.099 in as 0.0025146 m). */
const tidy = (x: number): number => Number(x.toPrecision(12));

/**
 * One cell of a table, SI; the basis is `estimate` unless another is named.
 *
 * `memory` marks a value written from memory of its source.
 */
export function estimate(
  typical: number,
  range: Range,
  unit: string,
  source: string,
  options: { readonly memory?: boolean; readonly basis?: Basis } = {},
): Estimate {
  const [low, high] = range ?? [typical, typical];
  return {
    low: tidy(low),
    typical: tidy(typical),
    high: tidy(high),
    unit,
    basis: options.basis ?? 'estimate',
    source,
    fromMemory: options.memory ?? false,
  };
}

/** A cell whose value is printed in a standard, written from memory of it. */
export const standard = (typical: number, range: Range, unit: string, source: string): Estimate =>
  estimate(typical, range, unit, source, { basis: 'standard', memory: true });

/** A cell whose value or range is printed in handbooks, written from memory of them. */
export const handbook = (typical: number, range: Range, unit: string, source: string): Estimate =>
  estimate(typical, range, unit, source, { basis: 'handbook', memory: true });

/** A cell that the trade agrees on and nobody publishes. */
export const practice = (typical: number, range: Range, unit: string): Estimate =>
  estimate(typical, range, unit, 'common practice, no source', { basis: 'common practice' });

/** Years of service as the trade reckons them. */
export const years = (typical: number, low: number, high: number): Estimate => practice(typical, [low, high], 'year');

/**
 * A cell worked out from another by a rising or falling function, range and all; basis `derived`.
 *
 * It counts as written from memory where its argument does.
 */
export function derive(from: Estimate, f: (x: number) => number, unit: string, source: string): Estimate {
  const ends = [f(from.low), f(from.high)] as const;
  return estimate(f(from.typical), [Math.min(...ends), Math.max(...ends)], unit, source, {
    basis: 'derived',
    memory: from.fromMemory,
  });
}

/**
 * Range of a value that follows from several independent inputs, each `[value at its low end, value at its high end]` with
 * the others at their typical values.
 *
 * `low` and `high` of an input are its 5th and 95th percentile. Inputs that are log-normal and independent add the squares
 * of their steps in the logarithm, on either side of the typical value, so the range is that of the 5th and 95th percentile
 * of the result. All inputs at their extremes at once would be a chance of one in thousands.
 */
export function independentRange(typical: number, effects: readonly (readonly [number, number])[]): [number, number] {
  let below = 0;
  let above = 0;
  for (const effect of effects) {
    below += Math.min(0, ...effect.map((value) => Math.log(value / typical))) ** 2;
    above += Math.max(0, ...effect.map((value) => Math.log(value / typical))) ** 2;
  }
  return [typical * Math.exp(-Math.sqrt(below)), typical * Math.exp(Math.sqrt(above))];
}

const metresPerInch = 0.0254;
/** Inches to metres. */
export const inches = (n: number): number => tidy(n * metresPerInch);
/** Feet to metres. */
export const feet = (n: number): number => tidy(n * 12 * metresPerInch);
