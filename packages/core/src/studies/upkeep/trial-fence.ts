import { lowestOf } from '../../fence/hot-posts.js';
import type { OpenFence } from '../../fence/open-fence.js';
import type { Changes } from './candidates.js';

/** The weakest post of a fence as it stands, and the mean of all hot strands; what a fault has cut off has 0 V. */
export interface Standing {
  readonly volts: number;
  readonly meanVolts: number;
  readonly postId: string;
  readonly holds: boolean;
  /** Over the target. */
  readonly marginVolts: number;
}

/** A fence in one condition on which repairs are tried, and then made one after another. */
export class TrialFence {
  readonly #fence: OpenFence;
  /** By element: the rank of the repair that has changed it. */
  readonly #rank: Uint8Array;

  constructor(fence: OpenFence) {
    this.#fence = fence.fork();
    this.#rank = new Uint8Array(fence.siemens.length);
  }

  get solves(): number {
    return this.#fence.solves;
  }

  standing(): Standing {
    const { compared, hot, distanceM, plan } = this.#fence;
    // What a fault has cut off counts as dead, whatever leaks over to it.
    const counted = compared.map((own, node) => (Number.isFinite(distanceM[node]!) ? own : 0));
    const { volts, postId, holds, marginVolts } = lowestOf(hot, counted, plan.target.volts);
    const sum = hot.nodes.reduce((total, node) => total + counted[node]!, 0);
    return { volts, meanVolts: sum / hot.nodes.length, postId, holds, marginVolts };
  }

  /** The fence with changes made for a moment. */
  tried(changes: Changes, rank: number): Standing {
    return this.#fence.tried(this.#outranking(changes, rank), () => this.standing());
  }

  /** Makes changes for good. */
  make(changes: Changes, rank: number): void {
    const made = this.#outranking(changes, rank);
    for (const e of made.elements) this.#rank[e] = rank;
    this.#fence.set(made);
  }

  /** Without the elements that a repair of the same or a higher rank has changed already. */
  #outranking({ elements, siemens, gaps }: Changes, rank: number): Changes {
    const kept = elements.flatMap((e, n) => (this.#rank[e]! < rank ? [n] : []));
    return { elements: kept.map((n) => elements[n]!), siemens: kept.map((n) => siemens[n]!), gaps };
  }
}
