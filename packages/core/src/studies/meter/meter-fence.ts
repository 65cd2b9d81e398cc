import { Circuit } from '../../engine/circuit.js';
import { SourceCurve } from '../../engine/source-curve.js';
import { curvePoints } from '../../network/curve.js';
import { type Elements, kindCode, openBy } from '../../network/elements.js';
import { elementSiemens, nearestGrounded, toCircuit } from '../../network/fence-circuit.js';
import { type FenceNetwork, recipeValues } from '../../network/network.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import { type SolvedFence, solveFence } from '../../result/solved-fence.js';
import { DrawnFence } from '../spread/drawn-fence.js';
import { chargedLengthM } from './background.js';
import { Groups } from './groups.js';

/** A fault put into a circuit: ohms from a node to earth, or ohms that a branch has more; Infinity parts it. */
export type PlacedFault =
  | { readonly kind: 'leak'; readonly node: number; readonly ohms: number }
  | { readonly kind: 'series'; readonly branch: number; readonly ohms: number }
  /** Across a branch of no conductance that stands between two strands. */
  | { readonly kind: 'contact'; readonly branch: number; readonly ohms: number };

/** A plan in one condition as a fence meter meets it: uncertain values that can be set, faults that can be put in. */
export class MeterFence {
  readonly solved: SolvedFence;
  readonly groups: Groups;
  /** By node: metres of fence charged there. */
  readonly chargedM: Float64Array;
  /** By element that stands between two strands for a fault yet to come: its branch. */
  readonly contactBranches: readonly number[];
  readonly #drawn: DrawnFence;

  constructor(plan: ResolvedPlan, condition: ResolvedCondition) {
    this.solved = withContacts(solveFence(plan, condition));
    const { fence, map } = this.solved;
    this.groups = new Groups(fence);
    this.chargedM = chargedLengthM(fence);
    this.#drawn = new DrawnFence(this.solved);
    const contacts: number[] = [];
    for (let e = 0; e < fence.elements.count; e++) if (isContact(fence, e)) contacts.push(map.branchOf[e]!);
    this.contactBranches = contacts;
  }

  get fence(): FenceNetwork {
    return this.solved.fence;
  }

  /** The circuit whose values `set` writes, its source the energizer's curve. */
  get circuit(): Circuit {
    return this.#drawn.circuit;
  }

  /** Siemens of every recipe, of the last values set. */
  get recipeSiemens(): Float64Array {
    return this.#drawn.recipeSiemens;
  }

  /** Sets the groups and puts faults in. */
  set(z: ArrayLike<number>, faults: readonly PlacedFault[] = []): void {
    this.#drawn.set(this.groups.values(z), this.groups.sourceFactor(z));
    const { branchSiemens, leakSiemens } = this.circuit.network;
    for (const fault of faults) {
      if (fault.kind === 'leak') leakSiemens[fault.node]! += 1 / fault.ohms;
      else branchSiemens[fault.branch] = faultedSiemens(fault, branchSiemens[fault.branch]!);
    }
  }

  /**
   * Volts of every node that the charging current alone adds for one ampere a metre and volt, the terminals held: its
   * differences are the charging current in the wire. A new array.
   */
  chargingVolts(circuit: Circuit): Float64Array {
    const { volts } = circuit.solve();
    const drop = new Float64Array(volts.length);
    for (let node = 0; node < drop.length; node++) drop[node] = -this.chargedM[node]! * volts[node]!;
    circuit.factor.solve(drop, drop, Number.POSITIVE_INFINITY);
    return drop;
  }
}

/** Siemens of a branch with a series fault or a contact in it. */
export function faultedSiemens(fault: PlacedFault & { kind: 'series' | 'contact' }, siemens: number): number {
  if (fault.kind === 'contact') return siemens + 1 / fault.ohms;
  return fault.ohms === Number.POSITIVE_INFINITY || siemens === 0 ? 0 : 1 / (1 / siemens + fault.ohms);
}

const isContact = ({ elements, recipes }: FenceNetwork, e: number): boolean =>
  elements.kind[e] === kindCode['fault contact'] && recipes[elements.recipe[e]!]!.terms.length === 0;

/**
 * The same fence with a branch of no conductance from each hot strand to the grounded one beside it, at every post, and with
 * the plan's spark gaps left open.
 */
function withContacts(solved: SolvedFence): SolvedFence {
  const { fence } = solved;
  const { plan, condition, layout, elements } = fence;
  const added: { a: number; b: number; run: number; post: number; strand: number }[] = [];
  const seen = new Set<number>();
  layout.runs.forEach((run, r) => {
    run.strands.forEach(({ role }, s) => {
      const g = role === 'hot' ? nearestGrounded(run.strands, s) : -1;
      if (g < 0) return;
      for (let i = 0; i <= run.spans; i++) {
        const a = run.nodes[s]![i]!;
        if (seen.has(a)) continue;
        seen.add(a);
        added.push({ a, b: run.nodes[g]![i]!, run: r, post: i, strand: s });
      }
    });
  });
  const open = fence.recipes.findIndex(({ terms }) => terms.length === 0);
  const column = <T extends Uint8Array | Int32Array | Float64Array>(
    old: T,
    value: (of: (typeof added)[number]) => number,
  ): T => {
    const longer = new (old.constructor as new (length: number) => T)(old.length + added.length);
    longer.set(old);
    added.forEach((of, i) => {
      longer[old.length + i] = value(of);
    });
    return longer;
  };
  const longer: Elements = {
    count: elements.count + added.length,
    kind: column(elements.kind, () => kindCode['fault contact']),
    nodeA: column(elements.nodeA, ({ a }) => a),
    nodeB: column(elements.nodeB, ({ b }) => b),
    recipe: column(elements.recipe, () => open),
    cause: column(elements.cause, () => 0),
    run: column(elements.run, ({ run }) => run),
    post: column(elements.post, ({ post }) => post),
    strand: column(elements.strand, ({ strand }) => strand),
    lengthM: column(elements.lengthM, () => 0),
    open: column(elements.open, () => openBy.nothing),
  };
  const wider: FenceNetwork = { ...fence, elements: longer, sparkGaps: [] };
  const siemens = elementSiemens(wider, recipeValues(wider));
  const map = toCircuit(wider, siemens);
  const circuit = new Circuit(
    { ...map.network, gaps: undefined },
    new SourceCurve(curvePoints(plan.energizer, condition)),
  );
  return { ...solved, fence: wider, siemens, map, circuit, volts: circuit.solve().volts };
}
