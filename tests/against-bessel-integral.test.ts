import { coatedWireOhmsPerMetre, internalImpedance, roundWireDcOhmsPerMetre, skinRatio } from '@postvolt/tables';
import { against } from './support/accuracy.js';
import { skinArgument, wireRatio } from './support/bessel.js';

const check = against(import.meta.url, {
  title: "Bessel's integral in 40-digit arithmetic",
  about:
    'The internal impedance of a round wire is (kρ/2πa)·J₀(ka)/J₁(ka), k = √(−jωµ/ρ) (any text on electromagnetic fields). ' +
    "Here both functions come from Bessel's integral, by the trapezoid rule in mathjs's 40-digit numbers, good to thirty. " +
    'A zinc tube of its direct-current conductance stands beside the complex impedance of the core.',
  basis: 'reckoned',
});

const double = 'A hundred roundings of a double.';

for (const x of [0.1, 1, 2.5, 4, 7, 12]) {
  for (const part of ['re', 'im'] as const) {
    check({
      quantity: `${part === 're' ? 'R' : 'X'}/R₀ at x = ${x}`,
      unit: '1',
      theirs: () => wireRatio(x)[part].toNumber(),
      ours: () => skinRatio(x)[part],
      tolerance: { relative: 2e-14 },
      reason: double,
    });
  }
}

const steel = { radiusM: 0.0012573, resistivityOhmM: 0.18e-6, relativePermeability: 100 };
for (const [hz, relativePermeability] of [
  [1000, 100],
  [2500, 100],
  [5000, 100],
  [5000, 300],
  [10_000, 100],
  [10_000, 1],
] as const) {
  const wire = { ...steel, relativePermeability };
  check({
    quantity: `R/R₀ of bare 0.099 in steel, 0.18 µΩ·m, µr ${relativePermeability}, at ${hz / 1000} kHz`,
    unit: '1',
    theirs: () => wireRatio(skinArgument(wire.radiusM, wire.resistivityOhmM, relativePermeability, hz)).re.toNumber(),
    ours: () => internalImpedance(wire, hz).re / roundWireDcOhmsPerMetre(wire),
    tolerance: { relative: 2e-14 },
    reason: double,
  });
}

const zinc = { thicknessM: 40e-6, resistivityOhmM: 0.059e-6 };

/** Ω/km of 0.099 in steel under 40 µm of zinc. */
function coated(hz: number): number {
  const a = steel.radiusM - zinc.thicknessM;
  const ratio = wireRatio(skinArgument(a, steel.resistivityOhmM, steel.relativePermeability, hz));
  const core = steel.resistivityOhmM / (Math.PI * a ** 2);
  const [re, im] = [core * ratio.re.toNumber(), core * ratio.im.toNumber()];
  const tube = (Math.PI * (steel.radiusM ** 2 - a ** 2)) / zinc.resistivityOhmM;
  const [g, b] = [tube + re / (re ** 2 + im ** 2), -im / (re ** 2 + im ** 2)];
  return (1000 * g) / (g ** 2 + b ** 2);
}

for (const hz of [1, 2500, 5000, 10_000]) {
  check({
    quantity: `0.099 in steel under 40 µm of zinc at ${hz === 1 ? '1 Hz' : `${hz / 1000} kHz`}`,
    unit: 'Ω/km',
    theirs: () => coated(hz),
    ours: () => 1000 * coatedWireOhmsPerMetre({ ...steel, diameterM: 2 * steel.radiusM, coating: zinc }, hz),
    tolerance: { relative: 1e-13 },
    reason: 'Some hundred roundings, and the difference of two radii that differ by a thirtieth.',
  });
}
