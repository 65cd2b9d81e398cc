import { estimate, independentRange } from '../cell.js';
import type { Estimate } from '../estimate.js';
import { nonNegative, positive } from '../guard.js';
import type { WireRow } from '../schema.js';
import { internalImpedance, type RoundWire } from './internal-impedance.js';
import { pulseFrequencyHz } from './pulse.js';

/** A round core with a tube of non-magnetic metal drawn or dipped over it. */
export interface CoatedWire {
  /** Over all, coating included. */
  readonly diameterM: number;
  readonly resistivityOhmM: number;
  readonly relativePermeability: number;
  /** Null for bare metal. */
  readonly coating: { readonly thicknessM: number; readonly resistivityOhmM: number } | null;
}

/**
 * Resistance of a coated wire to one frequency, ohms per metre.
 *
 * The tube's conductance stands beside the core's complex internal impedance; the real part of the two in parallel is
 * the resistance. The tube is thin against its own skin depth (zinc at 5 kHz: 1.7 mm), so it counts as direct current.
 *
 * @throws RangeError on a number out of range, or a coating as thick as the wire.
 */
export function coatedWireOhmsPerMetre(wire: CoatedWire, frequencyHz: number): number {
  const outer = positive('diameterM', wire.diameterM) / 2;
  const thickness = wire.coating ? nonNegative('coating.thicknessM', wire.coating.thicknessM) : 0;
  if (thickness >= outer) {
    throw new RangeError(`coating.thicknessM: found ${thickness}, expected less than half of ${wire.diameterM}`);
  }
  const core: RoundWire = {
    radiusM: outer - thickness,
    resistivityOhmM: wire.resistivityOhmM,
    relativePermeability: wire.relativePermeability,
  };
  const z = internalImpedance(core, frequencyHz);
  if (!wire.coating || thickness === 0) return z.re;
  const area = Math.PI * (outer * outer - core.radiusM * core.radiusM);
  const tube = area / positive('coating.resistivityOhmM', wire.coating.resistivityOhmM);
  const norm = z.re * z.re + z.im * z.im;
  const [g, b] = [tube + z.re / norm, -z.im / norm];
  return g / (g * g + b * b);
}

/** Temperature coefficients of resistivity of coatings at 20 °C, per kelvin; handbook values, from memory. */
const coatingCoefficient = { zinc: 0.0037, aluminium: 0.00403 } as const;

type End = 'low' | 'typical' | 'high';

/** The inputs of a wire's resistance, each uncertain by itself. */
type Input = 'diameter' | 'resistivity' | 'permeability' | 'temperatureCoefficient' | 'coating' | 'coatingResistivity';

const end = (e: Estimate | null, at: End, without: number) => (e ? e[at] : without);

/** The row's wire with one input at an end of its range and the others typical. */
function wireWith(row: WireRow, temperatureC: number, input: Input | null, at: End): CoatedWire {
  if (!row.diameterM || !row.resistivityOhmM) {
    throw new RangeError(`wire "${row.id}": expected ohms per metre, or a diameter and a resistivity`);
  }
  const of = (own: Input): End => (own === input ? at : 'typical');
  const warmer = temperatureC - 20;
  const heat = 1 + end(row.temperatureCoefficient, of('temperatureCoefficient'), 0) * warmer;
  return {
    diameterM: row.diameterM[of('diameter')],
    resistivityOhmM: row.resistivityOhmM[of('resistivity')] * heat,
    relativePermeability: end(row.relativePermeability, of('permeability'), 1),
    coating: row.coating && {
      thicknessM: row.coating.thicknessM[of('coating')],
      resistivityOhmM:
        row.coating.resistivityOhmM[of('coatingResistivity')] * (1 + coatingCoefficient[row.coating.metal] * warmer),
    },
  };
}

const inputs: readonly Input[] = [
  'diameter',
  'resistivity',
  'permeability',
  'temperatureCoefficient',
  'coating',
  'coatingResistivity',
];

/** How a wire is looked at. */
export interface WireOptions {
  /** Default: the usual pulse, `pulseFrequencyHz`. */
  readonly frequencyHz?: number;
  /** Default 20. */
  readonly temperatureC?: number;
}

/**
 * Resistance of a table's wire to the pulse, ohms per metre, without the earth's share.
 *
 * Its range is that of its inputs, diameter, metal and coating, taken as independent (see `independentRange`). A row with ohms per metre of its own gives them as they stand, whatever the frequency and temperature.
 *
 * @throws RangeError where the row has neither, or an option is out of range.
 */
export function wireOhmsPerMetre(row: WireRow, options: WireOptions = {}): Estimate {
  const { frequencyHz = pulseFrequencyHz, temperatureC = 20 } = options;
  nonNegative('frequencyHz', frequencyHz);
  if (!(temperatureC >= -80 && temperatureC <= 120)) {
    throw new RangeError(`temperatureC: found ${temperatureC}, expected -80 to 120`);
  }
  if (row.ohmsPerMetre) return row.ohmsPerMetre;
  const at = (input: Input | null, which: End) =>
    coatedWireOhmsPerMetre(wireWith(row, temperatureC, input, which), frequencyHz);
  const typical = at(null, 'typical');
  const range = independentRange(
    typical,
    inputs.map((input) => [at(input, 'low'), at(input, 'high')]),
  );
  const memory = [row.diameterM, row.resistivityOhmM, row.coating?.thicknessM].some((e) => e?.fromMemory);
  const source = `skin effect at ${frequencyHz} Hz and ${temperatureC} °C from the diameter, metal and coating of "${row.id}"`;
  return estimate(typical, range, 'Ω/m', source, { basis: 'derived', memory });
}

/** Direct-current resistance of a table's wire, ohms per metre. */
export const wireDcOhmsPerMetre = (row: WireRow, options: Omit<WireOptions, 'frequencyHz'> = {}): Estimate =>
  wireOhmsPerMetre(row, { ...options, frequencyHz: 0 });
