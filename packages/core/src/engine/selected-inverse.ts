import { slotOf } from './analyse.js';
import type { Factor } from './factor.js';
import { EARTH } from './network.js';
import { BAND, CHAIN, STRAND } from './runs.js';

/**
 * The entries of the inverse of a network's nodal matrix that lie on the diagonal and in the pattern of its factor, Ω.
 *
 * One pass from the last column to the first (K. Takahashi, J. Fagan and M.-S. Chen 1973): as long as a factorisation.
 */
export class SelectedInverse {
  readonly #factor: Factor;
  /** Driving-point resistance by position, and the mutual resistance of each slot. */
  readonly #own: Float64Array;
  readonly #mutual: Float64Array;
  readonly #row: Float64Array;

  constructor(factor: Factor) {
    this.#factor = factor;
    this.#own = new Float64Array(factor.analysis.nodeCount);
    this.#mutual = new Float64Array(factor.analysis.row.length);
    this.#row = new Float64Array(factor.analysis.widest);
  }

  /** Recomputes from the factor's present values, with a conductance between the terminals (0 to `Infinity`). Allocates nothing. */
  compute(terminalSiemens = 0): void {
    const { analysis, inverse, share } = this.#factor;
    const { nodeCount, runs, row, start, portCount } = analysis;
    const own = this.#own;
    const mutual = this.#mutual;
    const inner = nodeCount - portCount;
    if (portCount > 0) {
      this.#factor.setTerminals(terminalSiemens);
      own[inner] = this.#factor.plusOhms;
      if (portCount === 2) {
        own[inner + 1] = this.#factor.minusOhms;
        mutual[start[inner]!] = this.#factor.mutualOhms;
      }
    }
    for (let r = runs.length - 3; r >= 0; r -= 3) {
      const first = runs[r]!;
      const end = runs[r + 1]!;
      const kind = runs[r + 2]!;
      let s = start[end]!;
      if (kind === STRAND) {
        let z = own[row[s - 1]!]!;
        for (let k = end - 1; k >= first; k--) {
          s--;
          const w = share[s]!;
          const toNext = w * z;
          z = inverse[k]! + w * toNext;
          mutual[s] = toNext;
          own[k] = z;
        }
      } else if (kind === CHAIN || kind === BAND) {
        const chain = kind === CHAIN;
        let zNear = own[row[s - 2]!]!;
        let zFar = own[row[s - 1]!]!;
        let between = mutual[this.#slotBetween(row[s - 2]!, row[s - 1]!)]!;
        for (let k = end - 1; k >= first; k--) {
          s -= 2;
          const wNear = share[s]!;
          const wFar = share[s + 1]!;
          const toNear = wNear * zNear + wFar * between;
          const toFar = wNear * between + wFar * zFar;
          mutual[s] = toNear;
          mutual[s + 1] = toFar;
          if (chain) between = toFar;
          else {
            zFar = zNear;
            between = toNear;
          }
          zNear = inverse[k]! + wNear * toNear + wFar * toFar;
          own[k] = zNear;
        }
      } else {
        for (let k = end - 1; k >= first; k--) this.#column(k);
      }
    }
  }

  #slotBetween(near: number, far: number): number {
    const { start, row } = this.#factor.analysis;
    let s = start[near]!;
    while (row[s] !== far) s++;
    return s;
  }

  #column(k: number): void {
    const { analysis, inverse, share } = this.#factor;
    const { row, start } = analysis;
    const own = this.#own;
    const mutual = this.#mutual;
    const z = this.#row;
    const first = start[k]!;
    const end = start[k + 1]!;
    for (let s = first; s < end; s++) z[s - first] = share[s]! * own[row[s]!]!;
    for (let s = first; s < end; s++) {
      const w = share[s]!;
      let t = start[row[s]!]!;
      let sum = 0;
      for (let u = s + 1; u < end; u++) {
        const j = row[u]!;
        while (row[t] !== j) t++;
        sum += share[u]! * mutual[t]!;
        z[u - first]! += w * mutual[t]!;
      }
      z[s - first]! += sum;
    }
    let total = inverse[k]!;
    for (let s = first; s < end; s++) {
      mutual[s] = z[s - first]!;
      total += share[s]! * z[s - first]!;
    }
    own[k] = total;
  }

  /** Driving-point resistance of every node to earth, Ω, into `ohms` (length nodeCount). */
  nodeOhms(ohms: Float64Array): Float64Array {
    const { order } = this.#factor.analysis;
    const own = this.#own;
    for (let k = 0; k < order.length; k++) ohms[order[k]!] = own[k]!;
    return ohms;
  }

  /** Sum of the driving-point resistances of two nodes (b may be `EARTH`), Ω: the scale of rounding of what stands between them. */
  sumOhms(a: number, b: number): number {
    const { position } = this.#factor.analysis;
    return this.#own[position[a]!]! + (b === EARTH ? 0 : this.#own[position[b]!]!);
  }

  /**
   * Driving-point resistance between the nodes of each branch or declared pair, Ω, into `ohms`.
   *
   * A difference of self and mutual resistances: its rounding error is some 1e-16 of the self resistances.
   */
  pairOhms(a: Int32Array, b: Int32Array, ohms: Float64Array): Float64Array {
    const { position } = this.#factor.analysis;
    const own = this.#own;
    for (let i = 0; i < ohms.length; i++) {
      const za = own[position[a[i]!]!]!;
      if (b[i] === EARTH) ohms[i] = za;
      else {
        const m = this.#mutual[slotOf(this.#factor.analysis, a[i]!, b[i]!)]!;
        ohms[i] = Math.max(0, za - m + (own[position[b[i]!]!]! - m));
      }
    }
    return ohms;
  }
}
