import type { HotPost } from '../../fence/hot-posts.js';
import type { UnitSystem } from '../../quantity/format.js';
import type { PlanResult } from '../../result/result.js';
import type { Chance } from './chance.js';
import type { Influence } from './influences.js';
import type { UncertainValue } from './uncertain.js';

export type { Chance, HotPost, Influence, UncertainValue };

/** Volts with every input at its typical value, and the volts that 10, 50 and 90 of 100 draws lie below. */
export interface VoltsSpread {
  readonly typical: number;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

/** A post's hot strand with the fewest volts, draw by draw. */
export interface PostSpread extends HotPost {
  readonly voltsToEarth: VoltsSpread;
  /** Across the plan's animal; null where the target is compared with volts to earth. */
  readonly animalVolts: VoltsSpread | null;
}

/** An uncertain input value and what it does to the weakest post. */
export interface ValueInfluence extends UncertainValue, Influence {}

/** How sure one condition is. */
export interface ConditionSpread {
  readonly id: string;
  readonly name: string;
  readonly sentence: string;
  /** That the target holds at every post. */
  readonly chance: Chance;
  /** Of what the target compares, at the weakest post of each draw. */
  readonly weakest: VoltsSpread;
  /** Posts that were the weakest, most often first, with the share of the draws, 0 to 1. */
  readonly weakestPosts: readonly { readonly id: string; readonly share: number }[];
  /** Uncertain values by their share of the weakest post's variance, largest first. */
  readonly influences: readonly ValueInfluence[];
  /** Posts with a fed hot strand: junctions first, then each run's posts in order. */
  readonly posts: readonly PostSpread[];
}

/** Table ranges carried through to volts. */
export interface SpreadResult {
  readonly format: 'postvolt spread';
  readonly formatVersion: 1;
  readonly title: string;
  readonly units: UnitSystem;
  readonly sentence: string;
  readonly target: PlanResult['target'];
  readonly draws: number;
  readonly seed: number;
  /** That the target holds in every condition asked for at once. */
  readonly chance: Chance;
  readonly conditions: readonly ConditionSpread[];
  /** Widest bin in which the posts' quantiles were counted, as a share of the volts; they are interpolated within it. */
  readonly binWidth: number;
  /** Variance shares below this are chance. */
  readonly shareNoise: number;
}
