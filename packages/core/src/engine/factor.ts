import type { Analysis } from './analyse.js';
import { eliminateColumns } from './mesh.js';
import { backward, forward } from './substitute.js';

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
  /** What is left for a position, or a slot, to take in its turn; zero but for then. */
  readonly inbox: Float64Array;
  readonly slotInbox: Float64Array;
  /** What is left as a branch between the terminals, S; 0 where minus is earth. */
  portSiemens = 0;
  /** What is left as a leak at each terminal, S; at minus `Infinity` where minus is earth. */
  plusLeakSiemens = 0;
  minusLeakSiemens = Infinity;
  /** Whether every node away from the terminals has a way to earth or to a terminal. */
  grounded = false;
  /** Self and mutual resistance of the terminals as last worked out, Ω; see `setTerminals`. */
  plusOhms = 0;
  minusOhms = 0;
  mutualOhms = 0;

  /** By position: currents on their way to become potentials; zero where none are injected. */
  readonly #currents: Float64Array;

  constructor(analysis: Analysis) {
    this.analysis = analysis;
    this.inverse = new Float64Array(analysis.nodeCount);
    this.share = new Float64Array(analysis.row.length);
    this.inbox = new Float64Array(analysis.nodeCount);
    this.slotInbox = new Float64Array(analysis.row.length);
    this.#currents = new Float64Array(analysis.nodeCount);
  }

  /**
   * Factors new values in place, S per branch and per node; allocates nothing. Returns `grounded`.
   *
   * `gapSiemens`, if given, is the conductance of each spark gap, whose first nodes are `gapNode`.
   */
  refactor(
    branchSiemens: Float64Array,
    leakSiemens: Float64Array,
    gapSiemens?: Float64Array,
    gapNode?: Int32Array,
  ): boolean {
    const { nodeCount, order, parallelBranch, parallelSlot, gapSlot, position, portCount, start, slotBranch } =
      this.analysis;
    const { inbox, slotInbox } = this;
    for (let i = 0; i < parallelBranch.length; i++) slotInbox[parallelSlot[i]!]! += branchSiemens[parallelBranch[i]!]!;
    if (gapSiemens && gapNode) {
      for (let i = 0; i < gapSlot.length; i++) {
        const slot = gapSlot[i]!;
        if (slot >= 0) slotInbox[slot]! += gapSiemens[i]!;
        else inbox[position[gapNode[i]!]!]! += gapSiemens[i]!;
      }
    }
    this.grounded = eliminateColumns(this, branchSiemens, leakSiemens);
    const inner = nodeCount - portCount;
    if (portCount > 0) {
      this.plusLeakSiemens = this.#takeFromInbox(inner) + leakSiemens[order[inner]!]!;
      if (portCount === 2) {
        const slot = start[inner]!;
        this.minusLeakSiemens = this.#takeFromInbox(inner + 1) + leakSiemens[order[inner + 1]!]!;
        const branch = slotBranch[slot]!;
        this.portSiemens = slotInbox[slot]! + (branch >= 0 ? branchSiemens[branch]! : 0);
        slotInbox[slot] = 0;
      }
      // A node without any conductance has left 0/0 on its way here.
      if (!(this.plusLeakSiemens + this.minusLeakSiemens + this.portSiemens >= 0)) this.grounded = false;
    }
    return this.grounded;
  }

  /**
   * Volts at each node for amps injected at each node, with a conductance between the terminals.
   *
   * `terminalSiemens` is 0 for the bare network, `Infinity` to tie the terminals together. Allocates nothing; `volts` may be `amps`.
   */
  solve(amps: Float64Array, volts: Float64Array, terminalSiemens = 0): void {
    const { analysis, share, inverse } = this;
    const { nodeCount, order, portCount } = analysis;
    const x = this.#currents;
    forward(analysis, share, inverse, amps, this.inbox, x);
    if (portCount > 0) {
      const inner = nodeCount - portCount;
      this.setTerminals(terminalSiemens);
      const plus = this.#takeFromInbox(inner) + amps[order[inner]!]!;
      const minus = portCount === 2 ? this.#takeFromInbox(inner + 1) + amps[order[inner + 1]!]! : 0;
      volts[order[inner]!] = this.plusOhms * plus + this.mutualOhms * minus;
      if (portCount === 2) volts[order[inner + 1]!] = this.mutualOhms * plus + this.minusOhms * minus;
    }
    backward(analysis, share, x, volts);
  }

  /** Volts at each node for given volts at the terminals and nothing injected elsewhere. Allocates nothing. */
  spread(plusVolts: number, minusVolts: number, volts: Float64Array): void {
    const { analysis, share } = this;
    const { nodeCount, order, portCount } = analysis;
    const inner = nodeCount - portCount;
    volts[order[inner]!] = plusVolts;
    if (portCount === 2) volts[order[inner + 1]!] = minusVolts;
    this.#currents.fill(0);
    backward(analysis, share, this.#currents, volts);
  }

  #takeFromInbox(position: number): number {
    const value = this.inbox[position]!;
    this.inbox[position] = 0;
    return value;
  }

  /** Works out the terminals' self and mutual resistances to earth with a conductance between them (0 to `Infinity`). */
  setTerminals(terminalSiemens: number): void {
    const p = this.plusLeakSiemens;
    if (this.analysis.portCount === 1) {
      this.plusOhms = 1 / (p + terminalSiemens);
      return;
    }
    const m = this.minusLeakSiemens;
    const g = this.portSiemens + terminalSiemens;
    // Written with the conductance or with the resistance between the terminals, so that neither end overflows.
    const siemens = Math.min(g, 1);
    const ratio = g <= 1 ? 1 : 1 / g;
    const determinant = ratio * p * m + siemens * (p + m);
    this.plusOhms = (ratio * m + siemens) / determinant;
    this.minusOhms = (ratio * p + siemens) / determinant;
    this.mutualOhms = siemens / determinant;
  }

  /** Conductance of the bare network between the terminals, S. */
  get inputSiemens(): number {
    const p = this.plusLeakSiemens;
    const m = this.minusLeakSiemens;
    if (this.analysis.portCount === 1) return p;
    return this.portSiemens + (p + m === 0 ? 0 : (p * m) / (p + m));
  }

  /** Volts of the plus terminal to earth for one volt between the terminals. */
  get plusShare(): number {
    if (this.analysis.portCount === 1) return 1;
    return this.minusLeakSiemens / (this.plusLeakSiemens + this.minusLeakSiemens);
  }

  /** Volts of the minus terminal to earth for one volt between the terminals, zero or less. */
  get minusShare(): number {
    if (this.analysis.portCount === 1) return 0;
    // Taken from 0, so that no leak gives 0 and not −0.
    return 0 - this.plusLeakSiemens / (this.plusLeakSiemens + this.minusLeakSiemens);
  }
}
