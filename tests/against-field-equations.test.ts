import { findRow, internalImpedance, standardTables, wireOhmsPerMetre } from '@postvolt/tables';
import { against } from './support/accuracy.js';
import { twoLayerImpedance } from './support/two-layer-wire.js';

const check = against(import.meta.url, {
  title: "Maxwell's equations in a coated wire, integrated step by step",
  about:
    "The field in a round core and in the tube round it, from the axis outwards by Runge-Kutta's rule: skin effect in both " +
    'metals and the flux in the tube, both of which the tables leave out of the tube. Shows what treating the coating as a ' +
    'direct-current conductor costs.',
  basis: 'reckoned',
});

const steel = { radiusM: 0.0012573, resistivityOhmM: 0.18e-6, relativePermeability: 100 };
check({
  quantity: 'bare 0.099 in steel, µr 100, at 5 kHz',
  unit: 'Ω/km',
  theirs: () =>
    1000 *
    twoLayerImpedance(
      {
        coreRadiusM: steel.radiusM,
        outerRadiusM: steel.radiusM,
        coreOhmM: steel.resistivityOhmM,
        tubeOhmM: 1,
        corePermeability: 100,
      },
      5000,
    ).re,
  ours: () => 1000 * internalImpedance(steel, 5000).re,
  tolerance: { relative: 1e-6 },
  reason: 'The rule takes 4000 steps from the axis, where its first step is only of second order.',
});

for (const id of [
  '12.5 ga high-tensile',
  '16 ga high-tensile class 1',
  '12.5 ga aluminium-coated',
  '9 ga mild steel class 3',
]) {
  const row = findRow(standardTables, 'wires', id)!;
  for (const hz of [2500, 5000, 10_000]) {
    check({
      quantity: `${id}, as tabled, at ${hz / 1000} kHz`,
      unit: 'Ω/km',
      theirs: () => {
        const outerRadiusM = row.diameterM!.typical / 2;
        return (
          1000 *
          twoLayerImpedance(
            {
              coreRadiusM: outerRadiusM - row.coating!.thicknessM.typical,
              outerRadiusM,
              coreOhmM: row.resistivityOhmM!.typical,
              tubeOhmM: row.coating!.resistivityOhmM.typical,
              corePermeability: row.relativePermeability!.typical,
            },
            hz,
          ).re
        );
      },
      ours: () => 1000 * wireOhmsPerMetre(row, { frequencyHz: hz }).typical,
      tolerance: { relative: 0.01 },
      reason:
        "The tube's own reactance, ωµ₀ × thickness / 2πa, is some 0.3 Ω/km beside 100 Ω/km of core; coating data are no better than 15 %.",
    });
  }
}
