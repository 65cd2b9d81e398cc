import type { Analysis } from './analyse.js';

/**
 * A network eliminated node by node, each star turned into a mesh of its neighbours.
 *
 * A node with leak d and branches g_j has S = d + Σ g_j; it leaves d·g_j/S as leak at neighbour j and g_i·g_j/S as branch
 * between neighbours i and j. Leaks stay apart from branches, so nothing is ever subtracted and every factor keeps
 * its digits, whatever the spread of the values. (Star-mesh transformation: A. Rosen 1924.)
 *
 * The source's terminals are left over: what the network is between them stands in `portSiemens`, `plusLeakSiemens` and
 * `minusLeakSiemens`.
 */
export class Factor {
  readonly analysis: Analysis;
  /** 1/S of the node at each position, Ω. */
  readonly inverse: Float64Array;
  /** g_j/S of each slot: the share of its current that a node sends to that neighbour. */
  readonly share: Float64Array;
  /** What is left as a branch between the terminals, S; 0 where minus is earth. */
  portSiemens = 0;
  /** What is left as a leak at each terminal, S; at minus `Infinity` where minus is earth. */
  plusLeakSiemens = 0;
  minusLeakSiemens = Infinity;
  /** Whether every node away from the terminals has a way to earth or to a terminal. */
  grounded = false;

  readonly #leak: Float64Array;
  readonly #work: Float64Array;

  constructor(analysis: Analysis) {
    this.analysis = analysis;
    this.inverse = new Float64Array(analysis.nodeCount);
    this.share = new Float64Array(analysis.row.length);
    this.#leak = new Float64Array(analysis.nodeCount);
    this.#work = new Float64Array(analysis.nodeCount);
  }

  /**
   * Factors new values in place, S per branch and per node; allocates nothing.
   *
   * `gapSiemens`, if given, is the conductance of each spark gap. Returns `grounded`.
   */
  refactor(
    branchSiemens: Float64Array,
    leakSiemens: Float64Array,
    gapSiemens?: Float64Array,
    gapNode?: Int32Array,
  ): boolean {
    const { nodeCount, order, branchSlot, gapSlot, position, runs, portCount, start } = this.analysis;
    const { share } = this;
    const leak = this.#leak;
    share.fill(0);
    for (let e = 0; e < branchSlot.length; e++) share[branchSlot[e]!]! += branchSiemens[e]!;
    for (let k = 0; k < nodeCount; k++) leak[k] = leakSiemens[order[k]!]!;
    if (gapSiemens && gapNode) {
      for (let i = 0; i < gapSlot.length; i++) {
        const slot = gapSlot[i]!;
        if (slot >= 0) share[slot]! += gapSiemens[i]!;
        else leak[position[gapNode[i]!]!]! += gapSiemens[i]!;
      }
    }
    this.grounded = true;
    for (let r = 0; r < runs.length; r += 3) {
      const first = runs[r]!;
      const end = runs[r + 1]!;
      const width = runs[r + 2]!;
      if (width === 1) this.#leaves(first, end);
      else if (width === 2) this.#chains(first, end);
      else if (width === 0) this.#roots(first, end);
      else for (let k = first; k < end; k++) this.#star(k);
    }
    const inner = nodeCount - portCount;
    if (portCount > 0) {
      this.plusLeakSiemens = leak[inner]!;
      if (portCount === 2) {
        this.minusLeakSiemens = leak[inner + 1]!;
        this.portSiemens = share[start[inner]!]!;
      }
      // A node without any conductance has left 0/0 on its way here.
      if (!(this.plusLeakSiemens + this.minusLeakSiemens + this.portSiemens >= 0)) this.grounded = false;
    }
    return this.grounded;
  }

