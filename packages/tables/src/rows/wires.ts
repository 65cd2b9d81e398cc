import { derive, estimate, feet, handbook, practice, standard, years } from '../cell.js';
import type { Estimate } from '../estimate.js';
import type { WireRow } from '../schema.js';
import { awgDiameterM, steelWireGauges } from './gauges.js';
import {
  aluminium,
  aluminiumCoatResistivity,
  copper,
  highTensileSteel,
  type Metal,
  mildSteel,
  zincResistivity,
} from './metals.js';
import { polyWires } from './polyWires.js';

type Coating = NonNullable<WireRow['coating']>;

/** Thickness from the least mass that a standard asks for; makers put on some more. */
const coat = (metal: Coating['metal'], leastKgPerM2: number, source: string): Coating => {
  const least = leastKgPerM2 / (metal === 'zinc' ? 7140 : 2700);
  return {
    metal,
    thicknessM: estimate(
      least * 1.15,
      [least, least * 1.4],
      'm',
      `${source}, least mass over density; 15 % more as a rule, up to 40 %`,
      {
        basis: 'derived',
        memory: true,
      },
    ),
    resistivityOhmM: metal === 'zinc' ? zincResistivity : aluminiumCoatResistivity,
  };
};

const strength = {
  highTensile: handbook(1.31e9, [1.17e9, 1.45e9], 'Pa', '170 to 210 thousand psi, as high-tensile fence wire is sold'),
  mild: estimate(0.48e9, [0.41e9, 0.59e9], 'Pa', 'engineering estimate for soft wire'),
  aluminium: estimate(0.24e9, [0.16e9, 0.35e9], 'Pa', 'engineering estimate, hard-drawn to alloy'),
};

const breakingLoad = (diameterM: Estimate, pascals: Estimate): Estimate => {
  const area = (Math.PI / 4) * diameterM.typical ** 2;
  return derive(pascals, (pa) => Number((pa * area).toPrecision(3)), 'N', `strength times area; ${pascals.source}`);
};

interface Solid {
  readonly id: string;
  readonly aliases: readonly string[];
  readonly about: string;
  readonly diameterM: Estimate;
  readonly coating: Coating | null;
  readonly serviceYears: Estimate;
}

const solid = (
  { id, aliases, about, diameterM, coating, serviceYears }: Solid,
  kind: WireRow['kind'],
  metal: Metal,
  pascals: Estimate | null,
  coilM: Estimate,
): WireRow => ({
  id,
  aliases: [...aliases],
  about,
  kind,
  diameterM,
  ...metal,
  coating,
  ohmsPerMetre: null,
  insulationVolts: null,
  breakingLoadN: pascals && breakingLoad(diameterM, pascals),
  coilM,
  serviceYears,
});

const highTensileCoil = practice(feet(4000), [feet(1000), feet(4000)], 'm');
const mildCoil = practice(feet(1320), [feet(660), feet(2640)], 'm');

const gaugesHighTensile = [10, 11, 12.5, 14, 15.5, 16];
const gaugeOf = (gauge: number) => steelWireGauges.find((entry) => entry.gauge === gauge)!;
const astm = (zincClass: 1 | 3) => `ASTM A641/A641M and A116, zinc class ${zincClass}`;

/** A bare gauge names the high-tensile wire where that is sold, soft wire elsewhere. */
function gaugeWire(gauge: number, steel: 'high-tensile' | 'mild steel', zincClass: 1 | 3): WireRow {
  const { diameterM, zincKgPerM2 } = gaugeOf(gauge);
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
      coating: coat('zinc', zincKgPerM2[zincClass], astm(zincClass)),
      serviceYears: zincClass === 3 ? years(30, 15, 50) : years(12, 5, 25),
    },
    'steel',
    tensile ? highTensileSteel : mildSteel,
    tensile ? strength.highTensile : strength.mild,
    tensile ? highTensileCoil : mildCoil,
  );
}

const metric = (mm: number): Estimate =>
  standard(mm / 1000, [(mm - 0.05) / 1000, (mm + 0.05) / 1000], 'm', 'metric wire sizes, tolerance as EN 10218-2');

/** Least zinc of EN 10244-2 class A, g/m², by diameter in millimetres; from memory. */
const classA: Readonly<Record<string, number>> = { 1.6: 195, 2: 215, 2.5: 245, 2.8: 255, 3.15: 255, 4: 275 };

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
      coating: coat('zinc', classA[mm]! / 1000, 'EN 10244-2 class A'),
      serviceYears: years(30, 15, 50),
    },
    'steel',
    tensile ? highTensileSteel : mildSteel,
    tensile ? strength.highTensile : strength.mild,
    practice(625, [200, 1000], 'm'),
  );
}

const aluminiumCoated = (size: string, diameterM: Estimate): WireRow =>
  solid(
    {
      id: `${size} aluminium-coated`,
      aliases: [`${size} aluminium-coated steel`, `${size} aluminium-coated high-tensile`],
      about: `${size} high-tensile steel wire with a dipped coat of aluminium.`,
      diameterM,
      coating: coat('aluminium', 0.092, 'ASTM A809, about 0.30 oz/ft² of aluminium'),
      serviceYears: years(35, 20, 60),
    },
    'steel',
    highTensileSteel,
    strength.highTensile,
    highTensileCoil,
  );

