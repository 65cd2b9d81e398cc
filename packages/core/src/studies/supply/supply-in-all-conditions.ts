import type { EnergizerRow } from '@postvolt/tables';
import type { SourceCurve } from '../../engine/source-curve.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import type { FenceWithoutSupply } from './fence-without-supply.js';
import { voltsAt500 } from './output-curve.js';
import type { ClassChoice, LeastOutput } from './result.js';
import { deepOhmM, type RodArrays } from './rods.js';

/** Siemens of a ground system in a condition. */
export type GroundOf = (fence: FenceWithoutSupply) => number;
type CurveOf = (fence: FenceWithoutSupply) => SourceCurve;

/** The ground system that no rods can better. */
export const perfectGround: GroundOf = () => Number.POSITIVE_INFINITY;
/** The plan's own ground system, and its own energizer. */
export const ownGround: GroundOf = ({ groundSiemens }) => groundSiemens;
const ownCurve: CurveOf = ({ curve }) => curve;

/** All conditions of a plan together: an output or a number of rods is enough only if it is enough in each. */
export class SupplyInAllConditions {
  readonly fences: readonly FenceWithoutSupply[];
  readonly mostRods: number;
  /** Volts of the plan's energizer at 500 Ω. */
  readonly labelVolts: number;
  readonly #plan: ResolvedPlan;
  readonly #arrays: RodArrays;
  readonly #classes: readonly EnergizerRow[];

  /** `classes` are the generic ones, smallest first. */
  constructor(
    plan: ResolvedPlan,
    fences: readonly FenceWithoutSupply[],
    classes: readonly EnergizerRow[],
    arrays: RodArrays,
    mostRods: number,
  ) {
    this.fences = fences;
    this.mostRods = mostRods;
    this.labelVolts = voltsAt500(plan.energizer.loads);
    this.#plan = plan;
    this.#arrays = arrays;
    this.#classes = classes;
  }

  /** So many rods in the plan's soil. */
  rods(count: number): GroundOf {
    return ({ condition }) =>
      1 / (this.#arrays.of(count).ohmsPerOhmM * deepOhmM(this.#plan, this.#plan.soil, condition));
  }

  holds(groundOf: GroundOf, curveOf: CurveOf = ownCurve): boolean {
    return this.fences.every((fence) => fence.holds(groundOf(fence), curveOf(fence)));
  }

  /** Fewest rods with which a curve holds; null where even the most are too few. */
  fewestRods(curveOf: CurveOf = ownCurve): number | null {
    return firstCount(this.mostRods, (count) => this.holds(this.rods(count), curveOf));
  }

  /** The least output on the plan's own curve, and the smallest class that holds. */
  leastOutput(groundOf: GroundOf): LeastOutput {
    const factors = this.fences.map((fence) => fence.leastFactor(groundOf(fence)));
    // No output at all asks for more than any.
    const size = (factor: number | null) => factor ?? Number.POSITIVE_INFINITY;
    const most = factors.reduce<number>((best, own, i) => (size(own) > size(factors[best]!) ? i : best), 0);
    const factor = factors[most]!;
    const volts = factor === null ? null : factor * this.labelVolts;
    const known = Math.max(...this.#classes.map(({ loads }) => voltsAt500(loads, 'high')));
    return {
      factor,
      voltsAt500: volts,
      decides: this.fences[most]!.condition.id,
      class: this.#classes.find((_, c) => this.holds(groundOf, ({ classCurves }) => classCurves[c]!))?.id ?? null,
      beyondTables: volts !== null && volts > known,
    };
  }

  /** What a generic class does in place of the plan's energizer. */
  classChoice(c: number): ClassChoice {
    const { id, joules, loads } = this.#classes[c]!;
    const curveOf: CurveOf = ({ classCurves }) => classCurves[c]!;
    return {
      id,
      joules,
      voltsAt500: { low: voltsAt500(loads, 'low'), typical: voltsAt500(loads), high: voltsAt500(loads, 'high') },
      holds: this.holds(ownGround, curveOf),
      leastRods: this.fewestRods(curveOf),
    };
  }
}

/** The first of 1, 2, 3 ... that does; null where none up to `most` does. */
export function firstCount(most: number, does: (count: number) => boolean): number | null {
  for (let count = 1; count <= most; count++) if (does(count)) return count;
  return null;
}