  #roots(first: number, end: number): void {
    const { inverse } = this;
    const leak = this.#leak;
    for (let k = first; k < end; k++) {
      inverse[k] = 1 / leak[k]!;
      if (!(leak[k]! > 0)) this.grounded = false;
    }
  }

  #leaves(first: number, end: number): void {
    const { inverse, share } = this;
    const { row, start } = this.analysis;
    const leak = this.#leak;
    for (let k = first, s = start[first]!; k < end; k++, s++) {
      const d = leak[k]!;
      const g = share[s]!;
      const sum = d + g;
      leak[row[s]!]! += (d * g) / sum;
      inverse[k] = 1 / sum;
      share[s] = g / sum;
    }
  }

  #chains(first: number, end: number): void {
    const { inverse, share } = this;
    const { row, start, fill } = this.analysis;
    const leak = this.#leak;
    for (let k = first, s = start[first]!; k < end; k++, s += 2) {
      const d = leak[k]!;
      const ga = share[s]!;
      const gb = share[s + 1]!;
      const inv = 1 / (d + ga + gb);
      const wa = ga * inv;
      const wb = gb * inv;
      leak[row[s]!]! += wa * d;
      leak[row[s + 1]!]! += wb * d;
      share[fill[k]!]! += wa * gb;
      inverse[k] = inv;
      share[s] = wa;
      share[s + 1] = wb;
    }
  }

  #star(k: number): void {
    const { inverse, share } = this;
    const { row, start } = this.analysis;
    const leak = this.#leak;
    const first = start[k]!;
    const end = start[k + 1]!;
    const d = leak[k]!;
    let sum = d;
    for (let s = first; s < end; s++) sum += share[s]!;
    const inv = 1 / sum;
    for (let s = first; s < end; s++) {
      const w = share[s]! * inv;
      const i = row[s]!;
      leak[i]! += w * d;
      // Column i holds every later neighbour of k, in the same rising order.
      let t = start[i]!;
      for (let u = s + 1; u < end; u++) {
        const j = row[u]!;
        while (row[t] !== j) t++;
        share[t]! += w * share[u]!;
      }
      share[s] = w;
    }
    inverse[k] = inv;
  }

  /**
   * Volts at each node for amps injected at each node, with a conductance between the terminals.
   *
   * `terminalSiemens` is 0 for the bare network, `Infinity` to tie the terminals together. Allocates nothing; `volts` may be `amps`.
   */
  solve(amps: Float64Array, volts: Float64Array, terminalSiemens = 0): void {
    const { nodeCount, order, runs, row, start, portCount } = this.analysis;
    const { share } = this;
    const x = this.#work;
    for (let k = 0; k < nodeCount; k++) x[k] = amps[order[k]!]!;
    for (let r = 0; r < runs.length; r += 3) {
      const first = runs[r]!;
      const end = runs[r + 1]!;
      const width = runs[r + 2]!;
      let s = start[first]!;
      if (width === 1) {
        for (let k = first; k < end; k++, s++) x[row[s]!]! += share[s]! * x[k]!;
      } else if (width === 2) {
        for (let k = first; k < end; k++, s += 2) {
          const xk = x[k]!;
          x[row[s]!]! += share[s]! * xk;
          x[row[s + 1]!]! += share[s + 1]! * xk;
        }
      } else {
        for (let k = first; k < end; k++) {
          const xk = x[k]!;
          for (const stop = start[k + 1]!; s < stop; s++) x[row[s]!]! += share[s]! * xk;
        }
      }
    }
    if (portCount > 0) {
      const inner = nodeCount - portCount;
      const plusAmps = x[inner]!;
      const minusAmps = portCount === 2 ? x[inner + 1]! : 0;
      const z = this.terminalOhms(terminalSiemens);
      x[inner] = z.plus * plusAmps + z.mutual * minusAmps;
      if (portCount === 2) x[inner + 1] = z.mutual * plusAmps + z.minus * minusAmps;
    }
    this.#backward(volts, 1);
  }

  /** Volts at each node for given volts at the terminals and nothing injected elsewhere. Allocates nothing. */
  spread(plusVolts: number, minusVolts: number, volts: Float64Array): void {
    const { nodeCount, portCount } = this.analysis;
    const inner = nodeCount - portCount;
    const x = this.#work;
    x[inner] = plusVolts;
    if (portCount === 2) x[inner + 1] = minusVolts;
    this.#backward(volts, 0);
  }

  #backward(volts: Float64Array, injected: 0 | 1): void {
    const { nodeCount, order, runs, row, start } = this.analysis;
    const { share, inverse } = this;
    const x = this.#work;
    for (let r = runs.length - 3; r >= 0; r -= 3) {
      const first = runs[r]!;
      const end = runs[r + 1]!;
      const width = runs[r + 2]!;
      let s = start[end]! - 1;
      if (width === 1) {
        for (let k = end - 1; k >= first; k--, s--) {
          const own = injected === 0 ? 0 : x[k]! * inverse[k]!;
          x[k] = own + share[s]! * x[row[s]!]!;
        }
      } else if (width === 2) {
        for (let k = end - 1; k >= first; k--, s -= 2) {
          const own = injected === 0 ? 0 : x[k]! * inverse[k]!;
          x[k] = own + share[s]! * x[row[s]!]! + share[s - 1]! * x[row[s - 1]!]!;
        }
      } else {
        for (let k = end - 1; k >= first; k--) {
          let sum = injected === 0 ? 0 : x[k]! * inverse[k]!;
          for (const stop = start[k]!; s >= stop; s--) sum += share[s]! * x[row[s]!]!;
          x[k] = sum;
        }
      }
    }
    for (let k = 0; k < nodeCount; k++) volts[order[k]!] = x[k]!;
  }

  /** Self and mutual resistances of the terminals to earth, Ω, with a conductance between them (0 to `Infinity`). */
  terminalOhms(terminalSiemens: number): { plus: number; minus: number; mutual: number } {
    const p = this.plusLeakSiemens;
    if (this.analysis.portCount === 1) return { plus: 1 / (p + terminalSiemens), minus: 0, mutual: 0 };
    const m = this.minusLeakSiemens;
    const g = this.portSiemens + terminalSiemens;
    if (g <= 1) {
      const D = p * m + g * (p + m);
      return { plus: (m + g) / D, minus: (p + g) / D, mutual: g / D };
    }
    const r = 1 / g;
    const D = r * p * m + p + m;
    return { plus: (r * m + 1) / D, minus: (r * p + 1) / D, mutual: 1 / D };
  }

  /** Conductance of the bare network between the terminals, S. */
  get inputSiemens(): number {
    if (this.analysis.portCount === 1) return this.plusLeakSiemens;
    return this.portSiemens + seriesSiemens(this.plusLeakSiemens, this.minusLeakSiemens);
  }

  /** Volts of the plus terminal to earth for one volt between the terminals; the minus terminal has one volt less. */
  get plusShare(): number {
    if (this.analysis.portCount === 1) return 1;
    return this.minusLeakSiemens / (this.plusLeakSiemens + this.minusLeakSiemens);
  }

  /** Volts of the minus terminal to earth for one volt between the terminals, zero or less. */
  get minusShare(): number {
    if (this.analysis.portCount === 1) return 0;
    return -this.plusLeakSiemens / (this.plusLeakSiemens + this.minusLeakSiemens);
  }
}

function seriesSiemens(a: number, b: number): number {
  return a + b === 0 ? 0 : (a * b) / (a + b);
}
