import { type RodArray, rodArray, surfaceOhmsPerOhmM } from '@postvolt/tables';
import { calibrated, shiftsOf } from '../../network/calibrate.js';
import { defaults } from '../../plan/defaults.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import type { RodKind } from './result.js';

/** Distance of rods that nobody has placed: ten feet, common practice. */
const usualSpacingM = 3.048;

/** The plan's rods, the usual ones where its ground system was measured, with what is asked for in their place. */
export function rodKind(plan: ResolvedPlan, wanted: Partial<RodKind> = {}): RodKind {
  const { ground } = plan.energizer;
  const usual: RodKind = {
    lengthM: defaults.rodLengthM,
    diameterM: defaults.rodDiameterM,
    spacingM: usualSpacingM,
    layout: 'line',
  };
  const { lengthM, diameterM, spacingM, layout } = { ...(ground.kind === 'rods' ? ground : usual), ...wanted };
  return { lengthM, diameterM, spacingM, layout };
}

/** Arrays of 1, 2, 3 ... rods of a kind, each made once. */
export class RodArrays {
  readonly kind: RodKind;
  readonly #made = new Map<number, RodArray>();

  constructor(kind: RodKind) {
    this.kind = kind;
  }

  of(count: number): RodArray {
    const known = this.#made.get(count) ?? rodArray({ ...this.kind, count });
    this.#made.set(count, known);
    return known;
  }
}

/** Typical resistivity of a soil at rod depth in a condition, Ω·m, as readings have left it. */
export function deepOhmM(plan: ResolvedPlan, soil: string, condition: ResolvedCondition): number {
  const { deepOhmM: estimate } = plan.rows.soils[soil]!.states[condition.soil];
  const shift = shiftsOf(plan.calibration).get(`soil|${soil}`);
  return (shift === undefined ? estimate : calibrated(estimate, shift)).typical;
}

/**
 * Potential of the soil at a probe for each ampere and ohm-metre, 1/m: the probe stands straight away from the other rods,
 * so far from the last one.
 */
export function probeOhmsPerOhmM(array: RodArray, probeM: number): number {
  const { placesM } = array;
  const [x, y] = placesM.at(-1)!;
  const mean = (axis: 0 | 1) => placesM.reduce((sum, place) => sum + place[axis], 0) / placesM.length;
  const [dx, dy] = [x - mean(0), y - mean(1)];
  const away = Math.hypot(dx, dy);
  const [ux, uy] = away > 0 ? [dx / away, dy / away] : [1, 0];
  return surfaceOhmsPerOhmM(array, [x + ux * probeM, y + uy * probeM]);
}
