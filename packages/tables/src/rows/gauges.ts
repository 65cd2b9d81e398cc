import { inches, standard } from '../cell.js';
import type { Estimate } from '../estimate.js';

const source = 'United States Steel Wire Gauge, tolerance as ASTM A641/A641M';

/** Inches, and least zinc in ounces a square foot for classes 1 and 3, by Steel Wire Gauge number; from memory. */
const printed: readonly (readonly [gauge: number, inches: number, class1: number, class3: number])[] = [
  [8, 0.162, 0.4, 0.8],
  [9, 0.1483, 0.4, 0.8],
  [10, 0.135, 0.3, 0.8],
  [11, 0.1205, 0.3, 0.8],
  [12, 0.1055, 0.3, 0.8],
  [12.5, 0.099, 0.28, 0.8],
  [13, 0.0915, 0.28, 0.7],
  [14, 0.08, 0.25, 0.6],
  [15, 0.072, 0.2, 0.55],
  [15.5, 0.067, 0.2, 0.55],
  [16, 0.0625, 0.15, 0.5],
  [17, 0.054, 0.15, 0.45],
];

/** A steel wire gauge: its diameter and the zinc that ASTM A641/A641M and A116 ask of classes 1 and 3, kg/m². */
export interface SteelWireGauge {
  readonly gauge: number;
  readonly diameterM: Estimate;
  readonly zincKgPerM2: { readonly 1: number; readonly 3: number };
}

const kgPerM2 = 0.3051517;

/** Steel Wire Gauge numbers of fence wire, thickest first. */
export const steelWireGauges: readonly SteelWireGauge[] = printed.map(([gauge, inch, class1, class3]) => {
  const tolerance = inch > 0.076 ? 0.003 : 0.002;
  return {
    gauge,
    diameterM: standard(inches(inch), [inches(inch - tolerance), inches(inch + tolerance)], 'm', source),
    zincKgPerM2: { 1: class1 * kgPerM2, 3: class3 * kgPerM2 },
  };
});

/**
 * Diameter of an American Wire Gauge size, metres: 0.005 in × 92^((36−n)/39).
 *
 * Copper wire is sold by it; fence wire is not. Source: ASTM B258.
 */
export const awgDiameterM = (gauge: number): number => inches(0.005 * 92 ** ((36 - gauge) / 39));
