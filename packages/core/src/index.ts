export * from './issue.js';
export * from './plan/resolved.js';
export * from './result/explain.js';
export * from './result/result.js';
export { type SolveOptions, solvePlan } from './result/solve-plan.js';
