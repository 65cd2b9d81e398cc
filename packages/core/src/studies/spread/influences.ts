import type { Column } from './hypercube.js';

/** How the drawn outcome follows one uncertain value. */
export interface Influence {
  /**
   * Share of the outcome's variance that this value makes by itself, 0 to 1: the correlation ratio over equal parts of
   * its draws, freed of its bias (T. L. Kelley 1935). What several values make together is in none of them.
   */
  readonly varianceShare: number;
  /** Spearman's rank correlation of value and outcome, −1 to 1. */
  readonly rankCorrelation: number;
  /** Median of the outcome over the tenth of the draws with the lowest value, and with the highest. */
  readonly lowVolts: number;
  readonly highVolts: number;
}

/** Parts that a value's draws are cut into: enough to follow a bend, few enough that each holds some twenty draws. */
const partCount = (draws: number): number => Math.max(2, Math.min(32, Math.floor(draws / 20)));

/** Variance shares below this are chance: twice the spread of the share that a value without any influence shows. */
export const shareNoise = (draws: number): number => (2 * Math.sqrt(2 * (partCount(draws) - 1))) / (draws - 1);

/** Spread of the outcome, as a share of its mean, below which it does not move at all. */
const roundingNoise = 1e-9;

/** Ranks of values, 0 the lowest. */
export function ranksOf(values: Float64Array): Uint32Array {
  const order = Uint32Array.from(values, (_, i) => i).sort((a, b) => values[a]! - values[b]!);
  const ranks = new Uint32Array(values.length);
  for (let i = 0; i < order.length; i++) ranks[order[i]!] = i;
  return ranks;
}

/** The value that a share of sorted values lies below, interpolated between neighbours. */
export function quantileOf(sorted: Float64Array, share: number): number {
  const at = share * (sorted.length - 1);
  const below = Math.floor(at);
  const low = sorted[below]!;
  return low + (at - below) * ((sorted[below + 1] ?? low) - low);
}

/** Influence of one value on the outcome; `outcomeRank` is `ranksOf(outcome)`. */
export function influenceOf({ rank }: Column, outcome: Float64Array, outcomeRank: Uint32Array): Influence {
  const draws = outcome.length;
  const parts = partCount(draws);
  const sums = new Float64Array(parts);
  const counts = new Uint32Array(parts);
  const tenth = Math.max(1, Math.floor(draws / 10));
  const lowest = new Float64Array(tenth);
  const highest = new Float64Array(tenth);
  let mean = 0;
  let squares = 0;
  for (let d = 0; d < draws; d++) mean += outcome[d]! / draws;
  for (let d = 0; d < draws; d++) {
    const r = rank[d]!;
    const off = outcome[d]! - mean;
    const part = Math.floor((r * parts) / draws);
    sums[part]! += off;
    counts[part]!++;
    squares += off * off;
    if (r < tenth) lowest[r] = outcome[d]!;
    if (r >= draws - tenth) highest[r - draws + tenth] = outcome[d]!;
  }
  let between = 0;
  for (let part = 0; part < parts; part++) between += sums[part]! ** 2 / counts[part]!;
  // What rounding alone moves has no cause.
  const moves = squares > draws * (roundingNoise * mean) ** 2;
  const ratio = moves ? between / squares : 0;
  return {
    varianceShare: moves ? Math.max(0, 1 - ((1 - ratio) * (draws - 1)) / (draws - parts)) : 0,
    rankCorrelation: moves ? rankCorrelation(rank, outcomeRank) : 0,
    lowVolts: quantileOf(lowest.sort(), 0.5),
    highVolts: quantileOf(highest.sort(), 0.5),
  };
}

/** Spearman's rho of two rankings without ties. */
function rankCorrelation(a: Uint32Array, b: Uint32Array): number {
  const n = a.length;
  let squares = 0;
  for (let i = 0; i < n; i++) squares += (a[i]! - b[i]!) ** 2;
  return 1 - (6 * squares) / (n * (n * n - 1));
}
