export * from './issue.js';
export * from './plan/resolved.js';
export * from './result/result.js';
