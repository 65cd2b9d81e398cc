import { type Estimate, isUncertain } from '@postvolt/tables';
import { type HotPosts, leastByPost } from '../../fence/hot-posts.js';
import type { OpenFence } from '../../fence/open-fence.js';
import { drawValue } from '../../network/draw-value.js';
import type { Column, Hypercube } from './hypercube.js';
import { LogHistogram } from './log-histogram.js';
import { energizerKey, sourceFactor, uncertainValues } from './uncertain.js';

/** The parameter of a number, and where its draws come from. */
interface DrawnParameter {
  readonly number: number;
  readonly estimate: Estimate;
  readonly column: Column;
}

/** Draws of one condition and what is counted of them. */
export class ConditionDraws {
  readonly hot: HotPosts;
  /** By post: volts to earth of its hot strand with the fewest. */
  readonly toEarth: LogHistogram;
  /** By post: the same across the animal; null where the target is compared with volts to earth. */
  readonly across: LogHistogram | null;
  /** By draw: what the target compares, at the weakest post. */
  readonly weakestVolts: Float64Array;
  /** By post: draws in which it was the weakest. */
  readonly timesWeakest: Uint32Array;
  readonly #drawn: OpenFence;
  readonly #uncertain: readonly DrawnParameter[];
  readonly #values: Float64Array;
  readonly #source: Pick<Estimate, 'low' | 'typical' | 'high'>;
  readonly #sourceColumn: Column | undefined;
  readonly #leastToEarth: Float64Array;
  readonly #leastAcross: Float64Array;

  constructor(fence: OpenFence, hypercube: Hypercube, draws: number) {
    const { plan, parameters } = fence.network;
    const columns = new Map(uncertainValues(fence.network).map(({ key }) => [key, hypercube(key)]));
    this.hot = fence.hot;
    const count = this.hot.count;
    this.#drawn = fence.fork();
    this.#values = Float64Array.from(parameters, ({ estimate }) => estimate.typical);
    this.#uncertain = parameters.flatMap(({ estimate, group }, number) => {
      const column = columns.get(group);
      return column !== undefined && isUncertain(estimate) ? [{ number, estimate, column }] : [];
    });
    this.#source = sourceFactor(plan.energizer);
    this.#sourceColumn = columns.get(energizerKey);
    // No hot strand stands higher than the energizer's open-circuit volts (maximum principle).
    let most = 0;
    for (let d = 0; d < draws; d++) most = Math.max(most, this.#sourceFactor(d));
    most *= fence.circuit.source.volts[0]!;
    this.toEarth = new LogHistogram(count, most, draws);
    this.across = plan.target.of === 'across the animal' ? new LogHistogram(count, most, draws) : null;
    this.weakestVolts = new Float64Array(draws);
    this.timesWeakest = new Uint32Array(count);
    this.#leastToEarth = new Float64Array(count);
    this.#leastAcross = new Float64Array(count);
  }

  /** Solves and counts one draw. */
  draw(d: number): void {
    for (const { number, estimate, column } of this.#uncertain)
      this.#values[number] = drawValue(estimate, column.z[d]!);
    this.#drawn.setValues(this.#values, this.#sourceFactor(d));
    leastByPost(this.hot, this.#drawn.volts, this.#leastToEarth);
    this.toEarth.add(this.#leastToEarth);
    let compared = this.#leastToEarth;
    if (this.across !== null) {
      compared = this.#leastAcross;
      leastByPost(this.hot, this.#drawn.animal.volts, compared);
      this.across.add(compared);
    }
    const weakest = indexOfLeast(compared);
    this.weakestVolts[d] = compared[weakest]!;
    this.timesWeakest[weakest]!++;
  }

  #sourceFactor(d: number): number {
    return this.#sourceColumn === undefined ? 1 : drawValue(this.#source, this.#sourceColumn.z[d]!);
  }
}

/** Where the least of the values stands. */
export function indexOfLeast(values: Float64Array): number {
  let at = 0;
  for (let i = 1; i < values.length; i++) if (values[i]! < values[at]!) at = i;
  return at;
}
