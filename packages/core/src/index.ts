export * from './issue.js';
export * from './plan/resolved.js';
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
export * from './result/result.js';
