import { type Analysis, analyse } from './analyse.js';
import { checkConductance, checkNetwork } from './check-network.js';
import { diagnose } from './diagnose.js';
import { Factor } from './factor.js';
import { EngineError, type EngineIssue, type Outcome, refuse } from './issue.js';
import type { Network, Ports } from './network.js';
import { SelectedInverse } from './selected-inverse.js';
import type { OperatingPoint, SourceCurve } from './source-curve.js';
import { settleGaps } from './spark-gaps.js';

/** A solved circuit. The arrays belong to the circuit and are overwritten by its next `solve`: copy what is to be kept. */
export interface Solution {
  /** Volts of every node to earth. */
  readonly volts: Float64Array;
  /** Amps out of the source's plus terminal. */
  readonly amps: number;
  /** Volts between the source's terminals, plus over minus. */
  readonly terminalVolts: number;
  /** Segment of the source's curve, 0 for the one that starts at open circuit. */
  readonly segment: number;
  /** Fall of that segment, Ω; 0 for an ideal source. */
  readonly sourceOhms: number;
  /** Conductance of the network as the source sees it, S; with fired spark gaps, of small changes. */
  readonly inputSiemens: number;
  /** Sign of the current through each spark gap, 0 for a gap that has not fired. */
  readonly gapSign: Int8Array;
}

/**
 * A network driven by a source, to be changed and solved again.
 *
 * The constructor orders the network and allocates; `solve` after a change costs one numeric pass and allocates nothing
 * that grows with the network. The values are the circuit's own copies.
 */
export class Circuit {
  /** The network with the circuit's own, present values; change them through the methods below. */
  readonly network: Network & { readonly ports: Ports };
  readonly analysis: Analysis;
  /** The factor of the present values, spark gaps as they last settled. */
  readonly factor: Factor;
  #source: SourceCurve;
  readonly #solution: { -readonly [K in keyof Solution]: Solution[K] };
  readonly #point: OperatingPoint = { volts: 0, amps: 0, segment: 0 };
  readonly #gapSiemens: Float64Array;
  #factored = false;
  #solved = false;
  #gapsHeld = false;
  #share: Float64Array | undefined;
  #shareFresh = false;
  #offset: Float64Array | undefined;
  #tied: SelectedInverse | undefined;
  #tiedFresh = false;

