import type { ResolvedCondition, ResolvedPlan } from '../plan/resolved.js';
import type { ElementList } from './elements.js';
import type { FaultBook } from './fault-book.js';
import type { Layout } from './layout.js';
import type { LocalView } from './local.js';
import type { Materials } from './materials.js';
import type { SparkGap } from './parameters.js';

/** What the builders of a network share. */
export interface Site {
  readonly plan: ResolvedPlan;
  readonly condition: ResolvedCondition;
  readonly layout: Layout;
  readonly list: ElementList;
  readonly materials: Materials;
  /** By run. */
  readonly views: readonly LocalView[];
  readonly faults: FaultBook;
  readonly sparkGaps: SparkGap[];
}
