import type { Circuit } from '../../engine/circuit.js';
import { type OpenFence, openFence } from '../../fence/open-fence.js';
import type { FenceNetwork } from '../../network/network.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
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
  /** The fence whose values `set` writes. */
  readonly open: OpenFence;
  readonly groups: Groups;
  /** By node: metres of fence charged there. */
  readonly chargedM: Float64Array;
  /** By element that stands between two strands for a fault yet to come: its branch. */
  readonly contactBranches: readonly number[];

  constructor(plan: ResolvedPlan, condition: ResolvedCondition) {
    this.open = openFence(plan, condition, { contacts: true });
    const { network, branchOf } = this.open;
    this.groups = new Groups(network);
    this.chargedM = chargedLengthM(network);
    this.contactBranches = Array.from(network.contacts, (e) => branchOf[e]!);
  }

  get fence(): FenceNetwork {
    return this.open.network;
  }

  /** The circuit whose values `set` writes, its source the energizer's curve. */
  get circuit(): Circuit {
    return this.open.circuit;
  }

  /** Siemens of every formula, of the last values set. */
  get formulaSiemens(): Float64Array {
    return this.open.formulaSiemens;
  }

  /** Sets the groups and puts faults in. */
  set(z: ArrayLike<number>, faults: readonly PlacedFault[] = []): void {
    this.open.setValues(this.groups.values(z), this.groups.sourceFactor(z));
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
