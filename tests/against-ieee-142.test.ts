import { rodArray, rodFactors, rodResistance } from '@postvolt/tables';
import { against } from './support/accuracy.js';

const check = against(import.meta.url, {
  title: 'IEEE Std 142: multiplying factors for several rods',
  about:
    'The factor by which n rods, one length apart, have more than the nth part of the resistance of one. The printed ' +
    'factors are round and on the safe side, so they bound ours from above; a line comes out 3 to 17 % lower, a ring at ' +
    'most 9 %.',
  basis: 'memory',
});

const ft = 0.3048;
const one = rodResistance(1, 10 * ft, 0.015875);
const factor = (count: number, layout: 'line' | 'ring') =>
  (count * rodArray({ count, lengthM: 10 * ft, diameterM: 0.015875, spacingM: 10 * ft, layout }).ohmsPerOhmM) / one;

for (const [count, printed] of [
  [2, 1.16],
  [3, 1.29],
  [4, 1.36],
  [8, 1.68],
  [12, 1.8],
  [16, 1.92],
  [20, 2.0],
  [24, 2.16],
] as const) {
  check({
    quantity: `factor of ${count} rods in a line`,
    unit: '1',
    ours: () => factor(count, 'line'),
    tolerance: { within: [printed * 0.82, printed + 0.005] },
    reason:
      'A bound from above, within half a unit of its last place; a line lies up to 17 % lower, and a point for proportions.',
  });
  if (count > 2) {
    check({
      quantity: `factor of ${count} rods in a ring`,
      unit: '1',
      ours: () => factor(count, 'ring'),
      tolerance: { within: [printed * 0.9, printed + 0.005] },
      reason:
        'A bound from above, within half a unit of its last place; a ring lies up to 9 % lower, and a point for proportions.',
    });
  }
}
check({
  quantity: "the tables' own list of these factors, sum over the eight",
  unit: '1',
  theirs: 13.37,
  ours: () => rodFactors.reduce((sum, { factor: { typical } }) => sum + typical, 0),
  tolerance: { absolute: 1e-9 },
  reason: 'The same numbers.',
});
