import type { Estimate, InsulatorState } from '@postvolt/tables';
import type { ResolvedCondition, ResolvedFault, ResolvedPlan } from '../plan/resolved.js';
import type { Layout } from './layout.js';

interface Splice {
  readonly id: string;
  readonly kind: string;
  readonly ohms: Estimate;
}

interface Switch {
  readonly open: boolean;
  readonly joint: string;
}

interface Gate {
  takes(role: 'hot' | 'grounded'): boolean;
}

/** Things by run, post and, maybe, strand: they are asked for at every post, and are at hardly any. */
class Places<Thing> {
  readonly #byRun: Map<number, Map<number, Thing>>[] = [];

  get(run: number, post: number, strand = -1): Thing | undefined {
    return this.#byRun[run]?.get(post)?.get(strand);
  }

  set(thing: Thing, run: number, post: number, strand = -1): void {
    this.#byRun[run] ??= new Map();
    const ofRun = this.#byRun[run]!;
    const ofPost = ofRun.get(post) ?? new Map<number, Thing>();
    ofRun.set(post, ofPost.set(strand, thing));
  }
}

/** What happens at single places of the runs, looked up by place: faults of the condition, switches and gates. */
export class FaultBook {
  readonly active: readonly ResolvedFault[];
  readonly #states = new Places<InsulatorState>();
  readonly #broken = new Places<true>();
  readonly #splices = new Places<Splice[]>();
  readonly #switches = new Places<Switch>();
  readonly #gates = new Places<Gate>();

  constructor(plan: ResolvedPlan, condition: ResolvedCondition, layout: Layout) {
    this.active = plan.faults.filter((f) => f.conditions === null || f.conditions.includes(condition.id));
    for (const fault of this.active) {
      const row = plan.rows.faults[fault.kind]!;
      const r = layout.runOf.get(fault.run)!;
      const place = [r, fault.post, layout.runs[r]!.strandOf.get(fault.strand)!] as const;
      if (row.path === 'insulator') this.#states.set(row.insulatorState ?? 'cracked', ...place);
      if (row.path !== 'series') continue;
      const estimate = fault.ohms ?? row.ohms;
      if (estimate === null) this.#broken.set(true, ...place);
      else {
        const before = this.#splices.get(...place) ?? [];
        this.#splices.set([...before, { id: fault.id, kind: fault.kind, ohms: estimate }], ...place);
      }
    }
    for (const s of plan.switches) {
      const state = { open: s.openIn.includes(condition.id), joint: s.joint };
      this.#switches.set(state, layout.runOf.get(s.run)!, s.post);
    }
    for (const gate of plan.gates) {
      const takes = (role: 'hot' | 'grounded') => role === 'hot' || gate.carriesGrounded;
      this.#gates.set({ takes }, layout.runOf.get(gate.run)!, gate.post);
    }
  }

  insulatorState(run: number, post: number, strand: number): InsulatorState | null {
    return this.#states.get(run, post, strand) ?? null;
  }

  isBroken(run: number, span: number, strand: number): boolean {
    return this.#broken.get(run, span, strand) !== undefined;
  }

  spliceAt(run: number, span: number, strand: number): readonly Splice[] {
    return this.#splices.get(run, span, strand) ?? [];
  }

  switchAt(run: number, span: number): Switch | null {
    return this.#switches.get(run, span) ?? null;
  }

  gateAt(run: number, span: number): Gate | null {
    return this.#gates.get(run, span) ?? null;
  }

  /** True at the posts on both sides of a gate, where strands end. */
  hasGate(run: number, post: number): boolean {
    return this.gateAt(run, post) !== null || this.gateAt(run, post - 1) !== null;
  }
}
