/**
 * The network engine: resistive networks with leaks to earth, driven by a source with a falling volts-over-amps curve.
 *
 * Build a {@link Network} (arrays, or a {@link NetworkBuilder}), wrap it in a {@link Circuit} with a {@link SourceCurve}, `solve`, and ask:
 * {@link drivingPoints}, {@link touchNodes}, {@link gradient}, {@link whatIf}, {@link Scan}, {@link kirchhoffResidual}.
 * For bare linear systems: {@link analyse}, {@link Factor}, {@link SelectedInverse}.
 *
 * @packageDocumentation
 */
export { type Analysis, analyse } from './engine/analyse.js';
export { branchAmps } from './engine/branch-amps.js';
export { NetworkBuilder } from './engine/builder.js';
export { checkNetwork } from './engine/check-network.js';
export { Circuit, type Solution } from './engine/circuit.js';
export { type DrivingPoints, drivingPoints } from './engine/driving-points.js';
export { Factor } from './engine/factor.js';
export { type Gradient, gradient, type Observed } from './engine/gradient.js';
export { EngineError, type EngineIssue, type Outcome } from './engine/issue.js';
export { EARTH, type Network, type NodePairs, type Ports, type SparkGaps } from './engine/network.js';
export { Pacer, type TaskOptions } from './engine/pacer.js';
export { Scan } from './engine/scan.js';
export { type ScanTable, scanAll } from './engine/scan-all.js';
export { SelectedInverse } from './engine/selected-inverse.js';
export { type OperatingPoint, SourceCurve } from './engine/source-curve.js';
export { type Touches, touchNodes, touchPairs } from './engine/touch.js';
export {
  gapAmps,
  gapVolts,
  type KirchhoffResidual,
  kirchhoffResidual,
  type PowerBalance,
  powerBalance,
  type SolvedState,
} from './engine/trust.js';
export { type Change, type ChangedState, whatIf } from './engine/what-if.js';
