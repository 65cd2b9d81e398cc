import type { Estimate } from '@postvolt/tables';

/** What a value is of; values of one kind are uncertain for the same reason. */
export type ParameterKind =
  | 'wire'
  | 'film'
  | 'insulator body'
  | 'post'
  | 'soil'
  | 'growth'
  | 'joint'
  | 'ground system'
  | 'animal'
  | 'fault';

/** An input value that conductances are made of. */
export interface Parameter {
  /** Unique in a network, and the same in every condition where the same value is used. */
  readonly key: string;
  readonly kind: ParameterKind;
  /** In words. */
  readonly name: string;
  readonly estimate: Estimate;
  /** Table and row, such as `wires: 12.5 ga high-tensile`. */
  readonly from: string;
  /** Values with the same text rise and fall together: the films of one run, the soil of the farm. */
  readonly together: string;
}

/** factor × product of parameter^exponent, in ohms (series) or siemens (parallel). */
export interface Term {
  readonly factor: number;
  readonly powers: readonly { readonly parameter: number; readonly exponent: number }[];
}

/** How a conductance follows from parameters: terms in series add as ohms, in parallel as siemens; no term at all is an open path. */
export interface Recipe {
  readonly combine: 'series' | 'parallel';
  readonly terms: readonly Term[];
}

/** The open path: 0 S. */
export const openRecipe: Recipe = { combine: 'parallel', terms: [] };

/** Collects the parameters and recipes of one network; equal ones are kept once. */
export class RecipeBook {
  readonly parameters: Parameter[] = [];
  readonly recipes: Recipe[] = [];
  readonly #parameterOf = new Map<string, number>();
  readonly #recipeOf = new Map<string, number>();

  parameter(parameter: Parameter): number {
    const known = this.#parameterOf.get(parameter.key);
    if (known !== undefined) return known;
    this.parameters.push(parameter);
    this.#parameterOf.set(parameter.key, this.parameters.length - 1);
    return this.parameters.length - 1;
  }

  recipe(recipe: Recipe): number {
    const key = `${recipe.combine}${recipe.terms.map((t) => `|${t.factor}${t.powers.map((p) => `*${p.parameter}^${p.exponent}`).join('')}`).join('')}`;
    const known = this.#recipeOf.get(key);
    if (known !== undefined) return known;
    this.recipes.push(recipe);
    this.#recipeOf.set(key, this.recipes.length - 1);
    return this.recipes.length - 1;
  }
}

const termValue = (term: Term, at: (parameter: number, exponent: number) => number): number => {
  let value = term.factor;
  for (const { parameter, exponent } of term.powers) value *= at(parameter, exponent) ** exponent;
  return value;
};

/** Siemens of a recipe; `values` holds a value per parameter. */
export function recipeSiemens(recipe: Recipe, values: ArrayLike<number>): number {
  let sum = 0;
  for (const term of recipe.terms) sum += termValue(term, (p) => values[p]!);
  return recipe.combine === 'parallel' ? sum : 1 / sum;
}

/**
 * Derivative of a recipe's siemens with respect to the natural logarithm of each parameter it uses, as
 * [parameter, siemens] pairs.
 */
export function recipeSensitivity(recipe: Recipe, values: ArrayLike<number>): [number, number][] {
  const siemens = recipeSiemens(recipe, values);
  const scale = recipe.combine === 'parallel' ? 1 : -siemens * siemens;
  const sums = new Map<number, number>();
  for (const term of recipe.terms) {
    const value = termValue(term, (p) => values[p]!);
    for (const { parameter, exponent } of term.powers) {
      sums.set(parameter, (sums.get(parameter) ?? 0) + scale * value * exponent);
    }
  }
  return [...sums];
}

/** Lowest and highest siemens over the ranges of the parameters, each term taken at its own extremes. */
export function recipeRange(recipe: Recipe, parameters: readonly Parameter[]): { low: number; high: number } {
  const extreme = (least: boolean) => {
    let sum = 0;
    for (const term of recipe.terms) {
      sum += termValue(term, (p, exponent) => {
        const { low, high } = parameters[p]!.estimate;
        return exponent > 0 === least ? low : high;
      });
    }
    return sum;
  };
  const [low, high] = [extreme(true), extreme(false)];
  return recipe.combine === 'parallel' ? { low, high } : { low: 1 / high, high: 1 / low };
}

/** A gap that carries max(0, |V| − firing volts) / ohms once it fires; its element in the list conducts nothing by itself. */
export interface SparkGap {
  readonly element: number;
  /** Parameters. */
  readonly volts: number;
  readonly ohms: number;
}

/** The typical value of every parameter. */
export const typicalValues = (parameters: readonly Parameter[]): Float64Array =>
  Float64Array.from(parameters, (p) => p.estimate.typical);
