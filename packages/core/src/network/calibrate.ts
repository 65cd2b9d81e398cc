import type { Estimate } from '@postvolt/tables';
import type { Calibration } from '../plan/calibration.js';
import { drawValue, endOfRange } from './draw-value.js';

/** Where readings have put a group of values within its range, and how much of the range's width they leave. */
export type Shift = Pick<Calibration['groups'][number], 'shift' | 'spread'>;

/** Percentiles 5, 50 and 95 of an estimate's law once readings have shifted and narrowed it. */
export function calibratedRange<T extends Pick<Estimate, 'low' | 'typical' | 'high'>>(estimate: T, by: Shift): T {
  const at = (steps: number) => drawValue(estimate, by.shift + steps * by.spread);
  return { ...estimate, low: at(-endOfRange), typical: at(0), high: at(endOfRange) };
}

/** An estimate as readings have left it. */
export const calibrated = (estimate: Estimate, by: Shift): Estimate => ({
  ...calibratedRange(estimate, by),
  basis: 'derived',
  source: `${estimate.source}; calibrated by a fence meter's readings`,
});

/** Shifts by the key of their group. */
export const shiftsOf = (calibration: Calibration | null): ReadonlyMap<string, Shift> =>
  new Map(calibration?.groups.map((group) => [group.key, group]));
