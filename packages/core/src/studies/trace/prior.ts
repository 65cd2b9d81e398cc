import { CholeskyDecomposition, inverse, Matrix } from 'ml-matrix';
import type { Groups } from '../meter/groups.js';

/** What is held of the groups before the readings: means 0, and their covariance. */
export interface GroupPrior {
  /** Lower factor: z = factor · w, w standard normal. */
  readonly factor: Matrix;
  readonly precision: Matrix;
}

/** Groups that have nothing to do with each other, or those correlated as a calibration left them. */
export function groupPrior(
  groups: Groups,
  calibration: { readonly keys: readonly string[]; readonly correlation: readonly (readonly number[])[] } | null = null,
): GroupPrior {
  const n = groups.list.length;
  if (calibration === null) return { factor: Matrix.eye(n), precision: Matrix.eye(n) };
  const at = new Map(calibration.keys.map((key, i) => [key, i]));
  const covariance = Matrix.eye(n);
  groups.list.forEach((a, i) => {
    groups.list.forEach((b, j) => {
      const [x, y] = [at.get(a.key), at.get(b.key)];
      if (i !== j && x !== undefined && y !== undefined) covariance.set(i, j, calibration.correlation[x]![y]!);
    });
  });
  const { lowerTriangularMatrix } = new CholeskyDecomposition(covariance);
  return { factor: lowerTriangularMatrix, precision: inverse(covariance) };
}

export const toZ = ({ factor }: GroupPrior, w: Float64Array): Float64Array =>
  Float64Array.from(factor.mmul(Matrix.columnVector(w)).to1DArray());
