import { feetOhmsPerOhmM, findRow, footResistance, standardTables } from '@postvolt/tables';
import { against } from './support/accuracy.js';
import { discsOhms } from './support/cut-discs.js';

const check = against(import.meta.url, {
  title: 'IEEE Std 80: a foot on the soil',
  about:
    'A foot is a disc of radius b on the surface, R = ρ/(4b); a human foot counts as b = 0.08 m, or 3ρ in round figures. ' +
    'Four hooves lift each other; beside the values from memory, the four discs are cut into squares at one potential and ' +
    'solved here.',
  basis: 'memory',
});

check({
  quantity: 'a disc of 0.08 m on 100 Ω·m',
  unit: 'Ω',
  theirs: 312.5,
  ours: () => footResistance(100, 0.08),
  tolerance: { relative: 1e-12 },
  reason: 'The same formula, rounding apart.',
});
check({
  quantity: 'the same in round figures, 3ρ',
  unit: 'Ω',
  theirs: 300,
  ours: () => footResistance(100, 0.08),
  tolerance: { relative: 0.05 },
  reason: 'The standard rounds 3.1 to 3.',
});
const cow = { hoofRadiusM: 0.05, trackM: 0.4, lengthM: 1.2 };
check({
  quantity: 'four hooves of 0.05 m, far apart, per Ω·m',
  unit: '1/m',
  theirs: 1.25,
  ours: () => feetOhmsPerOhmM({ hoofRadiusM: 0.05, trackM: 1e6, lengthM: 1e6 }),
  tolerance: { relative: 1e-6 },
  reason: 'Feet a thousand kilometres apart still lift each other by one part in ten million.',
});
check({
  quantity: 'four hooves of a cow, cut into squares at one potential, per Ω·m',
  unit: '1/m',
  theirs: () => discsOhms(cow, 14),
  ours: () => feetOhmsPerOhmM(cow),
  tolerance: { relative: 0.02 },
  reason: 'Squares in place of a round edge; feet as points to each other, which at four diameters is good to 0.3 %.',
});
check({
  quantity: 'cattle of the tables, per Ω·m',
  unit: '1/m',
  ours: () => findRow(standardTables, 'animals', 'cattle')!.feetOhmsPerOhmM.typical,
  tolerance: { within: [1.4, 1.5] },
  reason: '1.25 for four feet apart, and the mutual terms of feet 0.3 to 0.5 m by 1 to 1.5 m apart.',
});
