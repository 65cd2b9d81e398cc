import { Circuit } from '../engine/circuit.js';
import type { Network } from '../engine/network.js';
import { SourceCurve } from '../engine/source-curve.js';
import { gapAmps } from '../engine/trust.js';
import { curvePoints } from '../network/curve.js';
import { metalDistances } from '../network/distances.js';
import { isMetal, kindCode, openBy } from '../network/elements.js';
import {
  type EngineNetwork,
  isSameShape,
  leaksByNode,
  type NodeLeaks,
  setSiemens,
  sparkOhms,
  toEngineNetwork,
} from '../network/engine-network.js';
import { FormulaProgram } from '../network/formula-program.js';
import { typicalValues } from '../network/formulas.js';
import type { Layout } from '../network/layout.js';
import { buildNetwork, elementSiemens, type FenceNetwork } from '../network/network.js';
import type { ResolvedCondition, ResolvedPlan } from '../plan/resolved.js';
import { type AnimalTouches, touchEverywhere, touchOne } from './animal.js';
import { throwChangedPlan } from './changed-plan.js';
import { type HotPosts, hotPosts, type Lowest, lowestOf } from './hot-posts.js';
import { pickConditions } from './pick-conditions.js';
import { type StrandStatus, strandStatus } from './status.js';

/** Elements that take other conductances, and spark gaps that no longer fire. */
export interface FenceChange {
  /** Element numbers, with the siemens that each takes. */
  readonly elements: ArrayLike<number>;
  readonly siemens: ArrayLike<number>;
  /** Numbers of spark gaps. */
  readonly gaps?: ArrayLike<number>;
}

/** How a fence is opened. */
export interface OpenFenceOptions {
  /** May be shared between the conditions of a plan. */
  readonly layout?: Layout;
  /** A fence that may have the same nodes and branches: its ordering then serves again. */
  readonly like?: OpenFence;
  /** Adds the elements between hot and grounded strands that a fault between them needs; see `FenceNetwork.contacts`. */
  readonly contacts?: boolean;
}

/**
 * A plan in one condition, solved, that can be changed and solved again.
 *
 * It holds the siemens of every element, the energizer's curve and the spark gaps, and answers for volts, status,
 * distances and the weakest post. A change costs nothing until something is asked; then the circuit is factored once.
 * Arrays that it returns are its own and overwritten after the next change: copy what is to be kept.
 */
export class OpenFence {
  readonly circuit: Circuit;
  /** By element: its branch in the circuit; −1 for an element to remote earth, which is part of its node's leak. */
  readonly branchOf: Int32Array;
  readonly pairPlace: Int32Array;
  /** By element: present conductance, S. Read only; change it through the methods. */
  readonly siemens: Float64Array;
  /** By element: why it does not conduct, of `openBy`. */
  readonly open: Uint8Array;
  /** By parameter: the values last set. */
  readonly values: Float64Array;
  /** By switch of the plan: whether it is open. */
  readonly isSwitchOpen: boolean[];
  /** By formula: siemens of the values last set. */
  readonly formulaSiemens: Float64Array;
  /** Sets of values that were solved; one numeric pass each. */
  solves = 0;
  readonly #engine: EngineNetwork;
  readonly #gaps: { volts: Float64Array; ohms: Float64Array } | undefined;
  readonly #curve: readonly (readonly [amps: number, volts: number])[];
  #program: FormulaProgram | undefined;
  #network: FenceNetwork;
  #leaks: NodeLeaks | undefined;
  /** By node: leaks besides those of the elements, S. */
  #addedLeaks: Float64Array | undefined;
  #solved = false;
  #animal: AnimalTouches | undefined;
  #ways: { distanceM: Float64Array; mendedDistanceM: Float64Array } | undefined;
  #hot: HotPosts | undefined;

