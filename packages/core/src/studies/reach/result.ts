import type { Issue } from '../../issue.js';
import type { PlanResult } from '../../result/result.js';

/** How a search for the longest fence ended. */
export type ReachStatus =
  /** A longest fence was found. */
  | 'found'
  /** Falls short at every length that was tried, down to about a metre. */
  | 'never'
  /** Holds up to the longest that was looked at. */
  | 'beyond'
  /** A fault or a switch cuts part of the fence off, at any length. */
  | 'cut off';

/** The longest fence in one condition. Lengths are those of what is stretched: one run, or all runs together. */
export interface ConditionReach {
  readonly id: string;
  readonly name: string;
  readonly status: ReachStatus;
  /** Longest that holds; null where there is none, `mostM` where the status is `beyond`. */
  readonly reachM: number | null;
  /** `reachM` over the present length. */
  readonly factor: number | null;
  /** What ends it: longer spans, or one post more; null where nothing does. */
  readonly endedBy: 'length' | 'one more post' | null;
  /** Lengths between which the target holds, rising; more than one where a shorter fence falls short as well. */
  readonly holds: readonly { readonly fromM: number; readonly toM: number }[];
  /** Weakest post at that length (or at the shortest, where none holds), as results name it, and its compared volts. */
  readonly weakestPost: string;
  readonly weakestVolts: number;
  /** Compared volts of the weakest post at the present length. */
  readonly presentVolts: number;
  /** Spans of what is stretched at that length. */
  readonly spans: number | null;
  /** Doubts about the numbers at that length. */
  readonly warnings: readonly Issue[];
}

/** The longest fence after one change to the plan, over all conditions; found to within 0.1 %. */
export interface ReachVariation {
  readonly kind: 'wire' | 'hot strands' | 'post spacing' | 'energizer place';
  /** In words, in the plan's units. */
  readonly change: string;
  /** True for the plan as it is. */
  readonly isPresent: boolean;
  readonly status: ReachStatus;
  readonly reachM: number | null;
  readonly factor: number | null;
  /** Condition that decides; null where none does. */
  readonly decides: string | null;
}

/** How far a fence can go. */
export interface ReachResult {
  readonly format: 'postvolt reach';
  readonly formatVersion: 1;
  readonly title: string;
  readonly units: 'imperial' | 'metric';
  readonly target: PlanResult['target'];
  readonly sentence: string;
  /** The run that is stretched; null where all runs are, in proportion. */
  readonly run: string | null;
  /** Present length of what is stretched. */
  readonly presentM: number;
  /** Shortest and longest that were looked at. */
  readonly leastM: number;
  readonly mostM: number;
  readonly status: ReachStatus;
  readonly reachM: number | null;
  readonly factor: number | null;
  /** Condition whose longest fence is the shortest; null where every one holds to `mostM`. */
  readonly decides: string | null;
  readonly conditions: readonly ConditionReach[];
  readonly variations: readonly ReachVariation[];
  /** Conditions that the variations are judged in: those that some length satisfies, or all where none does. */
  readonly variationsIn: readonly string[];
  /** Networks built, and solved on a network that stood. */
  readonly work: { readonly builds: number; readonly passes: number };
}
