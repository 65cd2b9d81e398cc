export * from './estimate.js';
export * from './schema.js';
