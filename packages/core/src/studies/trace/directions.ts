import { EigenvalueDecomposition, type Matrix } from 'ml-matrix';

/** Ways in which the groups may move that readings would show. */
export interface Directions {
  /** By direction: its unit vector in w, where z = prior factor · w. */
  readonly vectors: readonly Float64Array[];
  /** By direction: standard deviation that the readings leave to it. */
  readonly steps: Float64Array;
  /** By reading: variance, in its own units, of all ways that were left out. */
  readonly leftOut: Float64Array;
}

/** Readings see a direction that moves them by this share of their standard deviations or more. */
const visible = 0.2;
const mostDirections = 12;

/** Principal directions of the groups as readings see them: right singular vectors of the even readings' slopes by w. */
export function visibleDirections(slopes: Matrix): Directions {
  const [n, groups] = [slopes.rows, slopes.columns];
  if (n === 0) return { vectors: [], steps: new Float64Array(0), leftOut: new Float64Array(0) };
  const { realEigenvalues: squares, eigenvectorMatrix } = new EigenvalueDecomposition(slopes.mmul(slopes.transpose()), {
    assumeSymmetric: true,
  });
  const order = squares.map((_, i) => i).sort((a, b) => squares[b]! - squares[a]!);
  const vectors: Float64Array[] = [];
  const steps: number[] = [];
  const leftOut = new Float64Array(n);
  for (const d of order) {
    const square = Math.max(0, squares[d]!);
    if (square > visible ** 2 && vectors.length < mostDirections) {
      const vector = new Float64Array(groups);
      for (let g = 0; g < groups; g++) {
        for (let i = 0; i < n; i++) vector[g]! += (slopes.get(i, g) * eigenvectorMatrix.get(i, d)) / Math.sqrt(square);
      }
      vectors.push(vector);
      steps.push(1 / Math.sqrt(1 + square));
    } else for (let i = 0; i < n; i++) leftOut[i]! += square * eigenvectorMatrix.get(i, d) ** 2;
  }
  return { vectors, steps: Float64Array.from(steps), leftOut };
}
