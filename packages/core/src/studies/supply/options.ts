import type { Tables } from '@postvolt/tables';
import type { TaskOptions } from '../../engine/pacer.js';
import type { RodKind } from './result.js';

/** What to ask of `supply`. */
export interface SupplyOptions extends TaskOptions {
  /** Ids of the conditions; all where left out. */
  readonly conditions?: readonly string[];
  /** Rods of the trade-off; what is left out is as in the plan. */
  readonly rod?: Partial<RodKind>;
  /** Numbers of rods in the trade-off; 1, 2, 3, 4, 6, 8, 12, 16 and 24 where left out. */
  readonly counts?: readonly number[];
  /** Most rods that are tried; 24 where left out. */
  readonly mostRods?: number;
  /** Ids of soils in which the ground test is simulated besides the plan's own. */
  readonly soils?: readonly string[];
  /** Distance along the metal at which the test shorts the fence, at the least; 100 m where left out. */
  readonly shortAtM?: number;
  /** What the fence is brought down to there; 2 kV where left out. */
  readonly shortVolts?: number;
  /** Distance of the probe from the last rod; 1 m where left out. */
  readonly probeM?: number;
  /** Where the generic classes and the soils are looked up; the standard tables where left out. */
  readonly tables?: Tables;
}
