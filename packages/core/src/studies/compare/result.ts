import type { LeakShare, PlanResult, WeakestPost } from '../../result/result.js';
import type { Money } from '../materials/price-list.js';
import type { InsulatorYears } from './insulator-years.js';

/** A variant in one condition. */
export interface VariantCondition {
  readonly id: string;
  readonly name: string;
  readonly holds: boolean;
  readonly weakest: WeakestPost;
  /** Of what the target compares, at the weakest post, over the target. */
  readonly marginVolts: number;
  /** The largest leaks, largest first, three at most. */
  readonly leaks: readonly LeakShare[];
}

/** A plan as it is, or with some changes. */
export interface VariantResult {
  readonly name: string;
  /** The plan without changes: the first. */
  readonly isPresent: boolean;
  readonly holds: boolean;
  readonly conditions: readonly VariantCondition[];
  /** Condition with the least volts at the weakest post. */
  readonly worst: string;
  /** What the target compares, at the weakest post in that condition. */
  readonly leastVolts: number;
  /** Over the plan as it is; negative where it is worse. */
  readonly wonVolts: number;
  /** Of all materials, as for a new fence. */
  readonly cost: Money;
  /** Of materials over the plan as it is, price by price the same; negative where it is cheaper. */
  readonly costDifference: Money;
  /** Life-cycle cost a year, replacements and mowing or spraying in it. */
  readonly costPerYear: Money;
}

/** Variants of a plan side by side: what `compare` returns. */
export interface CompareResult {
  readonly format: 'postvolt compare';
  readonly formatVersion: 1;
  readonly title: string;
  readonly units: 'imperial' | 'metric';
  readonly target: PlanResult['target'];
  readonly currency: string;
  /** The answer in one sentence. */
  readonly sentence: string;
  /** The plan as it is, then the variants in the order asked for. */
  readonly variants: readonly VariantResult[];
  /** Insulators year by year; null where it was not asked for. */
  readonly years: InsulatorYears | null;
}
