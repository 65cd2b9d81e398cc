import { estimate } from '../cell.js';
import type { Estimate } from '../estimate.js';
import { nonNegative } from '../guard.js';

/**
 * Volts at which a clean small air gap fires, gap in metres: V(kV) = 2.44 d + 2.07 √d with d in mm.
 *
 * Even field, dry air at sea level. Source: texts on high-voltage engineering, from memory.
 */
export function airGapVolts(gapM: number): number {
  const d = nonNegative('gapM', gapM) * 1000;
  return 1000 * (2.44 * d + 2.07 * Math.sqrt(d));
}

/** Volts for each metre of a dirty, damp surface at which it flashes over. */
export const dirtySurfaceVoltsPerMetre: Estimate = estimate(
  2.5e5,
  [1e5, 5e5],
  'V/m',
  'engineering estimate: 0.1 to 0.5 kV/mm, far below a clean gap',
);

/** Volts at which a dirty, damp surface of the given length flashes over. */
export function dirtySurfaceVolts(pathM: number): Estimate {
  const d = nonNegative('pathM', pathM);
  const { low, typical, high, source } = dirtySurfaceVoltsPerMetre;
  return estimate(typical * d, [low * d, high * d], 'V', source);
}
