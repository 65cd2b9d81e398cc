import type { ConditionResult, PlanResult, ResolvedPlan } from '@postvolt/core';
import type { RunProfile } from '../data/run-profiles.js';
import type { FenceDrawing } from '../geo/drawing.js';

/** A fitted drawing with what a condition puts on it. */
export interface FenceMap {
  readonly plan: ResolvedPlan;
  readonly result: PlanResult;
  readonly condition: ConditionResult;
  readonly drawing: FenceDrawing;
  readonly profiles: readonly RunProfile[];
  /** Volts at the full end of the shading, the same for all conditions of a result. */
  readonly fullVolts: number;
}
