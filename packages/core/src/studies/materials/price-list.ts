import { type Estimate, labourPerHour, type PriceGroup, type PriceRow, prices, works } from '@postvolt/tables';
import { defaults } from '../../plan/defaults.js';
import type { ResolvedPlan } from '../../plan/resolved.js';

/** An amount with its range, in the plan's currency. */
export interface Money {
  readonly low: number;
  readonly typical: number;
  readonly high: number;
}

/** No money at all. */
export const noMoney: Money = { low: 0, typical: 0, high: 0 };

/** The sum of two amounts, end by end: their ranges are taken to be wrong the same way. */
export const plus = (a: Money, b: Money): Money => ({
  low: a.low + b.low,
  typical: a.typical + b.typical,
  high: a.high + b.high,
});

/** So many times an amount. */
export const times = (a: Money, by: number): Money => ({ low: a.low * by, typical: a.typical * by, high: a.high * by });

const rowsOf = new Map<string, PriceRow>(prices.map((row) => [`${row.group} ${row.id}`, row]));
const workOf = new Map(works.map((row) => [row.id, row]));

/** The prices to reckon with: the plan's own, for the row before the kind, then the invented default rates. */
export class PriceList {
  readonly #plan: ResolvedPlan;
  readonly currency: string;

  constructor(plan: ResolvedPlan) {
    this.#plan = plan;
    this.currency = plan.prices?.currency ?? defaults.currency;
  }

  /** Price of a wire a metre. */
  wire(id: string): Estimate {
    const { kind } = this.#plan.rows.wires[id]!;
    return this.#find('wires', id, kind === 'cable' ? 'insulated cable' : `${kind} wire`)!;
  }

  post(id: string): Estimate {
    return this.#find('posts', id, `${this.#plan.rows.posts[id]!.kind} post`)!;
  }

  insulator(id: string): Estimate {
    return this.#find('insulators', id, `${this.#plan.rows.insulators[id]!.material} insulator`)!;
  }

  /** Price of an energizer of a class; null where the class has none. */
  energizer(id: string | null): Estimate | null {
    return id === null ? null : this.#find('energizers', id, id);
  }

  /** Price of a part, by its row of the prices; a metre for rods. */
  part(id: string): Estimate {
    return this.#find('parts', id, id)!;
  }

  /** Years of service of a part. */
  partYears(id: string): Estimate {
    return rowsOf.get(`parts ${id}`)!.serviceYears!;
  }

  get labour(): Estimate {
    return this.#plan.prices?.labourPerHour ?? labourPerHour;
  }

  /** Hours of a work, the piece or the metre. */
  hours(id: string): Estimate {
    return this.#plan.prices?.hours[id] ?? workOf.get(id)!.hours;
  }

  /** Money for so many pieces or metres of a work. */
  workMoney(id: string, amount: number): Money {
    const { labour } = this;
    const hours = this.hours(id);
    return {
      low: amount * hours.low * labour.low,
      typical: amount * hours.typical * labour.typical,
      high: amount * hours.high * labour.high,
    };
  }

  #find(group: PriceGroup, id: string, kind: string): Estimate | null {
    const own = new Map(Object.entries(this.#plan.prices?.[group] ?? {}));
    return own.get(id) ?? own.get(kind) ?? rowsOf.get(`${group} ${kind}`)?.money ?? null;
  }
}
