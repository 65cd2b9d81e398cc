import type { EnergizerRow } from '@postvolt/tables';
import type { SourceCurve } from '../../engine/source-curve.js';
import type { Layout } from '../../network/layout.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import { solveFence } from '../../result/solved-fence.js';
import { hotPosts } from '../spread/hot-posts.js';
import { groundSiemensOf } from './ground-element.js';
import { curveOf } from './output-curve.js';
import { postOf, type Remainder } from './remainder.js';
import { remainderOf } from './remainder-of.js';
import type { ConditionSupply } from './result.js';

/** A plan's fence in one condition, to be asked about any energizer and any ground system. */
export class FenceWithoutSupply {
  readonly condition: ResolvedCondition;
  readonly remainder: Remainder;
  /** The plan's energizer, derated as it is in the condition, and the generic classes in its place. */
  readonly curve: SourceCurve;
  readonly classCurves: readonly SourceCurve[];
  /** The plan's ground system. */
  readonly groundSiemens: number;
  readonly #targetVolts: number;

  constructor(plan: ResolvedPlan, condition: ResolvedCondition, layout: Layout, classes: readonly EnergizerRow[]) {
    const solved = solveFence(plan, condition, layout);
    this.condition = condition;
    this.remainder = remainderOf(solved, hotPosts(solved));
    this.curve = curveOf(plan.energizer, condition);
    this.classCurves = classes.map(({ loads }) => curveOf(plan.energizer, condition, loads));
    this.groundSiemens = groundSiemensOf(solved);
    this.#targetVolts = plan.target.volts;
  }

  /** Whether the weakest post has its target volts. */
  holds(groundSiemens: number, curve: SourceCurve): boolean {
    return !this.remainder.hot.anyDead && this.remainder.lowest(groundSiemens, curve).volts >= this.#targetVolts;
  }

  /** The least factor on the plan's own curve; null where a fault cuts posts off, or no output does. */
  leastFactor(groundSiemens: number): number | null {
    if (this.remainder.hot.anyDead) return null;
    return this.remainder.leastFactor(groundSiemens, this.curve, this.#targetVolts);
  }

  /** What the condition asks for on the plan's ground system; `labelVolts` are those of the plan's energizer at 500 Ω. */
  asIs(labelVolts: number): ConditionSupply {
    const { hot } = this.remainder;
    const { volts, entry } = this.remainder.lowest(this.groundSiemens, this.curve);
    const factor = this.leastFactor(this.groundSiemens);
    return {
      id: this.condition.id,
      name: this.condition.name,
      groundOhms: 1 / this.groundSiemens,
      weakestVolts: volts,
      weakestPost: postOf(hot, entry).id,
      leastFactor: factor,
      leastVoltsAt500: factor === null ? null : factor * labelVolts,
      cutOff: hot.anyDead,
    };
  }
}
