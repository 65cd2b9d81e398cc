import type { Estimate, SoilState } from '@postvolt/tables';
import type { ResolvedCondition, ResolvedPlan } from '../plan/resolved.js';
import { calibrated, type Shift, shiftsOf } from './calibrate.js';
import { Memo } from './memo.js';
import { openRecipe, type Parameter, type RecipeBook, type Term } from './parameters.js';

/** A parameter to the first power, and one divided by. */
export const one = (parameter: number) => ({ parameter, exponent: 1 });
export const per = (parameter: number) => ({ parameter, exponent: -1 });

/** What the makers of recipes share: the plan in one condition, the book they write in, and what they have made already. */
export class RecipeMaker {
  readonly plan: ResolvedPlan;
  readonly condition: ResolvedCondition;
  readonly #book: RecipeBook;
  readonly #shifts: ReadonlyMap<string, Shift>;
  /** Recipes already made, by their arguments: a post a call must stay cheap. */
  readonly #made = new Memo<number>();

  constructor(plan: ResolvedPlan, condition: ResolvedCondition, book: RecipeBook) {
    this.plan = plan;
    this.condition = condition;
    this.#book = book;
    this.#shifts = shiftsOf(plan.calibration);
  }

  once(key: readonly (string | number)[], make: () => number): number {
    return this.#made.once(key, make);
  }

  parameter(
    kind: Parameter['kind'],
    key: string,
    name: string,
    estimate: Estimate,
    from: string,
    together = key,
  ): number {
    const shift = this.#shifts.get(together);
    const own = shift === undefined ? estimate : calibrated(estimate, shift);
    return this.#book.parameter({ kind, key, name, estimate: own, from, together });
  }

  series(terms: Term[]): number {
    return this.#book.recipe({ combine: 'series', terms });
  }

  parallel(terms: Term[]): number {
    return this.#book.recipe({ combine: 'parallel', terms });
  }

  get open(): number {
    return this.#book.recipe(openRecipe);
  }

  /** Topsoil or deep resistivity of a soil in the condition's state, or in another. */
  soil(id: string, depth: 'topsoil' | 'deep', state: SoilState = this.condition.soil): number {
    const at = this.plan.rows.soils[id]!.states[state];
    const estimate = depth === 'deep' ? at.deepOhmM : at.topsoilOhmM;
    const name = depth === 'deep' ? `${state} ${id} at rod depth` : `${state} ${id}, topsoil`;
    return this.parameter('soil', `soil|${id}|${state}|${depth}`, name, estimate, `soils: ${id}`, `soil|${id}`);
  }
}
