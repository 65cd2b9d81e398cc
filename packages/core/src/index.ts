export type { AnimalTouches } from './fence/animal.js';
export type { Lowest } from './fence/hot-posts.js';
export { type FaultAtPlace, putFault, setRow, setSwitch, setValue } from './fence/named-changes.js';
export {
  type FenceChange,
  type OpenFence,
  type OpenFenceOptions,
  openFence,
} from './fence/open-fence.js';
export { pickConditions } from './fence/pick-conditions.js';
export type { StrandStatus } from './fence/status.js';
export * from './issue.js';
export { netlistLines, toNetlist } from './netlist/netlist.js';
export { strandNode } from './network/layout.js';
export { lonLatLine, pointsAlong } from './plan/along-line.js';
export { monthNames } from './plan/calendar.js';
export type { Calibration } from './plan/calibration.js';
export { type DrawnRuns, runsFromGeoJson } from './plan/from-geojson.js';
export { geodesicM, type LonLat, lineM } from './plan/geodesic.js';
export { nearestPost, postPositionM, spanAt, spanCount } from './plan/posts.js';
export { parsePlan, type ReadOptions, readPlan } from './plan/read.js';
export { isResolvedPlan, readResolvedPlan } from './plan/read-resolved.js';
export * from './plan/resolved.js';
export { type Plan, type PlanInput, planSchema } from './plan/schema.js';
export { nearest, suggestion } from './plan/suggest.js';
export type { QuantityFault, QuantityOutcome } from './quantity/fault.js';
export * from './quantity/format.js';
export { type Kind, type KindName, kinds } from './quantity/kinds.js';
export { type Limits, readQuantity } from './quantity/quantity.js';
export { rangeFigures } from './quantity/range-figures.js';
export { type RangedValue, readRanged, readRangedNumber } from './quantity/ranged.js';
export { readShare } from './quantity/share.js';
export { cautionsOf } from './result/cautions.js';
export * from './result/compared.js';
export * from './result/explain.js';
export { type DocumentKind, documentKinds, documentSchema } from './result/json-schemas.js';
export { postResults, postsOfRun } from './result/posts.js';
export * from './result/result.js';
export { resultSchema } from './result/result-schema.js';
export { conditionResult, type SolveOptions, solvePlan } from './result/solve-plan.js';
export { verdictOf, voltsBudget, weakestPost } from './result/verdict.js';
export { energizerWarnings } from './result/warnings.js';