  /**
   * `analysis`, if given, is that of the same nodes, branches, ports, pairs and gaps, and is then not made again.
   *
   * Throws an {@link EngineError} with code `data` for illegal input or a network without ports.
   */
  constructor(network: Network, source: SourceCurve, analysis?: Analysis) {
    const ports = network.ports ?? refuse('ports', 'none', 'the terminals of the source');
    if (analysis) checkNetwork(network);
    this.analysis = analysis ?? analyse(network);
    this.network = {
      ...network,
      ports,
      branchSiemens: network.branchSiemens.slice(),
      leakSiemens: network.leakSiemens.slice(),
    };
    this.#source = source;
    this.factor = new Factor(this.analysis);
    const gapCount = network.gaps?.a.length ?? 0;
    this.#gapSiemens = new Float64Array(gapCount);
    this.#solution = {
      volts: new Float64Array(network.nodeCount),
      amps: 0,
      terminalVolts: 0,
      segment: 0,
      sourceOhms: 0,
      inputSiemens: 0,
      gapSign: new Int8Array(gapCount),
    };
  }

  /**
   * A circuit of the same network and source with values of its own, to be changed while this one stays.
   * It shares the ordering, so it costs little. With `heldSigns`, one a spark gap, its gaps stay for good as these say.
   */
  fork(heldSigns?: Int8Array): Circuit {
    const fork = new Circuit(this.network, this.#source, this.analysis);
    if (heldSigns) fork.#solution.gapSign.set(heldSigns);
    fork.#gapsHeld = heldSigns !== undefined;
    return fork;
  }

  /** Whether the spark gaps stay as they were when the circuit was forked. */
  get gapsHeld(): boolean {
    return this.#gapsHeld;
  }

  get source(): SourceCurve {
    return this.#source;
  }

  /** Takes another output curve; the factors stay. */
  setSource(source: SourceCurve): void {
    this.#source = source;
    this.#solved = false;
  }

  /** Gives a branch another conductance, S; 0 opens it. */
  setBranchSiemens(branch: number, siemens: number): void {
    this.#set('branchSiemens', this.network.branchSiemens, branch, siemens);
  }

  /** Gives a node another leak to remote earth, S. */
  setLeakSiemens(node: number, siemens: number): void {
    this.#set('leakSiemens', this.network.leakSiemens, node, siemens);
  }

  /** Says that `network.branchSiemens` or `network.leakSiemens` were written to directly; their entries are then not checked. */
  valuesChanged(): void {
    this.#factored = false;
    this.#solved = false;
  }

  #set(name: string, values: Float64Array, index: number, siemens: number): void {
    if (!(index in values)) refuse(name, index, `a number from 0 to ${values.length - 1}`);
    checkConductance(name, siemens, index);
    values[index] = siemens;
    this.valuesChanged();
  }

  /**
   * The present solution; computed again if something changed.
   *
   * Throws an {@link EngineError} where there is none: a floating part, nothing to earth, values out of range.
   */
  solve(): Solution {
    const issue = this.#update();
    if (issue) throw new EngineError(issue);
    return this.#solution;
  }

  /** The present solution, or why there is none. */
  trySolve(): Outcome<Solution> {
    const issue = this.#update();
    return issue ? { ok: false, issue } : { ok: true, value: this.#solution };
  }

  /**
   * Volts of every node for one volt between the terminals, the source's terminals being held.
   * Overwritten by the next call after a change.
   */
  share(): Float64Array {
    this.solve();
    this.#share ??= new Float64Array(this.network.nodeCount);
    if (!this.#shareFresh) this.factor.spread(this.factor.plusShare, this.factor.minusShare, this.#share);
    this.#shareFresh = true;
    return this.#share;
  }

  /** Volts of every node with the terminals tied together, from the fired spark gaps alone; undefined if none has fired. */
  gapOffsetVolts(): Float64Array | undefined {
    this.solve();
    return this.#solution.gapSign.some((sign) => sign !== 0) ? this.#offset : undefined;
  }

  /** Amps that fired spark gaps send back into the source with its terminals tied together; 0 if none has fired. */
  gapOffsetAmps(): number {
    const { amps, inputSiemens, terminalVolts, gapSign } = this.solve();
    return gapSign.some((sign) => sign !== 0) ? inputSiemens * terminalVolts - amps : 0;
  }

  /** The selected inverse with the terminals tied together (an ideal source). Recomputed after a change of values. */
  tiedInverse(): SelectedInverse {
    this.solve();
    this.#tied ??= new SelectedInverse(this.factor);
    if (!this.#tiedFresh) this.#tied.compute(Infinity);
    this.#tiedFresh = true;
    return this.#tied;
  }

  #update(): EngineIssue | undefined {
    if (this.#solved) return undefined;
    const { gaps } = this.network;
    let issue: EngineIssue | undefined;
    if (!gaps) issue = this.#solveFor(undefined);
    else if (this.#gapsHeld) issue = this.#solveFor(this.#solution.gapSign);
    else issue = settleGaps(this.network, this.#source, this.#solution, (signs) => this.#solveFor(signs));
    this.#solved = issue === undefined;
    return issue;
  }

  /** Solves with each spark gap held open (0) or fired one way; without gaps if no signs are given. */
  #solveFor(signs: Int8Array | undefined): EngineIssue | undefined {
    const { network, factor } = this;
    const { gaps } = network;
    const solution = this.#solution;
    const fired = signs?.some((sign) => sign !== 0) ?? false;
    if (!this.#factored || signs) {
      this.#factored = false;
      this.#shareFresh = false;
      this.#tiedFresh = false;
      for (let i = 0; signs && i < signs.length; i++) this.#gapSiemens[i] = signs[i] === 0 ? 0 : 1 / gaps!.ohms[i]!;
      if (!factor.refactor(network.branchSiemens, network.leakSiemens, this.#gapSiemens, gaps?.a))
        return diagnose(network);
      if (!(factor.plusLeakSiemens + factor.minusLeakSiemens > 0)) return diagnose(network);
      this.#factored = true;
    }
    const input = factor.inputSiemens;
    let offsetAmps = 0;
    if (fired) offsetAmps = this.#solveOffset(signs!);
    const point = this.#source.meet(input, offsetAmps, this.#point);
    if (!Number.isFinite(point.amps)) return diagnose(network);
    const { volts } = solution;
    factor.spread(factor.plusShare * point.volts, factor.minusShare * point.volts, volts);
    if (fired) for (let i = 0; i < volts.length; i++) volts[i]! += this.#offset![i]!;
    solution.amps = point.amps;
    solution.terminalVolts = point.volts;
    solution.segment = point.segment;
    solution.sourceOhms = this.#source.ohms[point.segment]!;
    solution.inputSiemens = input;
    return undefined;
  }

  /** Potentials that the fired gaps' own voltages cause with the terminals tied; returns their current into the source. */
  #solveOffset(signs: Int8Array): number {
    const gaps = this.network.gaps!;
    this.#share ??= new Float64Array(this.network.nodeCount);
    this.#offset ??= new Float64Array(this.network.nodeCount);
    const { factor } = this;
    const share = this.#share;
    const offset = this.#offset;
    factor.spread(factor.plusShare, factor.minusShare, share);
    this.#shareFresh = true;
    offset.fill(0);
    let amps = 0;
    for (let i = 0; i < signs.length; i++) {
      const sent = (signs[i]! * gaps.volts[i]!) / gaps.ohms[i]!;
      const a = gaps.a[i]!;
      const b = gaps.b[i]!;
      offset[a]! += sent;
      amps += sent * share[a]!;
      if (b >= 0) {
        offset[b]! -= sent;
        amps -= sent * share[b]!;
      }
    }
    factor.solve(offset, offset, Infinity);
    return amps;
  }
}