  /** Use {@link openFence}. */
  constructor(network: FenceNetwork, engine: EngineNetwork, siemens: Float64Array, circuit: Circuit, from?: OpenFence) {
    this.#network = network;
    this.circuit = circuit;
    this.#engine = engine;
    this.branchOf = engine.branchOf;
    this.pairPlace = engine.pairPlace;
    this.siemens = siemens;
    this.open = (from?.open ?? network.elements.open).slice();
    this.formulaSiemens = from?.formulaSiemens.slice() ?? new Float64Array(network.formulas.length);
    this.#gaps = circuit.network.gaps;
    this.isSwitchOpen =
      from?.isSwitchOpen.slice() ?? network.plan.switches.map(({ openIn }) => openIn.includes(network.condition.id));
    this.values = from?.values.slice() ?? typicalValues(network.parameters);
    this.#curve = curvePoints(network.plan.energizer, network.condition);
    if (from !== undefined) {
      [this.#ways, this.#hot] = [from.#ways, from.#hot];
      this.#addedLeaks = from.#addedLeaks === undefined ? undefined : from.#addedLeaks.slice();
    }
  }

  get network(): FenceNetwork {
    return this.#network;
  }

  get plan(): ResolvedPlan {
    return this.network.plan;
  }

  get condition(): ResolvedCondition {
    return this.network.condition;
  }

  get layout(): Layout {
    return this.network.layout;
  }

  /** The same fence with values of its own, to be changed while this one stays. */
  fork(): OpenFence {
    const { network } = this.circuit;
    const circuit = new Circuit(withOwnGaps(network), this.circuit.source, this.circuit.analysis);
    return new OpenFence(this.network, this.#engine, this.siemens.slice(), circuit, this);
  }

  /** Volts of every node to remote earth. */
  get volts(): Float64Array {
    return this.#solve().volts;
  }

  /** Where the energizer's curve meets the fence; see the engine's `Solution`. */
  get solution(): ReturnType<Circuit['solve']> {
    return this.#solve();
  }

  #solve() {
    if (!this.#solved) {
      this.solves++;
      this.#solved = true;
    }
    return this.circuit.solve();
  }

  /** Amps through an element, positive from its first node to its second or to earth. */
  amps(e: number): number {
    const { elements, sparkGaps } = this.network;
    const volts = this.volts;
    if (elements.kind[e] === kindCode['spark gap']) {
      const gap = sparkGaps.findIndex(({ element }) => element === e);
      return gapAmps(this.circuit.network, volts, gap);
    }
    const b = elements.nodeB[e]!;
    return this.siemens[e]! * (volts[elements.nodeA[e]!]! - (b < 0 ? 0 : volts[b]!));
  }

  /** What the plan's animal gets at every node, spark gaps settled anew in each touch. */
  get animal(): AnimalTouches {
    this.#solve();
    this.#animal ??= touchEverywhere(this);
    return this.#animal;
  }

  /** Volts across the plan's animal at one node, without touching all the others. */
  animalVoltsAt(node: number): number {
    return this.#animal === undefined || !this.#solved ? touchOne(this, node) : this.#animal.volts[node]!;
  }

  /** By node: metres of metal from the fence terminal; Infinity where no metal leads. */
  get distanceM(): Float64Array {
    return this.#waysOfMetal().distanceM;
  }

  /** By node: the same with every fault in the metal mended. */
  get mendedDistanceM(): Float64Array {
    return this.#waysOfMetal().mendedDistanceM;
  }

  #waysOfMetal() {
    if (this.#ways === undefined) {
      const { layout, elements } = this.network;
      const metal = { ...elements, open: this.open };
      const distanceM = metalDistances(metal, layout.nodeCount, layout.fenceTerminal);
      const isCut = this.open.includes(openBy.fault);
      const mendedDistanceM = isCut
        ? metalDistances(metal, layout.nodeCount, layout.fenceTerminal, 'faults')
        : distanceM;
      this.#ways = { distanceM, mendedDistanceM };
    }
    return this.#ways;
  }

  /** Status of a strand of a role at a node, as switches and faults stand now. */
  statusOf(role: 'hot' | 'grounded', node: number): StrandStatus {
    return strandStatus(role, this.distanceM[node]!, this.mendedDistanceM[node]!);
  }

