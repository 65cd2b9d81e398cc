export * from './issue.js';
export * from './plan/resolved.js';
export { nearest, suggestion } from './plan/suggest.js';
export * from './quantity/format.js';
export { cautionsOf } from './result/cautions.js';
export * from './result/explain.js';
export * from './result/result.js';
export { type SolveOptions, solvePlan } from './result/solve-plan.js';
export { energizerWarnings } from './result/warnings.js';
