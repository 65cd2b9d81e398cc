import { nonNegative, positive } from '../guard.js';

/** Frequency that stands for a pulse of the given width, Hz: half a period a pulse. */
export const frequencyOfPulse = (widthS: number): number => 1 / (2 * positive('widthS', widthS));

/** Frequency that stands for the usual pulse of about 100 µs, Hz. */
export const pulseFrequencyHz = 5000;

/**
 * Resistance that the earth adds to a wire whose current returns through the ground, ohms per metre: π²f·10⁻⁷.
 *
 * It depends on the frequency only, not on the soil or the wire's height, as long as the wire hangs low over the ground
 * compared with the depth of the return. Source: first term of J. R. Carson's series, 1926.
 *
 * @throws RangeError on a negative or unusable frequency.
 */
export const earthReturnOhmsPerMetre = (frequencyHz: number): number =>
  Math.PI ** 2 * nonNegative('frequencyHz', frequencyHz) * 1e-7;
