import type { Lowest } from '../../fence/hot-posts.js';
import { type OpenFence, openFence } from '../../fence/open-fence.js';
import { type Layout, layOut } from '../../network/layout.js';
import type { FenceNetwork } from '../../network/network.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import { GrowingElements } from './growing-elements.js';
import { atJunction, moveEnergizer, type PlaceAlong } from './move-energizer.js';
import { replaceRuns } from './replace-runs.js';
import { spansAt, spansPerFactor, stretchRun } from './stretch-run.js';

/** A network of one count of posts, which serves every length that has it. */
interface Built {
  readonly factor: number;
  readonly fence: OpenFence;
  /** Found when the first other length asks for it. */
  growing: GrowingElements | null;
  /** Factor that the circuit is solved for. */
  present: number;
}

interface PostCount {
  readonly key: string;
  readonly plan: ResolvedPlan;
  readonly layout: Layout;
  readonly factor: number;
  readonly built: Map<string, Built>;
}

/** Post counts kept; a search goes to and fro between two. */
const mostKept = 3;

/**
 * A plan whose chosen runs are made longer or shorter by a factor, to be solved at many lengths.
 *
 * The network is built again only where the number of posts changes; between, the wire's and the growth's values follow
 * the length and a solve is one numeric pass.
 */
export class FenceOfLength {
  readonly plan: ResolvedPlan;
  /** Ids of the chosen runs. */
  readonly runs: ReadonlySet<string>;
  /** Metres of the chosen runs at factor 1. */
  readonly lengthM: number;
  /** By chosen run: spans for each unit of the factor, before rounding up. */
  readonly spanRates: readonly number[];
  /** Networks built, and solved without building. */
  builds = 0;
  passes = 0;
  readonly #place: PlaceAlong | string | null;
  readonly #scalesLinks: boolean;
  #kept: PostCount[] = [];

  /** `place` is where the energizer stands: a junction's id, or a place along a run; null leaves it. */
  constructor(plan: ResolvedPlan, runs: ReadonlySet<string>, place: PlaceAlong | string | null = null) {
    this.plan = plan;
    this.runs = runs;
    this.#place = place;
    const chosen = plan.runs.filter(({ id }) => runs.has(id));
    this.lengthM = chosen.reduce((sum, run) => sum + run.lengthM, 0);
    this.spanRates = chosen.map(spansPerFactor);
    this.#scalesLinks = chosen.length === plan.runs.length && plan.links.length > 0;
  }

  /** Whether the energizer stands elsewhere than in the plan. */
  get isMoved(): boolean {
    return this.#place !== null;
  }

  /** The plan at a factor, with the energizer in its place. */
  planAt(factor: number): ResolvedPlan {
    const chosen = this.plan.runs.filter(({ id }) => this.runs.has(id));
    const longer = replaceRuns(this.plan, new Map(chosen.map((run) => [run.id, stretchRun(run, factor)])));
    const scaleLink = ({ cable, ...link }: ResolvedPlan['links'][number]) => ({
      ...link,
      cable: { ...cable, lengthM: cable.lengthM * factor },
    });
    const plan = this.#scalesLinks ? { ...longer, links: longer.links.map(scaleLink) } : longer;
    if (this.#place === null) return plan;
    return typeof this.#place === 'string' ? atJunction(plan, this.#place) : moveEnergizer(plan, this.#place);
  }

  /** The weakest post at a factor, in a condition. */
  lowest(condition: ResolvedCondition, factor: number): Lowest {
    return this.at(condition, factor).lowest();
  }

  /** The fence at a factor; changed by the next call with the same count of posts. */
  at(condition: ResolvedCondition, factor: number): OpenFence {
    const count = this.#countAt(factor);
    let built = count.built.get(condition.id);
    if (built === undefined) {
      const fence = openFence(count.plan, condition, { layout: count.layout });
      built = { factor: count.factor, fence, growing: null, present: count.factor };
      count.built.set(condition.id, built);
      this.builds++;
    }
    const { fence } = built;
    if (factor === built.present) return fence;
    built.growing ??= this.#growing(fence.network);
    built.present = factor;
    this.passes++;
    fence.set(built.growing.at(factor / built.factor));
    return fence;
  }

  /** Spans of all chosen runs at a factor. */
  spansAt(factor: number): number[] {
    return this.plan.runs.filter(({ id }) => this.runs.has(id)).map((run) => spansAt(run, factor));
  }

  #countAt(factor: number): PostCount {
    // Cables from junction to junction grow too, which the network's elements do not tell from others.
    const key = this.#scalesLinks ? String(factor) : this.spansAt(factor).join();
    const known = this.#kept.find((count) => count.key === key);
    if (known !== undefined) return known;
    const plan = this.planAt(factor);
    const count = { key, plan, layout: layOut(plan), factor, built: new Map() };
    this.#kept = [count, ...this.#kept].slice(0, mostKept);
    return count;
  }

  #growing(fence: FenceNetwork): GrowingElements {
    const place = this.#place;
    const split = typeof place === 'object' && place !== null && this.runs.has(place.run);
    const known = new Set(this.plan.runs.map(({ id }) => id));
    // A run that the plan does not have is the part beyond the energizer of the run that it split.
    const ofChosen = fence.layout.runs.map(({ run: { id } }) => this.runs.has(id) || (split && !known.has(id)));
    return new GrowingElements(fence, ofChosen);
  }
}
