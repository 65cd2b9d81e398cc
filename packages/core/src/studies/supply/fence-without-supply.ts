import type { EnergizerRow } from '@postvolt/tables';
import type { SourceCurve } from '../../engine/source-curve.js';
import { groundElement } from '../../fence/ground.js';
import { openFence } from '../../fence/open-fence.js';
import type { Layout } from '../../network/layout.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import { LinearTwoPort } from './linear-two-port.js';
import { curveOf } from './output-curve.js';
import type { ConditionSupply } from './result.js';
import { SparkingTwoPort } from './sparking-two-port.js';
import type { TwoPort } from './two-port.js';

/** A plan's fence in one condition, to be asked about any energizer and any ground system. */
export class FenceWithoutSupply {
  readonly condition: ResolvedCondition;
  readonly remainder: TwoPort;
  /** The plan's energizer, derated as it is in the condition, and the generic classes in its place. */
  readonly curve: SourceCurve;
  readonly classCurves: readonly SourceCurve[];
  /** The plan's ground system. */
  readonly groundSiemens: number;
  readonly #targetVolts: number;

  constructor(plan: ResolvedPlan, condition: ResolvedCondition, layout: Layout, classes: readonly EnergizerRow[]) {
    const fence = openFence(plan, condition, { layout });
    this.condition = condition;
    this.remainder = fence.circuit.network.gaps === undefined ? new LinearTwoPort(fence) : new SparkingTwoPort(fence);
    this.curve = curveOf(plan.energizer, condition);
    this.classCurves = classes.map(({ loads }) => curveOf(plan.energizer, condition, loads));
    this.groundSiemens = fence.siemens[groundElement(fence.network)]!;
    this.#targetVolts = plan.target.volts;
  }

  get #anyDead(): boolean {
    return this.remainder.fence.hot.deadPosts.length > 0;
  }

  /** Whether the weakest post has its target volts. */
  holds(groundSiemens: number, curve: SourceCurve): boolean {
    return !this.#anyDead && this.remainder.lowest(groundSiemens, curve).volts >= this.#targetVolts;
  }

  /** The least factor on the plan's own curve; null where a fault cuts posts off, or no output does. */
  leastFactor(groundSiemens: number): number | null {
    if (this.#anyDead) return null;
    return this.remainder.leastFactor(groundSiemens, this.curve, this.#targetVolts);
  }

  /** What the condition asks for on the plan's ground system; `labelVolts` are those of the plan's energizer at 500 Ω. */
  asIs(labelVolts: number): ConditionSupply {
    const { volts, postId } = this.remainder.lowest(this.groundSiemens, this.curve);
    const factor = this.leastFactor(this.groundSiemens);
    return {
      id: this.condition.id,
      name: this.condition.name,
      groundOhms: 1 / this.groundSiemens,
      weakestVolts: volts,
      weakestPost: postId,
      leastFactor: factor,
      leastVoltsAt500: factor === null ? null : factor * labelVolts,
      cutOff: this.#anyDead,
    };
  }
}
