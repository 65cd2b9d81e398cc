export * from './issue.js';
export { netlistLines, toNetlist } from './netlist/netlist.js';
export { curvePoints } from './network/curve.js';
export {
  type Cause,
  type ElementKind,
  type Elements,
  elementKinds,
  kindCode,
  openBy,
} from './network/elements.js';
export type { FenceCircuit } from './network/fence-circuit.js';
export { type Layout, layOut, nodeNames, type RunEnd, type RunLayout, strandNode } from './network/layout.js';
export { buildNetwork, type FenceNetwork, recipeValues } from './network/network.js';
export type { Parameter, ParameterKind, Recipe, SparkGap, Term } from './network/parameters.js';
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
export { type LeakGroup, leakGroups, type SolvedElements } from './result/leaks.js';
export * from './result/result.js';
export { resultSchema } from './result/result-schema.js';
export { type SolveOptions, solvePlan } from './result/solve-plan.js';
export { type SolvedFence, solveFence } from './result/solved-fence.js';
export { energizerWarnings } from './result/warnings.js';
export { ageAtEndOf, ageingLaw, type InsulatorAge, insulatorAge } from './studies/compare/ageing.js';
export { applyChanges } from './studies/compare/apply-change.js';
export type { PlanChange, PlanVariant } from './studies/compare/change.js';
export { type CompareOptions, compare } from './studies/compare/compare.js';
export type { InsulatorSeries, InsulatorYears } from './studies/compare/insulator-years.js';
export { changeForms, readChanges, readVariants } from './studies/compare/read-change.js';
export * from './studies/compare/result.js';
export { type InputPull, inputPulls, type VoltsCost, voltsCosts } from './studies/costs.js';
export { type Draft, type DraftAnswers, draftPlan, patternFor } from './studies/draft/draft.js';
export { rodsFor, type ThumbRods } from './studies/draft/rods.js';
export { applyFit } from './studies/fit/apply-fit.js';
export { fit } from './studies/fit/fit.js';
export * from './studies/fit/result.js';
export { formatAmount, formatMoney, formatMoneyRange } from './studies/materials/format-money.js';
export { type MaterialsOptions, materials } from './studies/materials/materials.js';
export type { Money } from './studies/materials/price-list.js';
export * from './studies/materials/result.js';
export {
  type MeterReading,
  type MeterReadings,
  parseReadings,
  type ReadingsOptions,
  readReadings,
} from './studies/meter/readings.js';
export { type MeterReadingsInput, meterReadingsSchema } from './studies/meter/readings-schema.js';
export { type MonthsOptions, months } from './studies/months/months.js';
export * from './studies/months/result.js';
export type { ReachOptions } from './studies/reach/options.js';
export { reach } from './studies/reach/reach.js';
export * from './studies/reach/result.js';
export type { VariationChoice } from './studies/reach/variations.js';
export { type ExpectedReadingsOptions, expectedReadings } from './studies/readings/expected-readings.js';
export * from './studies/readings/result.js';
export * from './studies/spread/result.js';
export { type SpreadOptions, spread } from './studies/spread/spread.js';
export type { SupplyOptions } from './studies/supply/options.js';
export * from './studies/supply/result.js';
export { supply } from './studies/supply/supply.js';
export * from './studies/trace/result.js';
export { type TraceOptions, trace } from './studies/trace/trace.js';
export * from './studies/upkeep/result.js';
export { type UpkeepOptions, upkeep } from './studies/upkeep/upkeep.js';
