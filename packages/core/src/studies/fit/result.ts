import type { Calibration } from '../../plan/calibration.js';
import type { UnitSystem } from '../../quantity/format.js';

/** A value's range: 5th, 50th and 95th percentile. */
export interface ValueRange {
  readonly low: number;
  readonly typical: number;
  readonly high: number;
}

/** One table value, before the readings and after them. */
export interface FittedValue {
  readonly name: string;
  /** SI unit. */
  readonly unit: string;
  readonly from: string;
  readonly before: ValueRange;
  readonly after: ValueRange;
}

/** Table values that rise and fall together, as the readings have them. */
export interface FittedGroup {
  readonly key: string;
  readonly name: string;
  readonly kind: string;
  /** Where the readings put it in the table's range: −1 its low end, 0 the typical value, 1 its high end. */
  readonly place: number;
  /** Width of the range that is left, as a part of the table's: 1 where the readings told nothing. */
  readonly widthLeft: number;
  /** What the typical value of its first member is multiplied by. */
  readonly multiplier: number;
  /** `well` where less than half of the range is left, `a little` where less than nine tenths, else `not`. */
  readonly told: 'well' | 'a little' | 'not';
  /** At the end of the table's range: the readings would have it further out. */
  readonly atEnd: boolean;
  readonly values: readonly FittedValue[];
}

/** Two groups of which the readings know the sum of effects better than the split. */
export interface EntangledGroups {
  readonly names: readonly [string, string];
  readonly correlation: number;
}

/** A reading beside the model, with the tables as they are and as fitted. */
export interface FittedReading {
  readonly post: string;
  readonly kind: 'volts' | 'amps';
  readonly read: number;
  readonly before: number;
  readonly after: number;
  /** Standard deviations of the meter from model to reading, tables fitted. */
  readonly off: number;
}

/** A fence's tables calibrated to readings. */
export interface FitResult {
  readonly format: 'postvolt fit';
  readonly formatVersion: 1;
  readonly title: string;
  readonly units: UnitSystem;
  readonly sentence: string;
  readonly condition: { readonly id: string; readonly name: string };
  readonly meterErrorPercent: number;
  /** What the readings told most of, first. */
  readonly groups: readonly FittedGroup[];
  readonly entangled: readonly EntangledGroups[];
  readonly readings: readonly FittedReading[];
  /** Sum of squares between readings and model, in standard deviations of the meter. */
  readonly misfit: { readonly before: number; readonly after: number };
  /** False where tables within their ranges explain the readings badly (at most one time in a hundred): look for a fault. */
  readonly fits: boolean;
  /** Volts to earth of the weakest hot strand, with the tables as they are and as fitted. */
  readonly weakestVolts: { readonly before: number; readonly after: number };
  /** What `applyFit` puts into the plan. */
  readonly calibration: Calibration;
}
