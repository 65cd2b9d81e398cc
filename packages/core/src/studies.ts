export { ageAtEndOf, ageingLaw, type InsulatorAge, insulatorAge } from './studies/compare/ageing.js';
export { applyChanges } from './studies/compare/apply-change.js';
export type { PlanChange, PlanVariant } from './studies/compare/change.js';
export { type CompareOptions, compare } from './studies/compare/compare.js';
export type { InsulatorSeries, InsulatorYears } from './studies/compare/insulator-years.js';
export { changeForms, readChanges, readVariants } from './studies/compare/read-change.js';
export * from './studies/compare/result.js';
export { type CauseLoss, type InputSensitivity, inputSensitivities, lossesByCause } from './studies/costs.js';
export { type Draft, type DraftAnswers, draftPlan, patternFor } from './studies/draft/draft.js';
export { rodsFor, type ThumbRods } from './studies/draft/rods.js';
export { applyFit } from './studies/fit/apply-fit.js';
export { fit } from './studies/fit/fit.js';
export * from './studies/fit/result.js';
export { formatAmount, formatMoney, formatMoneyRange } from './studies/materials/format-money.js';
export { type MaterialsOptions, materials } from './studies/materials/materials.js';
export type { Money } from './studies/materials/price-list.js';
export * from './studies/materials/result.js';
export { wordBought, wordNeed } from './studies/materials/words.js';
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
