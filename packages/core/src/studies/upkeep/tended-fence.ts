import { Circuit } from '../../engine/circuit.js';
import { setSiemens } from '../../network/fence-circuit.js';
import { type SolvedFence, touchEverywhere } from '../../result/solved-fence.js';
import { type HotPosts, hotPosts } from '../spread/hot-posts.js';
import type { Changes } from './candidates.js';

/** The lowest hot strand of a fence, and the mean of them all. */
export interface Lowest {
  readonly volts: number;
  readonly meanVolts: number;
  readonly postId: string;
}

/** A fence in one condition whose elements are changed and tried again without being built anew. */
export class TendedFence {
  readonly #solved: SolvedFence;
  readonly #circuit: Circuit;
  readonly #hot: HotPosts;
  readonly #siemens: Float64Array;
  readonly #rank: Uint8Array;
  readonly #gapVolts: Float64Array;
  solves = 0;

  constructor(solved: SolvedFence) {
    const { network, source, analysis } = solved.circuit;
    // Forks share their spark gaps' values; these are to be changed too.
    const gaps = network.gaps && { ...network.gaps, volts: network.gaps.volts.slice() };
    this.#solved = solved;
    this.#circuit = new Circuit({ ...network, gaps }, source, analysis);
    this.#gapVolts = gaps?.volts ?? new Float64Array();
    this.#hot = hotPosts(solved);
    this.#siemens = solved.siemens.slice();
    this.#rank = new Uint8Array(this.#siemens.length);
  }

  /** The lowest as things stand. */
  lowest(): Lowest {
    const { fence, map } = this.#solved;
    const circuit = this.#circuit;
    setSiemens(fence, map.branchOf, this.#siemens, circuit.network.branchSiemens, circuit.network.leakSiemens);
    circuit.valuesChanged();
    this.solves++;
    const { volts } = circuit.solve();
    const compared = fence.plan.target.of === 'to earth' ? volts : touchEverywhere({ fence, circuit }).volts;
    const { nodes, start, posts } = this.#hot;
    let least = 0;
    let sum = 0;
    for (let n = 0; n < nodes.length; n++) {
      const value = compared[nodes[n]!]!;
      sum += value;
      if (value < compared[nodes[least]!]!) least = n;
    }
    let p = 0;
    while (start[p + 1]! <= least) p++;
    return { volts: compared[nodes[least]!]!, meanVolts: sum / nodes.length, postId: posts[p]!.id };
  }

  /** The lowest with changes made for a moment. */
  tried(changes: Changes, rank: number): Lowest {
    const siemens = this.#siemens.slice();
    const gapVolts = this.#gapVolts.slice();
    const ranks = this.#rank.slice();
    this.make(changes, rank);
    const found = this.lowest();
    this.#siemens.set(siemens);
    this.#gapVolts.set(gapVolts);
    this.#rank.set(ranks);
    return found;
  }

  /** Makes changes for good; an element that a higher rank has changed stays as it is. */
  make({ elements, siemens, gaps }: Changes, rank: number): void {
    elements.forEach((e, n) => {
      if (this.#rank[e]! >= rank) return;
      this.#rank[e] = rank;
      this.#siemens[e] = siemens[n]!;
    });
    for (const gap of gaps) this.#gapVolts[gap] = Number.MAX_VALUE;
  }
}
