import type { ResolvedCondition } from '../../plan/resolved.js';
import type { UnitSystem } from '../../quantity/format.js';
import type { PlanResult, WeakestPost } from '../../result/result.js';
import type { CauseLoss } from '../costs.js';

/** The fence in one kind of weather, or one condition of the plan, that a month brings. */
export interface WeatherVolts {
  readonly condition: ResolvedCondition;
  readonly weakest: WeakestPost;
  /** Whether the target holds at every post. */
  readonly holds: boolean;
  /** Whether the ground keeps more of the volts there than the animal gets. */
  readonly starves: boolean;
}

/** One month: what it brings, and the worst of it. */
export interface MonthResult {
  /** `January` and so on. */
  readonly month: string;
  /** Three letters. */
  readonly label: string;
  /** Of what the target compares, at the weakest post, in the worst weather of the month and in the best. */
  readonly volts: number;
  readonly bestVolts: number;
  readonly holds: boolean;
  /** The worst first. */
  readonly weathers: readonly WeatherVolts[];
}

/** What costs the weakest post of the worst month its volts, set beside what the same costs there when the year is at its best. */
export interface SeasonCost extends CauseLoss {
  /** The most that a cause of the same kind costs the same post in the best weather of the year. */
  readonly atBestVolts: number;
}

/** The months of a year. */
export interface MonthsResult {
  readonly format: 'postvolt months';
  readonly formatVersion: 1;
  readonly title: string;
  readonly units: UnitSystem;
  readonly sentence: string;
  readonly target: PlanResult['target'];
  /** Where the calendar comes from: the plan, or a row of the climates. */
  readonly calendar: { readonly from: 'plan' | 'climate'; readonly climate: string | null };
  readonly holds: boolean;
  /** January first. */
  readonly months: readonly MonthResult[];
  /** The month with the fewest volts, and the one with the most. */
  readonly worst: string;
  readonly best: string;
  /** What the season adds most: the cost, the wire's aside, that is highest over that in the best weather of the year. */
  readonly cause: SeasonCost;
  /** All costs in the worst month, in the same order. */
  readonly costs: readonly SeasonCost[];
  /** What volts to earth do not tell, in sentences. */
  readonly notes: readonly string[];
}
