import { positive } from '../guard.js';

/** Ends of the limit line of IEC 60335-2-76: amperes that it holds between. */
export const impulseLimitAmpsRange = { low: 1, high: 15.7 } as const;

/** Other limits of IEC 60335-2-76 on one energizer; from memory of the standard. */
export const impulseLimits = {
  /** Joules in one impulse into 500 ohms, for an energy-limited energizer. */
  joules: 5,
  /** Seconds that an impulse may last in the 500 ohm component of the standard load. */
  durationS: 0.01,
  /** Impulses a second. */
  perSecond: 1,
  /** The standard load's ohms. */
  loadOhms: 500,
} as const;

const scale = 41.885e3;
const power = 1.34;

/**
 * Longest impulse, seconds, that a current-limited energizer may give at an r.m.s. current (over the shortest interval
 * that holds 95 % of the impulse's energy): t(ms) = 41.885·10³·I(mA)^−1.34, from 1 to 15.7 A.
 *
 * Source: IEC 60335-2-76, from memory.
 *
 * @throws RangeError outside the line's ends; above them no impulse is allowed, below them only `impulseLimits` hold.
 */
export function impulseLimit(amps: number): number {
  const { low, high } = impulseLimitAmpsRange;
  if (!(amps >= low && amps <= high)) throw new RangeError(`amps: found ${amps}, expected ${low} to ${high}`);
  return (scale * (amps * 1000) ** -power) / 1000;
}

/**
 * Largest r.m.s. current, amperes, allowed for an impulse of the given length: the inverse of `impulseLimit`.
 *
 * Shorter impulses than the line's end are held to 15.7 A.
 *
 * @throws RangeError on a length that is not positive or beyond the line's 4 ms.
 */
export function impulseLimitAmps(seconds: number): number {
  const { low, high } = impulseLimitAmpsRange;
  if (positive('seconds', seconds) > impulseLimit(low)) {
    throw new RangeError(`seconds: found ${seconds}, expected at most ${impulseLimit(low)}`);
  }
  return Math.min(high, (scale / (seconds * 1000)) ** (1 / power) / 1000);
}
