import { nonNegative, positive } from '../guard.js';

/** Permeability of free space, H/m. */
export const vacuumPermeability = 4e-7 * Math.PI;

/** A complex number, ohms per metre. */
export interface Impedance {
  readonly re: number;
  readonly im: number;
}

/** A solid round conductor. */
export interface RoundWire {
  readonly radiusM: number;
  readonly resistivityOhmM: number;
  readonly relativePermeability: number;
}

/** Direct-current resistance of a round wire, ohms per metre: resistivity over area. */
export function roundWireDcOhmsPerMetre(wire: Pick<RoundWire, 'radiusM' | 'resistivityOhmM'>): number {
  const a = positive('radiusM', wire.radiusM);
  return positive('resistivityOhmM', wire.resistivityOhmM) / (Math.PI * a * a);
}

/**
 * Internal impedance of a round wire at one frequency, ohms per metre; its real part rises with skin effect.
 *
 * Z = (kρ / 2πa)·J₀(ka)/J₁(ka), k = √(−jωµ/ρ), as in any text on electromagnetic fields. The ratio of Bessel functions
 * is taken as its continued fraction (Abramowitz and Stegun 9.1.73), which with x = a√(ωµ/ρ) reads
 * Z/R_dc = ½·(2 + jx²/(4 + jx²/(6 + ...))): sums of terms with positive real part only, so that no digits cancel.
 *
 * @throws RangeError on a number that is not positive (frequency may be 0).
 */
export function internalImpedance(wire: RoundWire, frequencyHz: number): Impedance {
  const dc = roundWireDcOhmsPerMetre(wire);
  const mu = vacuumPermeability * positive('relativePermeability', wire.relativePermeability);
  const omega = 2 * Math.PI * nonNegative('frequencyHz', frequencyHz);
  const ratio = skinRatio(wire.radiusM * Math.sqrt((omega * mu) / wire.resistivityOhmM));
  return { re: dc * ratio.re, im: dc * ratio.im };
}

/**
 * Z/R_dc of a round wire for x = a√(ωµ/ρ): the argument of the handbook tables of skin effect.
 *
 * Beyond x = 10 000 the expansion for large x takes over: κ + 1/4 + 3/(64κ) and κ − 3/(64κ) with κ = x/√8, to 1e-12.
 *
 * @throws RangeError where x is not a number from 0 up.
 */
export function skinRatio(x: number): Impedance {
  if (nonNegative('x', x) > 1e4) {
    const kappa = x / Math.sqrt(8);
    return { re: kappa + 1 / 4 + 3 / (64 * kappa), im: kappa - 3 / (64 * kappa) };
  }
  const w = x * x;
  // The fraction settles once its terms outgrow x; from there each step gains more than a digit.
  let re = 2 * (Math.ceil(x) + 30);
  let im = 0;
  for (let term = Math.ceil(x) + 29; term >= 1; term--) {
    const norm = re * re + im * im;
    [re, im] = [2 * term + (w * im) / norm, (w * re) / norm];
  }
  return { re: re / 2, im: im / 2 };
}
