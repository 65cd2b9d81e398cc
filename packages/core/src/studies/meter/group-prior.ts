import { CholeskyDecomposition, inverse, Matrix } from 'ml-matrix';
import type { Calibration } from '../../plan/calibration.js';
import type { Groups } from './groups.js';

/** What is held of the groups before the readings: means 0, and their covariance. */
export interface GroupPrior {
  /** Lower factor: z = factor · w, w standard normal. */
  readonly factor: Matrix;
  readonly precision: Matrix;
}

/** Groups that have nothing to do with each other, or that are correlated as a plan's calibration left them. */
export function groupPrior(groups: Groups, calibration: Calibration | null): GroupPrior {
  const n = groups.list.length;
  if (calibration === null) return { factor: Matrix.eye(n), precision: Matrix.eye(n) };
  const at = new Map(calibration.groups.map(({ key }, i) => [key, i]));
  const covariance = Matrix.eye(n);
  groups.list.forEach((a, i) => {
    groups.list.forEach((b, j) => {
      const [x, y] = [at.get(a.key), at.get(b.key)];
      if (i !== j && x !== undefined && y !== undefined)
        covariance.set(i, j, (calibration.correlation[x]![y]! + calibration.correlation[y]![x]!) / 2);
    });
  });
  let cholesky = new CholeskyDecomposition(covariance);
  // Correlations of a file that was rounded or edited may belong to no law at all; smaller ones do.
  while (!cholesky.isPositiveDefinite()) {
    covariance.mul(0.95).add(Matrix.eye(n).mul(0.05));
    cholesky = new CholeskyDecomposition(covariance);
  }
  const precision = inverse(covariance);
  // Rounding leaves an inverse a hair off symmetric.
  return { factor: cholesky.lowerTriangularMatrix, precision: precision.clone().add(precision.transpose()).mul(0.5) };
}

export const toZ = ({ factor }: GroupPrior, w: Float64Array): Float64Array =>
  Float64Array.from(factor.mmul(Matrix.columnVector(w)).to1DArray());