const aluminiumWire = (size: string, diameterM: Estimate): WireRow =>
  solid(
    {
      id: `${size} aluminium`,
      aliases: [`${size} aluminium wire`],
      about: `${size} solid aluminium wire: light and soft, and it carries the pulse far better than steel.`,
      diameterM,
      coating: null,
      serviceYears: years(30, 15, 50),
    },
    'aluminium',
    aluminium,
    strength.aluminium,
    practice(feet(1320), [feet(660), feet(4000)], 'm'),
  );

const fenceInsulation = practice(20e3, [10e3, 20e3], 'V');
const buildingInsulation = standard(600, null, 'V', 'building wire of the usual 600 V rating');

/** Insulated cable; the diameter is the conductor's. */
const cable = (
  id: string,
  aliases: readonly string[],
  about: string,
  diameterM: Estimate,
  metal: Metal,
  coating: Coating | null,
  insulationVolts = fenceInsulation,
): WireRow => ({
  ...solid(
    { id, aliases, about, diameterM, coating, serviceYears: years(20, 10, 30) },
    'cable',
    metal,
    null,
    practice(feet(165), [feet(50), feet(330)], 'm'),
  ),
  insulationVolts,
});

const steelCable = (gauge: number, aliases: readonly string[] = []): WireRow =>
  cable(
    `${gauge} ga insulated cable`,
    [`${gauge} ga lead-out cable`, `${gauge} ga under-gate cable`, ...aliases],
    `${gauge} gauge galvanized steel in fence-rated insulation, for lead-outs and under gates.`,
    gaugeOf(gauge).diameterM,
    mildSteel,
    coat('zinc', gaugeOf(gauge).zincKgPerM2[1], astm(1)),
  );

const metricCable = (mm: number): WireRow =>
  cable(
    `${mm} mm insulated cable`,
    [`${mm} mm lead-out cable`, `${mm} mm under-gate cable`],
    `${mm} mm galvanized steel in fence-rated insulation, for lead-outs and under gates.`,
    metric(mm),
    mildSteel,
    coat('zinc', classA[mm]! / 1000, 'EN 10244-2 class A'),
  );

const awg = (gauge: number): Estimate =>
  estimate(awgDiameterM(gauge), null, 'm', 'American Wire Gauge, ASTM B258', { basis: 'standard', memory: true });

const copperCable = (gauge: number): WireRow =>
  cable(
    `${gauge} awg copper cable`,
    [`${gauge} awg`, `${gauge} awg copper`, `${gauge} awg copper lead-out`],
    `${gauge} AWG copper in fence-rated insulation, for lead-outs.`,
    awg(gauge),
    copper,
    null,
  );

/** Fence wire, poly conductors and insulated cable. */
export const wires: WireRow[] = [
  ...gaugesHighTensile.map((gauge) => gaugeWire(gauge, 'high-tensile', 3)),
  ...[12.5, 14, 16].map((gauge) => gaugeWire(gauge, 'high-tensile', 1)),
  ...[8, 9, 10, 11, 12, 12.5, 13, 14, 15, 15.5, 16, 17].map((gauge) => gaugeWire(gauge, 'mild steel', 1)),
  ...[9, 11, 12.5, 14, 17].map((gauge) => gaugeWire(gauge, 'mild steel', 3)),
  ...[1.6, 2, 2.5, 2.8].map((mm) => metricWire(mm, 'high-tensile', true)),
  ...[1.6, 2, 2.5].map((mm) => metricWire(mm, 'mild steel', false)),
  ...[3.15, 4].map((mm) => metricWire(mm, 'mild steel', true)),
  ...[12.5, 14].map((gauge) => aluminiumCoated(`${gauge} ga`, gaugeOf(gauge).diameterM)),
  aluminiumCoated('2.5 mm', metric(2.5)),
  ...[9, 12.5, 14].map((gauge) => aluminiumWire(`${gauge} ga`, gaugeOf(gauge).diameterM)),
  aluminiumWire('2.5 mm', metric(2.5)),
  ...polyWires,
  steelCable(12.5, ['insulated cable', 'lead-out cable', 'under-gate cable']),
  ...[10, 14, 16].map((gauge) => steelCable(gauge)),
  ...[1.6, 2.5].map(metricCable),
  cable(
    '12.5 ga aluminium cable',
    ['12.5 ga aluminium lead-out cable', '12.5 ga aluminium under-gate cable'],
    '12.5 gauge aluminium in fence-rated insulation, for long lead-outs.',
    gaugeOf(12.5).diameterM,
    aluminium,
    null,
  ),
  ...[10, 12, 14].map(copperCable),
  cable(
    '12 awg building cable',
    ['building cable', 'house cable'],
    '12 AWG copper building wire: its 600 V insulation fails under fence volts.',
    awg(12),
    copper,
    null,
    buildingInsulation,
  ),
];
