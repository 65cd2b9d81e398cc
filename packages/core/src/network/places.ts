import type { Estimate, InsulatorState } from '@postvolt/tables';
import type { ResolvedCondition, ResolvedFault, ResolvedPlan } from '../plan/resolved.js';
import type { Layout } from './layout.js';

/** What stands in series with the wire of a span, or the cable of a gate. */
export interface InSeries {
  /** Switches there, by number in the plan; all are in series. */
  readonly switches: readonly number[];
  /** Faults in series there, by number in the plan, with their ohms; null for a broken wire. */
  readonly faults: readonly { readonly fault: number; readonly ohms: Estimate | null }[];
}

/** Nothing in series. */
export const nothingInSeries: InSeries = { switches: [], faults: [] };

/** What happens at single places of the runs in one condition, looked up by place: faults, switches and gates. */
export class Places {
  /** Faults that are there in the condition, with their numbers in the plan. */
  readonly activeFaults: readonly (readonly [number: number, fault: ResolvedFault])[];
  readonly #openSwitch: readonly boolean[];
  readonly #states = new Map<string, { readonly state: InsulatorState; readonly fault: number }>();
  readonly #series = new Map<string, InSeries['faults'][number][]>();
  readonly #switches = new Map<string, number[]>();
  readonly #gates = new Map<string, number>();
  readonly #isQuiet: boolean;

  constructor(plan: ResolvedPlan, condition: ResolvedCondition, layout: Layout) {
    this.activeFaults = [...plan.faults.entries()].filter(
      ([, { conditions }]) => conditions === null || conditions.includes(condition.id),
    );
    for (const [number, fault] of this.activeFaults) {
      const row = plan.rows.faults[fault.kind]!;
      const r = layout.runOf.get(fault.run)!;
      const key = `${r}|${fault.post}|${layout.runs[r]!.strandOf.get(fault.strand)}`;
      if (row.path === 'insulator') this.#states.set(key, { state: row.insulatorState ?? 'cracked', fault: number });
      if (row.path === 'series') push(this.#series, key, { fault: number, ohms: fault.ohms ?? row.ohms });
    }
    this.#openSwitch = plan.switches.map(({ openIn }) => openIn.includes(condition.id));
    plan.switches.forEach((own, number) => {
      push(this.#switches, `${layout.runOf.get(own.run)}|${own.post}`, number);
    });
    plan.gates.forEach((gate, number) => {
      this.#gates.set(`${layout.runOf.get(gate.run)}|${gate.post}`, number);
    });
    this.#isQuiet = this.#states.size + this.#series.size + this.#switches.size + this.#gates.size === 0;
  }

  /** State that a fault gives the insulator of a strand at a post, with the fault's number; null where none does. */
  insulatorFault(run: number, post: number, strand: number) {
    if (this.#isQuiet) return null;
    return this.#states.get(`${run}|${post}|${strand}`) ?? null;
  }

  /** What stands in series with a strand on a span; switches open hot strands only. */
  inSeries(run: number, span: number, strand: number, role: 'hot' | 'grounded'): InSeries {
    if (this.#isQuiet) return nothingInSeries;
    const switches = role === 'hot' ? this.#switches.get(`${run}|${span}`) : undefined;
    const faults = this.#series.get(`${run}|${span}|${strand}`);
    return switches === undefined && faults === undefined
      ? nothingInSeries
      : { switches: switches ?? [], faults: faults ?? [] };
  }

  isOpen(switchNumber: number): boolean {
    return this.#openSwitch[switchNumber]!;
  }

  /** Number of the gate on a span; null where there is none. */
  gateAt(run: number, span: number): number | null {
    if (this.#isQuiet) return null;
    return this.#gates.get(`${run}|${span}`) ?? null;
  }
}

function push<Key, Item>(lists: Map<Key, Item[]>, key: Key, item: Item): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [item]);
  else list.push(item);
}
