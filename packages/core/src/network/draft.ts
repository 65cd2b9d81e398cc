import type { ResolvedCondition, ResolvedPlan } from '../plan/resolved.js';
import type { Conductances } from './conductances.js';
import type { ElementList } from './elements.js';
import type { SparkGap } from './formulas.js';
import type { Hanging } from './hanging.js';
import type { Layout } from './layout.js';
import type { Attachment, LocalConditions } from './local-conditions.js';
import type { Places } from './places.js';

/** What the builders of a network share. */
export interface NetworkDraft {
  readonly plan: ResolvedPlan;
  readonly condition: ResolvedCondition;
  readonly layout: Layout;
  readonly list: ElementList;
  readonly conductances: Conductances;
  /** By run. */
  readonly local: readonly LocalConditions[];
  readonly places: Places;
  readonly hanging: (run: number, post: number) => Hanging;
  /** Soil that a post of a run stands in; a junction's post stands in that of the first run listed there. */
  readonly soilAt: (run: number, post: number) => string;
  readonly attachmentNumber: (attachment: Attachment) => number;
  readonly sparkGaps: SparkGap[];
  readonly postElement: Int32Array;
  readonly faultElements: number[][];
  readonly switchElements: number[][];
  readonly animalFaults: { toEarth: number; toGrounded: number }[];
}
