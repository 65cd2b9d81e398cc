import { rodArray, rodResistance } from '@postvolt/tables';
import { against } from './support/accuracy.js';

const check = against(import.meta.url, {
  title: 'H. B. Dwight 1936: calculation of resistances to ground (reprinted in IEEE Std 142)',
  about:
    'One rod: R = ρ/(2πL)·(ln(4L/a) − 1). Two rods: a series in s/L where they stand closer than their length, and one in ' +
    'L/s where they stand further apart. The values are those of the 5/8 in rod in soil of 100 Ω·m. The average potential ' +
    "method, ours, takes the mean of one rod's potential along the other exactly, where Dwight's two-rod formulas are " +
    'series of it.',
  basis: 'memory',
});

const ft = 0.3048;
const diameterM = 0.015875;
const place = 'Half a unit of the last place worked out.';

for (const [feet, ohms] of [
  [6, 50.7],
  [8, 39.9],
  [10, 33.09],
] as const) {
  check({
    quantity: `one rod of ${feet} ft`,
    unit: 'Ω',
    theirs: ohms,
    ours: () => rodResistance(100, feet * ft, diameterM),
    tolerance: { absolute: 0.005 },
    reason: place,
  });
}

const line = (count: number, feet: number, spacingFt: number) =>
  100 * rodArray({ count, lengthM: feet * ft, diameterM, spacingM: spacingFt * ft, layout: 'line' }).ohmsPerOhmM;

check({
  quantity: 'two rods of 10 ft, 10 ft apart (series for s < L, at its end)',
  unit: 'Ω',
  theirs: 18.7,
  ours: () => line(2, 10, 10),
  tolerance: { absolute: 0.005 },
  reason: place,
});

/** ρ/(4πL)·(ln(4L/a) + ln(4L/s) − 2 + s/2L − s²/16L² + s⁴/512L⁴), of 100 Ω·m. */
const near = (L: number, s: number) =>
  (100 / (4 * Math.PI * L)) *
  (Math.log((8 * L) / diameterM) +
    Math.log((4 * L) / s) -
    2 +
    s / (2 * L) -
    s ** 2 / (16 * L ** 2) +
    s ** 4 / (512 * L ** 4));

/** ρ/(4πL)·(ln(4L/a) − 1) + ρ/(4πs)·(1 − L²/3s² + 2L⁴/5s⁴), of 100 Ω·m. */
const far = (L: number, s: number) =>
  (100 / (4 * Math.PI * L)) * (Math.log((8 * L) / diameterM) - 1) +
  (100 / (4 * Math.PI * s)) * (1 - L ** 2 / (3 * s ** 2) + (2 * L ** 4) / (5 * s ** 4));

for (const spacingFt of [1, 3, 6]) {
  check({
    quantity: `two rods of 8 ft, ${spacingFt} ft apart (series for s < L)`,
    unit: 'Ω',
    theirs: () => near(8 * ft, spacingFt * ft),
    ours: () => line(2, 8, spacingFt),
    tolerance: { relative: 1e-3 },
    reason: 'The series stops after the fourth power of s/L; the next is below 0.1 % up to s = L.',
  });
}
for (const spacingFt of [24, 40]) {
  check({
    quantity: `two rods of 8 ft, ${spacingFt} ft apart (series for s > L)`,
    unit: 'Ω',
    theirs: () => far(8 * ft, spacingFt * ft),
    ours: () => line(2, 8, spacingFt),
    tolerance: { relative: 1e-3 },
    reason: 'The series stops after the fourth power of L/s; from three lengths on the rest is below 0.1 %.',
  });
}

for (const [count, ohms] of [
  [3, 13.48],
  [4, 10.69],
  [8, 6.114],
] as const) {
  check({
    quantity: `${count} rods of 10 ft in a line, 10 ft apart (average potential method, worked out apart)`,
    unit: 'Ω',
    theirs: ohms,
    ours: () => line(count, 10, 10),
    tolerance: { relative: 5e-4 },
    reason: 'The choice of self term moves these values by 0.02 to 0.04 %.',
  });
}
