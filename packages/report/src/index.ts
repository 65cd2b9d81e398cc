export { type ComparisonInput, comparison, type Variant } from './figures/comparison.js';
export {
  type FaultCandidate,
  type FaultCandidatesInput,
  faultCandidates,
  type ReadingPlace,
} from './figures/fault-candidates.js';
export { conditionOf, type FenceMapInput, fenceMap } from './figures/fence-map.js';
export { type GradientBarsInput, gradientBars, type VoltsCost } from './figures/gradient-bars.js';
export { type LeakBarsInput, leakBars } from './figures/leak-bars.js';
export { type MonthsInput, type MonthVolts, months } from './figures/months.js';
export { type SpreadBarsInput, spreadBars, type VoltsSpread } from './figures/spread-bars.js';
export { type VoltsAlongInput, type VoltsBand, voltsAlong } from './figures/volts-along.js';
export { type VoltsBudgetInput, voltsBudgetBars } from './figures/volts-budget-bars.js';
export { type YearLinesInput, type YearSeries, yearLines } from './figures/year-lines.js';
export { type FenceDrawing, fenceDrawing } from './geo/fence-drawing.js';
export type { Path, Point } from './geo/point.js';
export type { FigureOptions } from './look/figure.js';
export { figureCss } from './look/figure-css.js';
export { type ReportInput, type ReportSection, renderReport } from './page/report.js';
export type { ReportFigure } from './page/report-figure.js';
export type { ReportColumn, ReportTable } from './page/table.js';
