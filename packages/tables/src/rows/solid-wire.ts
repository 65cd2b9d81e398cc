import { derive, estimate, handbook } from '../cell.js';
import type { Estimate } from '../estimate.js';
import type { WireRow } from '../schema.js';
import { aluminiumCoatResistivity, type Metal, zincResistivity } from './metals.js';

/** Tube of another metal over a wire. */
export type Coating = NonNullable<WireRow['coating']>;

/** Thickness from the least mass that a standard asks for; makers put on some more. */
export const coat = (metal: Coating['metal'], leastKgPerM2: number, source: string): Coating => {
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

/** Tensile strength, Pa. */
export const strength = {
  highTensile: handbook(1.31e9, [1.17e9, 1.45e9], 'Pa', '170 to 210 thousand psi, as high-tensile fence wire is sold'),
  mild: estimate(0.48e9, [0.41e9, 0.59e9], 'Pa', 'engineering estimate for soft wire'),
  aluminium: estimate(0.24e9, [0.16e9, 0.35e9], 'Pa', 'engineering estimate, hard-drawn to alloy'),
};

const breakingLoad = (diameterM: Estimate, pascals: Estimate): Estimate => {
  const area = (Math.PI / 4) * diameterM.typical ** 2;
  return derive(pascals, (pa) => Number((pa * area).toPrecision(3)), 'N', `strength times area; ${pascals.source}`);
};

/** What one solid wire has of its own. */
export interface Solid {
  readonly id: string;
  readonly aliases: readonly string[];
  readonly about: string;
  readonly diameterM: Estimate;
  readonly coating: Coating | null;
  readonly serviceYears: Estimate;
}

/** A row for a solid round wire. */
export const solid = (
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
