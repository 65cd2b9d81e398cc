import { feet, practice, standard, years } from '../cell.js';
import type { Estimate } from '../estimate.js';
import type { WireRow } from '../schema.js';
import { steelWireGauges } from './gauges.js';
import { highTensileSteel, mildSteel } from './metals.js';
import { type Coating, coat, solid, strength } from './solid-wire.js';

/** Length of a coil of high-tensile wire. */
export const highTensileCoil = practice(feet(4000), [feet(1000), feet(4000)], 'm');
const mildCoil = practice(feet(1320), [feet(660), feet(2640)], 'm');

const gaugesHighTensile = [10, 11, 12.5, 14, 15.5, 16];
/** A listed gauge by its number. */
export const gaugeOf = (gauge: number) => steelWireGauges.find((entry) => entry.gauge === gauge)!;
/** Zinc of a gauge's class 1 or 3. */
export const zincOf = (gauge: number, zincClass: 1 | 3): Coating =>
  coat('zinc', gaugeOf(gauge).zincKgPerM2[zincClass], `ASTM A641/A641M and A116, zinc class ${zincClass}`);

/** A bare gauge names the high-tensile wire where that is sold, soft wire elsewhere. */
function gaugeWire(gauge: number, steel: 'high-tensile' | 'mild steel', zincClass: 1 | 3): WireRow {
  const { diameterM } = gaugeOf(gauge);
  const tensile = steel === 'high-tensile';
  const usual = zincClass === (tensile ? 3 : 1);
  const full = `${gauge} ga ${steel} class ${zincClass}`;
  const short = tensile ? `${gauge} ga ht` : `${gauge} ga soft`;
  const aliases = usual ? [full, short] : [`${short} class ${zincClass}`];
  if (usual && tensile === gaugesHighTensile.includes(gauge)) aliases.push(`${gauge} ga`);
  return solid(
    {
      id: usual ? `${gauge} ga ${steel}` : full,
      aliases,
      about: `${gauge} gauge ${tensile ? 'high-tensile' : 'soft'} steel wire, galvanized to class ${zincClass}.`,
      diameterM,
      coating: zincOf(gauge, zincClass),
      serviceYears: zincClass === 3 ? years(30, 15, 50) : years(12, 5, 25),
    },
    'steel',
    tensile ? highTensileSteel : mildSteel,
    tensile ? strength.highTensile : strength.mild,
    tensile ? highTensileCoil : mildCoil,
  );
}

/** Diameter of a metric size. */
export const metric = (mm: number): Estimate =>
  standard(mm / 1000, [(mm - 0.05) / 1000, (mm + 0.05) / 1000], 'm', 'metric wire sizes, tolerance as EN 10218-2');

/** Least zinc of EN 10244-2 class A, g/m², by diameter in millimetres; from memory. */
const classA: Readonly<Record<string, number>> = { 1.6: 195, 2: 215, 2.5: 245, 2.8: 255, 3.15: 255, 4: 275 };

/** Zinc of EN 10244-2 class A on a metric size. */
export const zincClassA = (mm: number): Coating => coat('zinc', classA[mm]! / 1000, 'EN 10244-2 class A');

/** "2.5 mm", and "2.0 mm" beside "2 mm". */
const millimetres = (mm: number): string[] => (Number.isInteger(mm) ? [`${mm} mm`, `${mm}.0 mm`] : [`${mm} mm`]);

function metricWire(mm: number, steel: 'high-tensile' | 'mild steel', bare: boolean): WireRow {
  const tensile = steel === 'high-tensile';
  const [size = '', ...others] = millimetres(mm);
  return solid(
    {
      id: `${size} ${steel}`,
      aliases: [...others.map((s) => `${s} ${steel}`), ...(bare ? [size, ...others] : [])],
      about: `${mm} mm ${tensile ? 'high-tensile' : 'soft'} steel wire, heavily galvanized.`,
      diameterM: metric(mm),
      coating: zincClassA(mm),
      serviceYears: years(30, 15, 50),
    },
    'steel',
    tensile ? highTensileSteel : mildSteel,
    tensile ? strength.highTensile : strength.mild,
    practice(625, [200, 1000], 'm'),
  );
}

/** Galvanized fence wire, high-tensile and soft. */
export const steelWires: WireRow[] = [
  ...gaugesHighTensile.map((gauge) => gaugeWire(gauge, 'high-tensile', 3)),
  ...[12.5, 14, 16].map((gauge) => gaugeWire(gauge, 'high-tensile', 1)),
  ...[8, 9, 10, 11, 12, 12.5, 13, 14, 15, 15.5, 16, 17].map((gauge) => gaugeWire(gauge, 'mild steel', 1)),
  ...[9, 11, 12.5, 14, 17].map((gauge) => gaugeWire(gauge, 'mild steel', 3)),
  ...[1.6, 2, 2.5, 2.8].map((mm) => metricWire(mm, 'high-tensile', true)),
  ...[1.6, 2, 2.5].map((mm) => metricWire(mm, 'mild steel', false)),
  ...[3.15, 4].map((mm) => metricWire(mm, 'mild steel', true)),
];
