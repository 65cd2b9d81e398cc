import { derive, estimate } from '../cell.js';
import type { Estimate } from '../estimate.js';
import { cylinderFormFactor } from '../physics/form-factor.js';
import type { InsulatorRow } from '../schema.js';

type Material = InsulatorRow['material'];

/** What one insulator has of its own. */
export interface Insulator {
  readonly id: string;
  readonly aliases: readonly string[];
  readonly about: string;
  readonly place: InsulatorRow['place'];
  readonly material: Exclude<Material, 'metal'>;
  readonly posts: readonly string[];
  /** Leakage path and the body's diameter, millimetres. */
  readonly path: number;
  readonly body: number;
  /** What the touch on one side, or paths side by side, make of the plain cylinder. */
  readonly spread: readonly [typical: number, low: number, high: number];
  readonly serviceYears: Estimate;
}

const estimateOf = (typical: number, low: number, high: number, why: string): Estimate =>
  estimate(typical, [low, high], '1', `engineering estimate: ${why}`);

/** How much more film than a new one a weathered surface carries. */
const weathering: Readonly<Record<Exclude<Material, 'metal'>, Estimate>> = {
  'dense plastic': estimateOf(1, 1, 2, 'dense plastic stays smooth in sunlight'),
  'cheap plastic': estimateOf(3, 1.5, 10, 'low-density plastic chalks and crazes in sunlight, and dirt holds'),
  porcelain: estimateOf(1, 1, 1.2, 'a vitrified glaze stays smooth'),
  'glazed ceramic': estimateOf(1.5, 1, 3, 'a soft glaze crazes'),
  'fibreglass clip': estimateOf(2, 1, 5, 'fibres bloom from a weathered rod'),
};

const crackedCeramic = estimate(
  100e3,
  [10e3, 1e6],
  'Ω',
  'engineering estimate; that a porous body soaks up water through a cracked glaze is common practice',
);
const crackedCheapPlastic = estimate(
  2e6,
  [200e3, 20e6],
  'Ω',
  'engineering estimate: dirt and water in a crack cut the path short; the plastic itself does not conduct',
);

const crackedBody = (material: Material): Estimate | null =>
  material === 'glazed ceramic' ? crackedCeramic : material === 'cheap plastic' ? crackedCheapPlastic : null;

/** A row for one insulator, its form factor worked out from path and body. */
export function insulator(row: Insulator): InsulatorRow {
  const plain = cylinderFormFactor(row.path, row.body);
  const [typical, low, high] = row.spread;
  const spread = estimateOf(typical, low, high, 'spread of the current');
  const path = `IEC 60507 form factor of a ${row.path} mm path on a ${row.body} mm body`;
  return {
    id: row.id,
    aliases: [...row.aliases],
    about: row.about,
    place: row.place,
    material: row.material,
    posts: [...row.posts],
    formFactor: derive(
      spread,
      (by) => Number((plain * by).toPrecision(2)),
      '1',
      `${path}, times ${low} to ${high} for how the current spreads (estimate)`,
    ),
    weatheredFilmFactor: weathering[row.material],
    crackedBodyOhms: crackedBody(row.material),
    contactOhms: null,
    serviceYears: row.serviceYears,
  };
}
