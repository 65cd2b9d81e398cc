import { positive } from '../guard.js';

/**
 * Resistance of one foot on the soil, ohms: a disc of radius b on the surface, R = ρ/(4b).
 *
 * Source: IEEE Std 80.
 */
export const footResistance = (soilOhmM: number, radiusM: number): number =>
  positive('soilOhmM', soilOhmM) / (4 * positive('radiusM', radiusM));

/** How an animal stands. */
export interface Stance {
  /** Of a disc as large as one hoof's print. */
  readonly hoofRadiusM: number;
  /** Left to right. */
  readonly trackM: number;
  /** Fore to hind. */
  readonly lengthM: number;
}

/**
 * Resistance of four feet in parallel for each ohm-metre of topsoil, 1/m, with what each foot lifts the others by.
 *
 * Four equal discs (IEEE Std 80) at the corners of a rectangle: (1/(4b) + Σ 1/(2πs))/4 over the three distances s; each
 * foot sees the others as points.
 *
 * @throws RangeError on a number that is not positive, or feet that overlap.
 */
export function feetOhmsPerOhmM({ hoofRadiusM, trackM, lengthM }: Stance): number {
  const own = footResistance(1, hoofRadiusM);
  if (Math.min(positive('trackM', trackM), positive('lengthM', lengthM)) < 2 * hoofRadiusM) {
    throw new RangeError(`trackM, lengthM: found ${trackM} and ${lengthM}, expected feet that do not overlap`);
  }
  const others = [trackM, lengthM, Math.hypot(trackM, lengthM)];
  return others.reduce((sum, s) => sum + 1 / (2 * Math.PI * s), own) / 4;
}
