import { CholeskyDecomposition, inverse, Matrix } from 'ml-matrix';
import type { MeterScale } from './meter-error.js';
import type { MeterFence, PlacedFault } from './meter-fence.js';
import type { Observation } from './observation.js';
import { type Predicted, predictReadings, predictWithSlopes } from './reading-model.js';

/** What a meter showed. */
export interface Measured {
  readonly observations: readonly Observation[];
  /** Volts and amps, by observation. */
  readonly values: Float64Array;
  readonly scale: MeterScale;
}

/** Groups as the readings would have them. */
export interface Settled {
  readonly z: Float64Array;
  /** The readings there. */
  readonly readings: Float64Array;
  /** Sum of squares: misfit of the readings, and of the groups from their priors. */
  readonly misfit: number;
  readonly priorPenalty: number;
  /** Of the groups, by the slopes at `z`. */
  readonly covariance: Matrix;
  /**
   * Logarithm of the readings' probability density on the even scale, groups integrated out as a normal at `z` (Laplace),
   * without the factor (2π)^(−n/2).
   */
  readonly logEvidence: number;
  /** False where the steps ran out first. */
  readonly settled: boolean;
  /** By group: held by its bound. */
  readonly atBound: Uint8Array;
}

export interface SettleOptions {
  /** Inverse of the groups' prior covariance; their prior means are 0. */
  readonly precision: Matrix;
  /** Largest |z|. */
  readonly bound: number;
  readonly faults?: readonly PlacedFault[];
  readonly start?: Float64Array;
}

const mostSteps = 40;
/** Fall of the sum of squares that counts as none: a thousandth changes no probability that anyone reads. */
const enough = 1e-3;

/**
 * The groups that fit readings best beside their priors: least squares with bounds, Gauss-Newton steps with Levenberg's and
 * Marquardt's damping (K. Levenberg 1944, D. W. Marquardt 1963); a group at its bound is held while its slope pushes outwards.
 */
export function settle(meter: MeterFence, measured: Measured, options: SettleOptions): Settled {
  const { observations, values } = measured;
  const even = evenValues(measured, values);
  const { precision, bound, faults = [] } = options;
  const n = meter.groups.list.length;
  const cost = (readings: Float64Array, z: Float64Array) => {
    const misfit = evenValues(measured, readings).reduce((sum, reading, i) => sum + (even[i]! - reading) ** 2, 0);
    return { misfit, priorPenalty: quadratic(precision, z) };
  };
  let z: Float64Array = options.start?.slice() ?? new Float64Array(n);
  let state = predictWithSlopes(meter, observations, z, faults);
  let { misfit, priorPenalty } = cost(state.readings, z);
  let damping = 0;
  let isSettled = false;
  let scaled = evenSlopes(state, measured);
  const atBound = new Uint8Array(n);
  for (let step = 0; step < mostSteps; step++) {
    const modelled = evenValues(measured, state.readings);
    const residual = Matrix.columnVector(even.map((reading, i) => reading - modelled[i]!));
    const pull = scaled
      .transpose()
      .mmul(residual)
      .sub(precision.mmul(Matrix.columnVector(z)));
    const hessian = scaled.transpose().mmul(scaled).add(precision);
    const free: number[] = [];
    for (let g = 0; g < n; g++) {
      atBound[g] = Math.abs(z[g]!) >= bound && Math.sign(pull.get(g, 0)) === Math.sign(z[g]!) ? 1 : 0;
      if (atBound[g] === 0) free.push(g);
    }
    const part = hessian.selection(free, free);
    for (let k = 0; k < free.length; k++) part.set(k, k, part.get(k, k) * (1 + damping));
    const move = new CholeskyDecomposition(part).solve(pull.selection(free, [0]));
    const next = z.slice();
    free.forEach((g, k) => {
      next[g] = Math.min(bound, Math.max(-bound, next[g]! + move.get(k, 0)));
    });
    const trial = cost(predictReadings(meter, observations, next, faults), next);
    const fall = misfit + priorPenalty - trial.misfit - trial.priorPenalty;
    if (!(fall > -1e-9 * (misfit + priorPenalty))) {
      damping = Math.max(0.1, damping * 4);
      if (damping > 1e6) break;
      continue;
    }
    damping = damping > 0.2 ? damping / 4 : 0;
    z = next;
    ({ misfit, priorPenalty } = trial);
    state = predictWithSlopes(meter, observations, z, faults);
    scaled = evenSlopes(state, measured);
    if (fall < enough) {
      isSettled = true;
      break;
    }
  }
  const hessian = scaled.transpose().mmul(scaled).add(precision);
  const logEvidence = -(misfit + priorPenalty) / 2 + (logDeterminant(precision) - logDeterminant(hessian)) / 2;
  return {
    z,
    readings: state.readings,
    misfit,
    priorPenalty,
    covariance: inverse(hessian),
    logEvidence,
    settled: isSettled,
    atBound,
  };
}

/** Readings on the even scale. */
export const evenValues = ({ observations, scale }: Measured, readings: Float64Array): Float64Array =>
  readings.map((reading, i) => scale.even(observations[i]!.kind, reading));

/** Slopes of the readings on the even scale. */
export function evenSlopes({ readings, slopes }: Predicted, { observations, scale }: Measured): Matrix {
  const even = slopes.clone();
  observations.forEach(({ kind }, i) => {
    even.mulRow(i, 1 / scale.sigma(kind, readings[i]!));
  });
  return even;
}

function quadratic(matrix: Matrix, x: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) for (let j = 0; j < x.length; j++) sum += matrix.get(i, j) * x[i]! * x[j]!;
  return sum;
}

function logDeterminant(matrix: Matrix): number {
  const { lowerTriangularMatrix } = new CholeskyDecomposition(matrix);
  let sum = 0;
  for (let i = 0; i < matrix.rows; i++) sum += 2 * Math.log(lowerTriangularMatrix.get(i, i));
  return sum;
}
