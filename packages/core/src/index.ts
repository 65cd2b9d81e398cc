export * from './issue.js';
export { netlistLines, toNetlist } from './netlist/netlist.js';
export { geodesicM, type LonLat, lineM } from './plan/geodesic.js';
export { nearestPost, postPositionM, spanAt, spanCount } from './plan/posts.js';
export { parsePlan, type ReadOptions, readPlan } from './plan/read.js';
export { isResolvedPlan, readResolvedPlan } from './plan/read-resolved.js';
export * from './plan/resolved.js';
export { type Plan, type PlanInput, planSchema } from './plan/schema.js';
export { nearest, suggestion } from './plan/suggest.js';
export * from './quantity/format.js';
export { type Kind, type KindName, kinds } from './quantity/kinds.js';
export {
  type Limits,
  type QuantityFault,
  type QuantityOutcome,
  type RangedValue,
  readQuantity,
  readRanged,
  readShare,
} from './quantity/quantity.js';
export { cautionsOf } from './result/cautions.js';
export * from './result/compared.js';
export * from './result/explain.js';
export * from './result/result.js';
export { type SolveOptions, solvePlan } from './result/solve-plan.js';
export { energizerWarnings } from './result/warnings.js';
