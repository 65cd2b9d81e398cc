import { aluminium, copper, findRow, standardTables, wireDcOhmsPerMetre } from '@postvolt/tables';
import { against } from './support/accuracy.js';

const check = against(import.meta.url, {
  title: 'IEC 60889: hard-drawn aluminium wire',
  about:
    'Resistivity of 0.028264 µΩ·m at 20 °C, 61 % of the conductivity of annealed copper, and 0.00403 of it more with every ' +
    'kelvin. Alloy fence wire conducts less; the range of the tables has it.',
  basis: 'memory',
});

const wire = findRow(standardTables, 'wires', '2.5 mm aluminium')!;
check({
  quantity: 'aluminium wire of 2.5 mm at 20 °C',
  unit: 'Ω/km',
  theirs: (0.028264 / (Math.PI * 1.25 ** 2)) * 1000,
  ours: () => 1000 * wireDcOhmsPerMetre(wire).typical,
  tolerance: { relative: 1e-9 },
  reason: 'Table values are kept to twelve figures.',
});
check({
  quantity: 'conductivity as a part of that of annealed copper',
  unit: '1',
  theirs: 0.61,
  ours: () => copper.resistivityOhmM.typical / aluminium.resistivityOhmM.typical,
  tolerance: { absolute: 5e-5 },
  reason: 'Both resistivities are rounded to five figures.',
});
check({
  quantity: 'aluminium wire at −10 °C against 20 °C',
  unit: '1',
  theirs: 1 - 0.00403 * 30,
  ours: () => wireDcOhmsPerMetre(wire, { temperatureC: -10 }).typical / wireDcOhmsPerMetre(wire).typical,
  tolerance: { absolute: 1e-9 },
  reason: 'Table values are kept to twelve figures.',
});
