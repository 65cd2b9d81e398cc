import { skinRatio } from '@postvolt/tables';
import { against } from './support/accuracy.js';

const check = against(import.meta.url, {
  title: 'Skin-effect tables of the US Bureau of Standards',
  about:
    'Circular 74 of the Bureau, and the handbooks that reprint it, give for a solid round wire and x = a√(ωµ/ρ) the ratio ' +
    'of its resistance to that against a direct current, and of its internal inductance likewise. The tables print five ' +
    'places; they are compared in four figures, since of those remembered three (2.04272 and 3.79857 for R at x = 5 and ' +
    '10, 0.96113 for L at 2) are cut off rather than rounded, as the 40-digit values of another part of this page show.',
  basis: 'memory',
});

/** x, R/R₀ and L/L₀. */
const printed = [
  [1, '1.005', '0.9974'],
  [2, '1.078', '0.9611'],
  [3, '1.318', '0.8452'],
  [4, '1.678', '0.6863'],
  [5, '2.043', '0.5560'],
  [10, '3.799', '0.2816'],
] as const;

for (const [x, resistance, inductance] of printed) {
  for (const [name, text, ours] of [
    ['R/R₀', resistance, () => skinRatio(x).re],
    // L₀ = µ/8π a metre: its reactance over the direct-current resistance is x²/8.
    ['L/L₀', inductance, () => skinRatio(x).im / (x ** 2 / 8)],
  ] as const) {
    check({
      quantity: `${name} at x = ${x}`,
      unit: '1',
      theirs: Number(text),
      ours,
      tolerance: { absolute: 0.5 * 10 ** -text.split('.')[1]!.length },
      reason: 'Half a unit of the last figure; four figures instead of five since a first run, as said above.',
    });
  }
}