  /** The hot strands that the verdict looks at, post by post. */
  get hot(): HotPosts {
    this.#hot ??= hotPosts(this);
    return this.#hot;
  }

  /** By node: the volts that the plan's target compares, to earth or across the animal. */
  get compared(): Float64Array {
    return this.plan.target.of === 'to earth' ? this.volts : this.animal.volts;
  }

  /** The weakest post by the plan's target. */
  lowest(): Lowest {
    return lowestOf(this.hot, this.compared, this.plan.target.volts);
  }

  /** Gives an element another conductance, S. Metal at 0 S is parted by a fault, and mended where it has more. */
  setElement(e: number, siemens: number): void {
    this.siemens[e] = siemens;
    this.#partMetal(e, siemens);
    const branch = this.branchOf[e]!;
    if (branch >= 0) {
      this.circuit.setBranchSiemens(branch, siemens);
    } else {
      this.#leaks ??= leaksByNode(this.network, this.branchOf);
      const node = this.network.elements.nodeA[e]!;
      const put = this.#addedLeaks?.[node] ?? 0;
      this.circuit.setLeakSiemens(node, this.#leaks.sum(node, this.siemens) + put);
    }
    this.#changed();
  }

  #partMetal(e: number, siemens: number): void {
    if (!isMetal(this.network.elements.kind[e]!)) return;
    const by = siemens > 0 ? openBy.nothing : this.open[e] === openBy.nothing ? openBy.fault : this.open[e]!;
    if (by === this.open[e]) return;
    this.open[e] = by;
    this.#ways = undefined;
    this.#hot = undefined;
  }

  /** Makes a change; metal is parted and mended as by `setElement`. */
  set({ elements, siemens, gaps }: FenceChange): void {
    for (let n = 0; n < elements.length; n++) {
      this.siemens[elements[n]!] = siemens[n]!;
      this.#partMetal(elements[n]!, siemens[n]!);
    }
    // A gap whose threshold no volts reach does not fire.
    for (let n = 0; gaps !== undefined && n < gaps.length; n++) this.#gaps!.volts[gaps[n]!] = Number.MAX_VALUE;
    this.#write();
  }

  /** Gives every element another conductance, S. */
  setAll(siemens: ArrayLike<number>): void {
    this.siemens.set(siemens);
    this.#write();
  }

  /**
   * Sets a value for each of the network's parameters, and the energizer's output as a multiple of its typical volts at
   * every load.
   */
  setValues(values: ArrayLike<number>, sourceFactor = 1): void {
    const { network, formulaSiemens, siemens, open } = this;
    const { formulas, parameters, elements, sparkGaps } = network;
    this.#program ??= new FormulaProgram(formulas, parameters.length);
    this.values.set(values);
    this.#program.run(values, formulaSiemens);
    const { formula, count } = elements;
    for (let e = 0; e < count; e++) siemens[e] = open[e] === openBy.nothing ? formulaSiemens[formula[e]!]! : 0;
    sparkGaps.forEach((gap, i) => {
      this.#gaps!.volts[i] = values[gap.volts]!;
      this.#gaps!.ohms[i] = sparkOhms(values[gap.ohms]!);
    });
    this.setCurve(new SourceCurve(this.#curve.map(([amps, volts]) => [amps * sourceFactor, volts * sourceFactor])));
    this.#write();
  }

  /** Puts another leak to remote earth at a node, S, besides those of the elements there. */
  addLeak(node: number, siemens: number): void {
    this.#addedLeaks ??= new Float64Array(this.layout.nodeCount);
    this.#addedLeaks[node]! += siemens;
    this.#write();
  }

  /** Takes a network of the same elements and parameters with other values, at their typical values. */
  setNetwork(network: FenceNetwork): void {
    this.#network = network;
    this.#program = undefined;
    this.setValues(typicalValues(network.parameters));
  }

  /** Takes another output curve. */
  setCurve(curve: SourceCurve): void {
    this.circuit.setSource(curve);
    this.#changed();
  }

  /** Opens an element, or closes it again at the conductance of its formula. */
  setOpen(e: number, by: number): void {
    if (by !== this.open[e]) {
      this.open[e] = by;
      this.#ways = undefined;
      this.#hot = undefined;
    }
    this.setElement(e, by === openBy.nothing ? this.formulaSiemens[this.network.elements.formula[e]!]! : 0);
  }

  /** Answers a question about the fence as a change would leave it, and puts everything back. */
  tried<Answer>(change: FenceChange, ask: (fence: this) => Answer): Answer {
    const siemens = this.siemens.slice();
    const gapVolts = this.#gaps?.volts.slice();
    const [open, ways, hot] = [this.open.slice(), this.#ways, this.#hot];
    this.set(change);
    try {
      return ask(this);
    } finally {
      if (gapVolts !== undefined) this.#gaps!.volts.set(gapVolts);
      this.open.set(open);
      [this.#ways, this.#hot] = [ways, hot];
      this.setAll(siemens);
    }
  }

  #write(): void {
    const { branchSiemens, leakSiemens } = this.circuit.network;
    setSiemens(this.network, this.branchOf, this.siemens, branchSiemens, leakSiemens);
    this.#addedLeaks?.forEach((siemens, node) => {
      leakSiemens[node]! += siemens;
    });
    this.circuit.valuesChanged();
    this.#changed();
  }

  #changed(): void {
    this.#solved = false;
    this.#animal = undefined;
  }
}

