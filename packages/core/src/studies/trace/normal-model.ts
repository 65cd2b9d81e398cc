/**
 * Readings as a normal law: y = f + J x + noise, x standard normal. All in units of each reading's standard deviation, so
 * that the noise is standard normal too, plus an extra variance a reading.
 *
 * Work space is allocated once; `columns` holds J by column, one after the other.
 */
export class NormalModel {
  readonly rows: number;
  readonly #factor: Float64Array;
  readonly #half: Float64Array;

  constructor(rows: number) {
    this.rows = rows;
    this.#factor = new Float64Array(rows * rows);
    this.#half = new Float64Array(rows);
  }

  /** Logarithm of the density of a residual y − f with x integrated out, without the factor (2π)^(−rows/2). */
  logDensity(residual: Float64Array, columns: Float64Array, count: number, extraVariance: Float64Array): number {
    const n = this.rows;
    const factor = this.#factor;
    for (let i = 0; i < n; i++) {
      for (let j = 0; j <= i; j++) {
        let sum = i === j ? 1 + extraVariance[i]! : 0;
        for (let c = 0; c < count; c++) sum += columns[c * n + i]! * columns[c * n + j]!;
        factor[i * n + j] = sum;
      }
    }
    const half = this.#half;
    let logDensity = 0;
    for (let i = 0; i < n; i++) {
      let rest = residual[i]!;
      for (let j = 0; j < i; j++) {
        let sum = factor[i * n + j]!;
        for (let k = 0; k < j; k++) sum -= factor[i * n + k]! * factor[j * n + k]!;
        factor[i * n + j] = sum / factor[j * n + j]!;
        rest -= factor[i * n + j]! * half[j]!;
      }
      let square = factor[i * n + i]!;
      for (let k = 0; k < i; k++) square -= factor[i * n + k]! ** 2;
      const pivot = Math.sqrt(square);
      factor[i * n + i] = pivot;
      half[i] = rest / pivot;
      logDensity -= Math.log(pivot) + half[i]! ** 2 / 2;
    }
    return logDensity;
  }
}

/** Mean of x given a residual, and draws of it around that. */
export function conditionOn(
  rows: number,
  residual: Float64Array,
  columns: Float64Array,
  count: number,
  extraVariance: Float64Array,
): { readonly mean: Float64Array; readonly draw: (normal: () => number) => Float64Array } {
  // Lower Cholesky factor of the inverse of the covariance.
  const factor = new Float64Array(count * count);
  const mean = new Float64Array(count);
  for (let a = 0; a < count; a++) {
    for (let i = 0; i < rows; i++) mean[a]! += (columns[a * rows + i]! * residual[i]!) / (1 + extraVariance[i]!);
    for (let b = 0; b <= a; b++) {
      let sum = a === b ? 1 : 0;
      for (let i = 0; i < rows; i++) sum += (columns[a * rows + i]! * columns[b * rows + i]!) / (1 + extraVariance[i]!);
      factor[a * count + b] = sum;
    }
  }
  for (let a = 0; a < count; a++) {
    for (let b = 0; b <= a; b++) {
      let sum = factor[a * count + b]!;
      for (let k = 0; k < b; k++) sum -= factor[a * count + k]! * factor[b * count + k]!;
      factor[a * count + b] = a === b ? Math.sqrt(sum) : sum / factor[b * count + b]!;
    }
  }
  for (let a = 0; a < count; a++) {
    for (let k = 0; k < a; k++) mean[a]! -= factor[a * count + k]! * mean[k]!;
    mean[a]! /= factor[a * count + a]!;
  }
  solveTransposed(factor, count, mean);
  return {
    mean,
    draw(normal) {
      const x = Float64Array.from({ length: count }, normal);
      solveTransposed(factor, count, x);
      return x.map((value, a) => value + mean[a]!);
    },
  };
}

/** Solves factorᵀ x = b in place. */
function solveTransposed(factor: Float64Array, count: number, b: Float64Array): void {
  for (let a = count - 1; a >= 0; a--) {
    for (let k = a + 1; k < count; k++) b[a]! -= factor[k * count + a]! * b[k]!;
    b[a]! /= factor[a * count + a]!;
  }
}
