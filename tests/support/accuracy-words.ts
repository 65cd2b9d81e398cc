import type { Tolerance } from './accuracy.js';

const superscript = (exponent: number): string =>
  [...String(exponent)].map((sign) => (sign === '-' ? '⁻' : '⁰¹²³⁴⁵⁶⁷⁸⁹'[Number(sign)])).join('');

/** A few significant digits; a power of ten for what is very small or large. */
export function wordNumber(value: number, places = 6): string {
  const size = Math.abs(value);
  if (value === 0 || !Number.isFinite(value)) return String(value);
  if (size >= 1e-3 && size < 1e6) return String(Number(value.toPrecision(places)));
  const [mantissa, exponent] = value.toExponential(places - 1).split('e') as [string, string];
  return `${Number(mantissa)} × 10${superscript(Number(exponent))}`;
}

export const withUnit = (value: number, unit: string, places = 6): string =>
  `${wordNumber(value, places)}${unit === '1' ? '' : ` ${unit}`}`;

/** A part of a value: in per cent where a person would say it so. */
export const wordPart = (part: number, places = 2): string =>
  part === 0 ? '0' : Math.abs(part) >= 1e-5 ? `${wordNumber(100 * part, places)} %` : wordNumber(part, places);

/** The limits of a one-sided or two-sided tolerance, null of one round a value. */
export function wordLimits(tolerance: Tolerance, unit: string): string | null {
  if ('notAbove' in tolerance) return `at most ${withUnit(tolerance.notAbove, unit)}`;
  if ('notBelow' in tolerance) return `at least ${withUnit(tolerance.notBelow, unit)}`;
  if ('within' in tolerance) return `${wordNumber(tolerance.within[0])} to ${withUnit(tolerance.within[1], unit)}`;
  return null;
}

export function wordTolerance(tolerance: Tolerance, unit: string): string {
  if ('relative' in tolerance) return wordPart(tolerance.relative);
  if ('absolute' in tolerance) return withUnit(tolerance.absolute, unit);
  return 'none';
}

/** A table cell of Markdown. */
export const cell = (text: string): string => text.replaceAll('|', '\\|').replace(/\s+/g, ' ').trim();