/** A network whose spark gaps' values are its own, to be changed. */
const withOwnGaps = (network: Network): Network => {
  const { gaps } = network;
  return { ...network, gaps: gaps && { ...gaps, volts: gaps.volts.slice(), ohms: gaps.ohms.slice() } };
};

/**
 * Opens a plan in one of its conditions: builds the network and solves it.
 *
 * Throws a {@link PlanError} for a condition that the plan does not have, and for a plan that was changed after it was
 * read so that it no longer holds together.
 */
export function openFence(
  plan: ResolvedPlan,
  condition: string | ResolvedCondition,
  options: OpenFenceOptions = {},
): OpenFence {
  try {
    return open(plan, typeof condition === 'string' ? pickConditions(plan, [condition])[0]! : condition, options);
  } catch (error) {
    return throwChangedPlan(plan, error);
  }
}

function open(plan: ResolvedPlan, condition: ResolvedCondition, { like, ...build }: OpenFenceOptions): OpenFence {
  const network = buildNetwork(plan, condition, build);
  const formulaSiemens = new Float64Array(network.formulas.length);
  new FormulaProgram(network.formulas, network.parameters.length).run(
    typicalValues(network.parameters),
    formulaSiemens,
  );
  const siemens = elementSiemens(network, formulaSiemens);
  const engine = toEngineNetwork(network, siemens);
  const source = new SourceCurve(curvePoints(plan.energizer, condition));
  const known =
    like !== undefined && isSameShape(like.circuit.network, engine.network) ? like.circuit.analysis : undefined;
  const fence = new OpenFence(network, engine, siemens, new Circuit(engine.network, source, known));
  fence.formulaSiemens.set(formulaSiemens);
  for (const ways of network.animalFaults) settleAnimal(fence, ways);
  // Asked once, so that a plan that does not hold together is refused here and not later.
  fence.lowest();
  return fence;
}

/** Lets an animal in contact go by the way back that gives it more amps: the soil, or the grounded strand. */
function settleAnimal(fence: OpenFence, { toEarth, toGrounded }: FenceNetwork['animalFaults'][number]): void {
  const between = Math.abs(fence.amps(toGrounded));
  fence.setOpen(toGrounded, openBy.otherWay);
  fence.setOpen(toEarth, openBy.nothing);
  if (Math.abs(fence.amps(toEarth)) > between) return;
  fence.setOpen(toEarth, openBy.otherWay);
  fence.setOpen(toGrounded, openBy.nothing);
}
