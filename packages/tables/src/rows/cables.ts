import { estimate, feet, practice, standard, years } from '../cell.js';
import type { Estimate } from '../estimate.js';
import type { WireRow } from '../schema.js';
import { awgDiameterM } from './gauges.js';
import { aluminium, copper, type Metal, mildSteel } from './metals.js';
import { type Coating, solid } from './solid-wire.js';
import { gaugeOf, metric, zincClassA, zincOf } from './steel-wires.js';

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
    zincOf(gauge, 1),
  );

const metricCable = (mm: number): WireRow =>
  cable(
    `${mm} mm insulated cable`,
    [`${mm} mm lead-out cable`, `${mm} mm under-gate cable`],
    `${mm} mm galvanized steel in fence-rated insulation, for lead-outs and under gates.`,
    metric(mm),
    mildSteel,
    zincClassA(mm),
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

/** Insulated cable for lead-outs and under gates. */
export const cables: WireRow[] = [
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
