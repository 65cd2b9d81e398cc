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

/** What happens at single places of the runs, looked up by place: faults of the condition, switches and gates. */
export class FaultBook {
  readonly active: readonly ResolvedFault[];
  readonly #states = new Map<string, InsulatorState>();
  readonly #broken = new Set<string>();
  readonly #splices = new Map<string, Splice[]>();
  readonly #switches = new Map<string, Switch>();
  readonly #gates = new Map<string, Gate>();

  constructor(plan: ResolvedPlan, condition: ResolvedCondition, layout: Layout) {
    this.active = plan.faults.filter((f) => f.conditions === null || f.conditions.includes(condition.id));
    for (const fault of this.active) {
      const row = plan.rows.faults[fault.kind]!;
      const r = layout.runOf.get(fault.run)!;
      const key = place(r, fault.post, layout.runs[r]!.strandOf.get(fault.strand)!);
      if (row.path === 'insulator') this.#states.set(key, row.insulatorState ?? 'cracked');
      if (row.path !== 'series') continue;
      const estimate = fault.ohms ?? row.ohms;
      if (estimate === null) this.#broken.add(key);
      else
        this.#splices.set(key, [...(this.#splices.get(key) ?? []), { id: fault.id, kind: fault.kind, ohms: estimate }]);
    }
    for (const s of plan.switches) {
      this.#switches.set(place(layout.runOf.get(s.run)!, s.post), {
        open: s.openIn.includes(condition.id),
        joint: s.joint,
      });
    }
    for (const gate of plan.gates) {
      this.#gates.set(place(layout.runOf.get(gate.run)!, gate.post), {
        takes: (role) => role === 'hot' || gate.carriesGrounded,
      });
    }
  }

  insulatorState(run: number, post: number, strand: number): InsulatorState | null {
    return this.#states.size === 0 ? null : (this.#states.get(place(run, post, strand)) ?? null);
  }

  isBroken(run: number, span: number, strand: number): boolean {
    return this.#broken.size > 0 && this.#broken.has(place(run, span, strand));
  }

  spliceAt(run: number, span: number, strand: number): readonly Splice[] {
    return this.#splices.size === 0 ? [] : (this.#splices.get(place(run, span, strand)) ?? []);
  }

  switchAt(run: number, span: number): Switch | null {
    return this.#switches.size === 0 ? null : (this.#switches.get(place(run, span)) ?? null);
  }

  gateAt(run: number, span: number): Gate | null {
    return this.#gates.size === 0 ? null : (this.#gates.get(place(run, span)) ?? null);
  }

  /** True at the posts on both sides of a gate, where strands end. */
  hasGate(run: number, post: number): boolean {
    return this.gateAt(run, post) !== null || this.gateAt(run, post - 1) !== null;
  }
}

const place = (run: number, post: number, strand = -1): string => `${run}|${post}|${strand}`;
