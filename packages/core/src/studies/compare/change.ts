import type { InsulatorState } from '@postvolt/tables';

/** One change of a plan. Names are rows of the tables; `run` keeps it to one run, where it can be kept to one. */
export type PlanChange =
  /** Insulators of all hot strands, on line posts or at ends; new where no state is said, in salt air as salted as they were. */
  | {
      readonly what: 'insulator' | 'end insulator';
      readonly row: string;
      readonly state?: InsulatorState;
      readonly run?: string;
    }
  /** State of the insulators that are there. */
  | { readonly what: 'insulator state'; readonly state: InsulatorState; readonly run?: string }
  | { readonly what: 'wire' | 'post'; readonly row: string; readonly run?: string }
  /** Metres from post to post. */
  | { readonly what: 'spacing'; readonly metres: number; readonly run?: string }
  /** Hot strands more, or fewer where negative. */
  | { readonly what: 'hot strands'; readonly more: number; readonly run?: string }
  /** Mowing or spraying that leaves this growth at most. */
  | { readonly what: 'growth'; readonly atMost: string; readonly run?: string }
  | { readonly what: 'rods'; readonly more: number }
  | { readonly what: 'rods'; readonly count: number }
  /** A class of the energizers. */
  | { readonly what: 'energizer'; readonly row: string }
  /** All faults mended. */
  | { readonly what: 'mend'; readonly run?: string };

/** A plan with some changes, under a name. */
export interface PlanVariant {
  readonly name: string;
  readonly changes: readonly PlanChange[];
}
