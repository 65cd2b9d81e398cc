import { copper, findRow, roundWireDcOhmsPerMetre, standardTables, wireDcOhmsPerMetre } from '@postvolt/tables';
import { against } from './support/accuracy.js';

const check = against(import.meta.url, {
  title: 'IEC 60028: resistance of copper',
  about:
    'A wire of annealed copper, 1 m long and of 1 mm², has 1/58 Ω at 20 °C, and 0.00393 of it more with every kelvin.',
  basis: 'memory',
});

const square = Math.sqrt(1e-6 / Math.PI);
check({
  quantity: 'a wire of 1 m and 1 mm² at 20 °C',
  unit: 'Ω',
  theirs: 1 / 58,
  ours: () => roundWireDcOhmsPerMetre({ radiusM: square, resistivityOhmM: copper.resistivityOhmM.typical }),
  tolerance: { relative: 3e-5 },
  reason: 'The resistivity of the tables is rounded to five figures: 0.017241 µΩ·m.',
});
const cable = findRow(standardTables, 'wires', '12 AWG copper cable')!;
for (const temperatureC of [-20, 50]) {
  check({
    quantity: `copper cable at ${temperatureC} °C against 20 °C`,
    unit: '1',
    theirs: 1 + 0.00393 * (temperatureC - 20),
    ours: () => wireDcOhmsPerMetre(cable, { temperatureC }).typical / wireDcOhmsPerMetre(cable).typical,
    tolerance: { absolute: 1e-9 },
    reason: 'Table values are kept to twelve figures.',
  });
}
