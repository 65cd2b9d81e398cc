/**
 * The network of a fence: elements that know what they stand for, the layout of posts and nodes, and what conductances are
 * made of. An `OpenFence` of the main entry holds one; most programs need no more of it than that.
 *
 * @packageDocumentation
 */
export type { HotPost, HotPosts } from './fence/hot-posts.js';
export { curvePoints } from './network/curve.js';
export {
  type Cause,
  type ElementKind,
  type Elements,
  elementKinds,
  elementsOfPart,
  isMetal,
  kindCode,
  openBy,
  type PartKind,
  partKinds,
  partOf,
} from './network/elements.js';
export type { EngineNetwork } from './network/engine-network.js';
export type { Formula, Parameter, ParameterKind, SparkGap, Term } from './network/formulas.js';
export { type Layout, layOut, nodeNames, type RunEnd, type RunLayout } from './network/layout.js';
export { buildNetwork, type FenceNetwork, formulaValues } from './network/network.js';
export { type LeakGroup, leakBudget, leakGroups } from './result/leaks.js';
