import type { Measured } from '../meter/settle.js';
import type { Candidate } from './candidates.js';
import { faultSizes, type SizeCell } from './fault-sizes.js';
import { type ConditionalGroups, type LinearScan, placed } from './linear-scan.js';
import { NormalModel } from './normal-model.js';

/** A fault matters from this part of the weakest post's volts on. */
export const leastCost = 0.05;
/** A wire parted where it costs next to nothing (one of two strands, a ring) is looked for, but seldom expected. */
const parted = 0.1;

export interface Hypothesis {
  readonly candidate: Candidate;
  readonly size: SizeCell;
  /** Part of the weakest post's volts that it costs. */
  readonly cost: number;
  /** Logarithm of prior times probability of the readings. */
  readonly logWeight: number;
}

/** One fault at every place and of every size, each weighed by the readings. */
export interface FaultScores {
  readonly hypotheses: readonly Hypothesis[];
  /** Prior probability of all that was looked at, kept or not. */
  readonly mass: number;
  /** Number of the likeliest hypothesis; −1 where there is none. */
  readonly best: number;
  /** Groups given the hypothesis of a number. */
  conditional(h: number): ConditionalGroups;
}

/** Weighs candidates with every size that matters. */
export function scoreFaults(scan: LinearScan, measured: Measured, candidates: readonly Candidate[]): FaultScores {
  const n = measured.values.length;
  const model = new NormalModel(n);
  const sizes = new SizeSweep(scan, n);
  const hypotheses: Hypothesis[] = [];
  let mass = 0;
  for (const candidate of candidates) {
    sizes.sweep(candidate, (size, cost, look) => {
      const prior = candidate.prior * size.prior * (cost < leastCost ? parted : 1);
      mass += prior;
      look();
      const logDensity = model.logDensity(scan.residual, scan.slopes, scan.columns, scan.directions.leftOut);
      hypotheses.push({ candidate, size, cost, logWeight: Math.log(prior) + logDensity });
      return false;
    });
  }
  return {
    hypotheses,
    mass,
    best: likeliest(hypotheses),
    conditional(h) {
      const { candidate, size } = hypotheses[h]!;
      sizes.sweep(candidate, (other, _, look) => {
        if (other === size) look();
        return other === size;
      });
      return scan.conditional(size);
    },
  };
}

/** Goes through the sizes of a candidate, each with how the readings change over its cell. */
class SizeSweep {
  readonly #scan: LinearScan;
  readonly #readings: Float64Array[] = [];
  readonly #charging: Float64Array[] = [];
  readonly #change: Float64Array;

  constructor(scan: LinearScan, n: number) {
    this.#scan = scan;
    this.#change = new Float64Array(n);
    const most = Math.max(...Object.values(faultSizes).map((sizes) => sizes.length));
    for (let s = 0; s < most; s++) {
      this.#readings.push(new Float64Array(n));
      this.#charging.push(new Float64Array(n));
    }
  }

  /** Calls back for every size that matters, and for an open wire; ends where the callback says that it has seen enough. */
  sweep(candidate: Candidate, each: (size: SizeCell, cost: number, look: () => void) => boolean): void {
    const sizes = faultSizes[candidate.kind];
    const costs: (number | null)[] = [];
    // From the heaviest fault on, until one costs too little; one more serves the slope of the last.
    const heaviestFirst = candidate.kind === 'series' ? [...sizes.keys()].reverse() : [...sizes.keys()];
    for (const s of heaviestFirst) {
      costs[s] = this.#scan.centre(placed(candidate, sizes[s]!.ohms), this.#readings[s]!, this.#charging[s]!);
      const cost = costs[s];
      if (cost !== null && cost! < leastCost && sizes[s]!.width > 0) break;
    }
    for (const s of heaviestFirst) {
      const size = sizes[s]!;
      const cost = costs[s];
      if (cost === undefined || cost === null) continue;
      if (cost < leastCost && size.width > 0) break;
      const look = () =>
        this.#scan.look(
          placed(candidate, size.ohms),
          this.#readings[s]!,
          this.#charging[s]!,
          size.width === 0 ? null : this.#changeAt(s, sizes, costs),
        );
      if (each(size, cost, look)) return;
    }
  }

  /** Change of the readings for one standard deviation of the size within its cell, width / √12, from the cells beside it. */
  #changeAt(s: number, sizes: readonly SizeCell[], costs: readonly (number | null)[]): Float64Array {
    const has = (other: number) => costs[other] !== undefined && costs[other] !== null && sizes[other]!.width > 0;
    const low = s > 0 && has(s - 1) ? s - 1 : s;
    const high = s + 1 < sizes.length && has(s + 1) ? s + 1 : s;
    const cells = high - low;
    const change = this.#change;
    for (let i = 0; i < change.length; i++)
      change[i] = cells === 0 ? 0 : (this.#readings[high]![i]! - this.#readings[low]![i]!) / cells / Math.sqrt(12);
    return change;
  }
}

/** Scores of different candidates as one. */
export function joinScores(parts: readonly FaultScores[]): FaultScores {
  const hypotheses = parts.flatMap((part) => part.hypotheses);
  const starts: number[] = [];
  let start = 0;
  for (const part of parts) {
    starts.push(start);
    start += part.hypotheses.length;
  }
  return {
    hypotheses,
    mass: parts.reduce((sum, part) => sum + part.mass, 0),
    best: likeliest(hypotheses),
    conditional(h) {
      let p = parts.length - 1;
      while (starts[p]! > h) p--;
      return parts[p]!.conditional(h - starts[p]!);
    },
  };
}

/** Logarithm of the readings' probability if there is one fault that matters: places, sizes and groups summed over. */
export function logEvidence({ hypotheses, best }: FaultScores, mass: number): number {
  if (best < 0) return Number.NEGATIVE_INFINITY;
  const most = hypotheses[best]!.logWeight;
  const sum = hypotheses.reduce((total, { logWeight }) => total + Math.exp(logWeight - most), 0);
  return most + Math.log(sum / mass);
}

export function likeliest(hypotheses: readonly Hypothesis[]): number {
  let best = -1;
  hypotheses.forEach(({ logWeight }, h) => {
    if (best < 0 || logWeight > hypotheses[best]!.logWeight) best = h;
  });
  return best;
}
