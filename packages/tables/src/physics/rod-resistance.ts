import { estimate, independentRange } from '../cell.js';
import type { Estimate } from '../estimate.js';
import { positive } from '../guard.js';
import type { PostRow } from '../schema.js';

/**
 * Resistance of one driven rod to remote earth, ohms: R = ρ/(2πL)·(ln(4L/a) − 1), a the radius.
 *
 * Within 0.8 to 1.1 % of an equipotential solution for rods, 2 to 3 % for a T-post (above it in both cases).
 * Source: H. B. Dwight, 1936; IEEE Std 142.
 *
 * @throws RangeError on a number that is not positive, or a rod too stout for the formula (less than two radii long).
 */
export function rodResistance(soilOhmM: number, lengthM: number, diameterM: number): number {
  const [L, a] = [positive('lengthM', lengthM), positive('diameterM', diameterM) / 2];
  if (L < 2 * a) throw new RangeError(`lengthM: found ${L}, expected a rod longer than its diameter of ${diameterM}`);
  return (positive('soilOhmM', soilOhmM) / (2 * Math.PI * L)) * (Math.log((4 * L) / a) - 1);
}

/**
 * Resistance of a post's metal to remote earth for each ohm-metre of topsoil, 1/m: the rod formula on its buried depth
 * and contact radius, whose ranges are taken as independent (see `independentRange`).
 */
export function postContactOhmsPerOhmM(row: Pick<PostRow, 'id' | 'buriedM' | 'contactRadiusM'>): Estimate {
  const { buriedM, contactRadiusM } = row;
  const at = (length: number, radius: number) => rodResistance(1, length, 2 * radius);
  const typical = at(buriedM.typical, contactRadiusM.typical);
  const range = independentRange(typical, [
    [at(buriedM.low, contactRadiusM.typical), at(buriedM.high, contactRadiusM.typical)],
    [at(buriedM.typical, contactRadiusM.low), at(buriedM.typical, contactRadiusM.high)],
  ]);
  const source = `H. B. Dwight 1936, rod of the buried depth and contact radius of "${row.id}"`;
  return estimate(typical, range, '1/m', source, {
    basis: 'derived',
    memory: buriedM.fromMemory || contactRadiusM.fromMemory,
  });
}
