import { standard } from '../cell.js';
import type { Estimate } from '../estimate.js';

const source = 'IEEE Std 142, multiplying factors for several rods one length apart';

/**
 * Factors on R₁/n for n rods one length apart, as printed; from memory.
 *
 * An upper bound beside `rodArray`: a line comes out 3 to 17 % lower, a ring 0 to 9 %.
 */
export const rodFactors: readonly { readonly rods: number; readonly factor: Estimate }[] = (
  [
    [2, 1.16],
    [3, 1.29],
    [4, 1.36],
    [8, 1.68],
    [12, 1.8],
    [16, 1.92],
    [20, 2],
    [24, 2.16],
  ] as const
).map(([rods, factor]) => ({ rods, factor: standard(factor, null, '1', source) }));
