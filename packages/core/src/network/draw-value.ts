import type { Estimate } from '@postvolt/tables';

/** The 95th percentile of the standard normal; its 5th is as far below zero. */
export const endOfRange = 1.6448536269514722;

/**
 * A value of an estimate's distribution, at a standard normal `z`.
 *
 * Log-normal in two halves that meet at the median: `low`, `typical` and `high` are its 5th, 50th and 95th percentile. Where
 * `low` or `typical` is zero or less, a logarithm has no meaning: that half is then a normal's, cut off at zero.
 */
export function drawValue({ low, typical, high }: Pick<Estimate, 'low' | 'typical' | 'high'>, z: number): number {
  const end = z < 0 ? low : high;
  if (end === typical) return typical;
  const steps = Math.abs(z) / endOfRange;
  if (typical > 0 && end > 0) return typical * (end / typical) ** steps;
  return Math.max(0, typical + (end - typical) * steps);
}
