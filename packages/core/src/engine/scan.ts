import { checkNodes } from './check-network.js';
import type { Circuit } from './circuit.js';
import { EngineError, refuse } from './issue.js';
import type { OperatingPoint } from './source-curve.js';
import { isAccurate, updateOf } from './update-rounding.js';

/**
 * How chosen nodes answer to a changed conductance at every place of a solved circuit in turn.
 *
 * One solve an observed node and one selected inverse when it is built; every question after that costs a few
 * operations an observed node. A view of the circuit as it was solved then: build another one after a change.
 */
export class Scan {
  readonly circuit: Circuit;
  /** The observed nodes. */
  readonly observed: Int32Array;
  /** Tied inverse: row of each observed node, driving point of every node, branch and pair. */
  readonly rows: readonly Float64Array[];
  readonly nodeOhms: Float64Array;
  readonly branchOhms: Float64Array;
  readonly pairOhms: Float64Array;
  readonly #share: Float64Array;
  readonly #offset: Float64Array | undefined;
  readonly #offsetAmps: number;
  readonly #inputSiemens: number;
  #fork: Circuit | undefined;
  readonly #point: OperatingPoint = { volts: 0, amps: 0, segment: 0 };

  constructor(circuit: Circuit, observed: ArrayLike<number>) {
    const { network, factor } = circuit;
    const { nodeCount, branchFrom, branchTo, pairs } = network;
    this.circuit = circuit;
    this.observed = Int32Array.from(observed);
    this.#inputSiemens = circuit.solve().inputSiemens;
    checkNodes('observed', this.observed, nodeCount);
    this.rows = Array.from(this.observed, (node) => {
      const row = new Float64Array(nodeCount);
      row[node] = 1;
      factor.solve(row, row, Infinity);
      return row;
    });
    const tied = circuit.tiedInverse();
    this.nodeOhms = tied.nodeOhms(new Float64Array(nodeCount));
    this.branchOhms = tied.pairOhms(branchFrom, branchTo, new Float64Array(branchFrom.length));
    this.pairOhms = pairs ? tied.pairOhms(pairs.a, pairs.b, new Float64Array(pairs.a.length)) : new Float64Array(0);
    this.#share = circuit.share().slice();
    this.#offset = circuit.gapOffsetVolts()?.slice();
    this.#offsetAmps = circuit.gapOffsetAmps();
  }

  /** With `addedSiemens`, 0 or more, put from a node to earth: writes the observed nodes' volts, returns the source's amps. */
  leak(node: number, addedSiemens: number, volts: Float64Array): number {
    this.#check('node', node, this.nodeOhms, addedSiemens);
    return this.#respond(node, -1, this.nodeOhms[node]!, addedSiemens, volts);
  }

  /**
   * With a branch at another conductance, S (0: open): writes the observed nodes' volts, returns the source's amps.
   *
   * Where opening it would leave less than nine digits the values are factored again in a fork of the circuit.
   * Throws an {@link EngineError} where it leaves a part afloat.
   */
  branch(branch: number, siemens: number, volts: Float64Array): number {
    this.#check('branch', branch, this.branchOhms, siemens);
    const { branchFrom, branchTo, branchSiemens } = this.circuit.network;
    const delta = siemens - branchSiemens[branch]!;
    const left = 1 + delta * this.branchOhms[branch]!;
    if (!(delta >= 0 || left > 0)) return this.#solveAgain(branch, siemens, volts);
    const amps = this.#respond(branchFrom[branch]!, branchTo[branch]!, this.branchOhms[branch]!, delta, volts);
    return delta < 0 && !this.#isAccurate(branch, delta, left) ? this.#solveAgain(branch, siemens, volts) : amps;
  }

  /** With `addedSiemens`, 0 or more, put across a declared pair: writes the observed nodes' volts, returns the source's amps. */
  pair(pair: number, addedSiemens: number, volts: Float64Array): number {
    this.#check('pair', pair, this.pairOhms, addedSiemens);
    const { a, b } = this.circuit.network.pairs!;
    return this.#respond(a[pair]!, b[pair]!, this.pairOhms[pair]!, addedSiemens, volts);
  }

  #check(what: string, place: number, places: Float64Array, siemens: number): void {
    if (!(place in places)) refuse(what, place, `a number from 0 to ${places.length - 1}`);
    if (!(siemens >= 0)) refuse('siemens', siemens, 'a conductance, 0 S or more');
  }

  /** Whether the answer just given for a branch that loses conductance has kept its digits. */
  #isAccurate(branch: number, delta: number, left: number): boolean {
    const [a, b] = [this.circuit.network.branchFrom[branch]!, this.circuit.network.branchTo[branch]!];
    const ohms = {
      inverse: [1 / left],
      acrossOhms: [this.branchOhms[branch]!],
      endsOhms: [this.nodeOhms[a]! + this.nodeOhms[b]!],
    };
    const across = this.#share[a]! - this.#share[b]!;
    const before = this.#inputSiemens;
    const after = before + across * across * (delta / left);
    const update = updateOf([{ a, b, delta }], ohms, this.#share, this.#offset);
    return isAccurate(update, before, after, this.#offsetAmps, this.circuit.source, this.#point);
  }

  #solveAgain(branch: number, siemens: number, volts: Float64Array): number {
    this.#fork ??= this.circuit.fork(this.circuit.solve().gapSign);
    const present = this.circuit.network.branchSiemens[branch]!;
    this.#fork.setBranchSiemens(branch, siemens);
    const outcome = this.#fork.trySolve();
    this.#fork.setBranchSiemens(branch, present);
    if (!outcome.ok) throw new EngineError(outcome.issue);
    for (let i = 0; i < this.observed.length; i++) volts[i] = outcome.value.volts[this.observed[i]!]!;
    return outcome.value.amps;
  }

  #respond(a: number, b: number, ohms: number, delta: number, volts: Float64Array): number {
    const share = this.#share;
    const offset = this.#offset;
    const across = b < 0 ? share[a]! : share[a]! - share[b]!;
    const own = offset ? (b < 0 ? offset[a]! : offset[a]! - offset[b]!) : 0;
    // δ behind the place's own resistance; Infinity (a dead short) is legal.
    const siemens = delta === Infinity ? 1 / ohms : delta / (1 + delta * ohms);
    if (siemens === Infinity) {
      // Right across the terminals it takes all that the source can give, and leaves what spark gaps cause.
      for (let i = 0; i < this.observed.length; i++) volts[i] = offset ? offset[this.observed[i]!]! : 0;
      return this.circuit.source.ampsAt(0);
    }
    const point = this.circuit.source.meet(
      this.#inputSiemens + across * across * siemens,
      this.#offsetAmps - across * own * siemens,
      this.#point,
    );
    const amps = siemens * (across * point.volts + own);
    for (let i = 0; i < this.observed.length; i++) {
      const row = this.rows[i]!;
      const node = this.observed[i]!;
      const mutual = b < 0 ? row[a]! : row[a]! - row[b]!;
      volts[i] = share[node]! * point.volts + (offset ? offset[node]! : 0) - mutual * amps;
    }
    return point.amps;
  }
}
