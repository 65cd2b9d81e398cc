import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { positive, wholeNumber } from '../guard.js';
import { rodResistance } from './rod-resistance.js';

/** Metres east and north of any origin. */
export type Place = readonly [xM: number, yM: number];

/** Equal rods of one ground system. */
export interface RodLayout {
  readonly count: number;
  readonly lengthM: number;
  readonly diameterM: number;
  /** From rod to next rod; in a ring, straight across. */
  readonly spacingM: number;
  readonly layout: 'line' | 'ring';
}

/** Rods bonded together, solved at one potential in even soil. */
export interface RodArray {
  readonly lengthM: number;
  readonly diameterM: number;
  readonly placesM: readonly Place[];
  /** Resistance to remote earth for each ohm-metre of soil, 1/m. */
  readonly ohmsPerOhmM: number;
  /** Part of the current that each rod carries; sums to 1. */
  readonly shares: readonly number[];
}

/** Most rods that one array may have. */
export const mostRods = 500;

/**
 * Mutual resistance of two equal rods a distance apart for each ohm-metre of soil, 1/m.
 *
 * R(s) = 1/(2πL)·(ln((2L+r)/s) + s/2L − r/2L), r = √(s²+4L²): the mean potential that one rod's uniform leakage sets up
 * along the other, images above the surface included.
 */
export function mutualOhmsPerOhmM(lengthM: number, distanceM: number): number {
  const [L, s] = [positive('lengthM', lengthM), positive('distanceM', distanceM)];
  const r = Math.hypot(s, 2 * L);
  return (Math.log((2 * L + r) / s) + (s - r) / (2 * L)) / (2 * Math.PI * L);
}

/** Places of the rods of a layout: a line from the origin along x, or a ring round the origin. */
function placesOf({ count, spacingM, layout }: RodLayout): Place[] {
  if (layout === 'line' || count < 3) return Array.from({ length: count }, (_, i): Place => [i * spacingM, 0]);
  const radius = spacingM / (2 * Math.sin(Math.PI / count));
  return Array.from({ length: count }, (_, i): Place => {
    const angle = (2 * Math.PI * i) / count;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });
}

/**
 * Resistance of several rods that share soil: the n × n matrix of self and mutual resistances at equal potential.
 *
 * The self term is H. B. Dwight's rod formula (1936), so that an array of one is one rod. Ten-foot rods in a line agree
 * with a finer division of the rods within 1 %.
 *
 * @throws RangeError on a number out of range, or rods closer than they are thick.
 */
export function rodArray(layout: RodLayout): RodArray {
  wholeNumber('count', layout.count, mostRods);
  if (layout.count > 1) positive('spacingM', layout.spacingM);
  return rodsAt(placesOf(layout), layout.lengthM, layout.diameterM);
}

/** Resistance of equal rods at the given places; see `rodArray`. */
export function rodsAt(placesM: readonly Place[], lengthM: number, diameterM: number): RodArray {
  const n = wholeNumber('count', placesM.length, mostRods);
  const self = rodResistance(1, lengthM, diameterM);
  const ohms = Matrix.zeros(n, n);
  for (let i = 0; i < n; i++) {
    ohms.set(i, i, self);
    for (let j = 0; j < i; j++) {
      const s = distance(placesM[i]!, placesM[j]!);
      if (!(s > diameterM))
        throw new RangeError(`spacingM: found ${s}, expected more than the diameter of ${diameterM}`);
      const mutual = mutualOhmsPerOhmM(lengthM, s);
      ohms.set(i, j, mutual);
      ohms.set(j, i, mutual);
    }
  }
  const amps = new CholeskyDecomposition(ohms).solve(Matrix.ones(n, 1)).to1DArray();
  const total = amps.reduce((sum, amp) => sum + amp, 0);
  return { lengthM, diameterM, placesM, ohmsPerOhmM: 1 / total, shares: amps.map((amp) => amp / total) };
}

const distance = (p: Place, q: Place): number => Math.hypot(p[0] - q[0], p[1] - q[1]);

/**
 * Potential of the soil's surface at a place beside the rods for each ampere and ohm-metre, 1/m.
 *
 * A probe stands in the rods' own field, so a meter between rod and probe reads `ohmsPerOhmM` less this. Each rod is a
 * line of uniform leakage from the surface down: V = 1/(2πL)·asinh(L/x) at a distance x.
 *
 * @throws RangeError for a place inside a rod.
 */
export function surfaceOhmsPerOhmM(array: RodArray, probeM: Place): number {
  const L = array.lengthM;
  return array.placesM.reduce((sum, place, i) => {
    const x = distance(place, probeM);
    if (!(x >= array.diameterM / 2))
      throw new RangeError(`probeM: found ${x} m from a rod, expected it outside the rod`);
    return sum + (array.shares[i]! * Math.asinh(L / x)) / (2 * Math.PI * L);
  }, 0);
}
