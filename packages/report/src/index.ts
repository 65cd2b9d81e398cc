export { comparisonInput, yearLinesInput } from './data/compare-figures.js';
export { conditionOf } from './data/condition-of.js';
export { faultCandidatesInput } from './data/fault-figure.js';
export { monthsInput, spreadBand, spreadRows } from './data/study-figures.js';
export { type ComparisonInput, comparison, type Variant } from './figures/comparison.js';
export {
  type FaultCandidate,
  type FaultCandidatesInput,
  faultCandidates,
  type ReadingPlace,
} from './figures/fault-candidates.js';
export { type FenceMapInput, fenceMap } from './figures/fence-map.js';
export { type CauseLoss, type GradientBarsInput, gradientBars } from './figures/gradient-bars.js';
export { type LeakBarsInput, leakBars } from './figures/leak-bars.js';
export { type MonthsInput, type MonthVolts, months } from './figures/months.js';
export { type SpreadBarsInput, type SpreadRow, spreadBars } from './figures/spread-bars.js';
export { type VoltsAlongInput, type VoltsBand, voltsAlong } from './figures/volts-along.js';
export { type VoltsBudgetInput, voltsBudgetBars } from './figures/volts-budget-bars.js';
export { type YearLinesInput, type YearSeries, yearLines } from './figures/year-lines.js';
export type { FenceDrawing } from './geo/drawing.js';
export { fenceDrawing } from './geo/fence-drawing.js';
export type { Path, Point } from './geo/point.js';
export { csvLines, toCsv } from './interchange/csv.js';
export { toGeoJson } from './interchange/geojson.js';
export type * from './interchange/geojson-types.js';
export type { FigureOptions } from './look/figure.js';
export { figureCss } from './look/figure-css.js';
export { type ReportInput, type ReportSection, renderReport } from './page/report.js';
export type { ReportFigure } from './page/report-figure.js';
export type { ReportColumn, ReportTable } from './page/table.js';
export { compareSection, insulatorsSection } from './sections/compare-section.js';
export { costsSection } from './sections/costs-section.js';
export { materialsSection } from './sections/materials-section.js';
export { monthsSection } from './sections/months-section.js';
export { spreadSection } from './sections/spread-section.js';
export { traceSection } from './sections/trace-section.js';
export { upkeepSection } from './sections/upkeep-section.js';
export { type TextProfileOptions, textProfile } from './text/text-profile.js';
export { type SvgName, svgNames, toSvg } from './to-svg.js';
