import type { PlanResult } from '../../result/result.js';
import type { Money } from '../materials/price-list.js';

/** What can be done to a fence. */
export type UpkeepKind =
  | 'mend fault'
  | 'replace insulators'
  | 'better insulators'
  | 'clear growth'
  | 'add rod'
  | 'remake joint';

/** A repair or a piece of upkeep, with what it wins if it alone is done. */
export interface UpkeepAction {
  readonly id: string;
  readonly kind: UpkeepKind;
  /** In words: `replace 84 aged nail-on claw insulators on west`. */
  readonly text: string;
  /** Where on the fence; null at the energizer. */
  readonly run: string | null;
  readonly fromM: number | null;
  readonly toM: number | null;
  /** Along the metal from the energizer to where it starts, as the fence is when its faults are mended; null where no metal leads. */
  readonly distanceM: number | null;
  /** Hours of one person's work. */
  readonly hours: Money;
  /** Materials and work. */
  readonly money: Money;
  /** Volts at the weakest post over those as it is, of a further ground rod over those with the rods before it; negative where something that leaks was what protected another part. */
  readonly wonVolts: number;
  readonly voltsPerHour: number;
  readonly voltsPerMoney: number;
}

/** One step of the work in the order of what wins most. */
export interface UpkeepStep {
  readonly action: string;
  /** Over the step before. */
  readonly wonVolts: number;
  /** At the weakest post after it, in which condition, and where. */
  readonly leastVolts: number;
  readonly condition: string;
  readonly postId: string;
  /** Of all steps so far, typical values. */
  readonly hoursSoFar: number;
  readonly moneySoFar: number;
}

/** What to mend first: what `upkeep` returns. */
export interface UpkeepResult {
  readonly format: 'postvolt upkeep';
  readonly formatVersion: 1;
  readonly title: string;
  readonly units: 'imperial' | 'metric';
  readonly target: PlanResult['target'];
  readonly currency: string;
  /** The answer in one sentence. */
  readonly sentence: string;
  /** What the steps are ranked by. */
  readonly by: 'hour' | 'money';
  readonly leastVolts: number;
  readonly condition: string;
  readonly postId: string;
  readonly holds: boolean;
  /** All that could be done, by what each wins alone for an hour or for money. */
  readonly actions: readonly UpkeepAction[];
  readonly steps: readonly UpkeepStep[];
  /** The steps' actions in the order in which one comes by them from the energizer. */
  readonly walk: readonly string[];
  readonly afterVolts: number;
  readonly holdsAfter: boolean;
  /** Circuits solved on the way. */
  readonly work: { readonly solves: number };
}
