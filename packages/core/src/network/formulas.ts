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
  readonly tableRow: string;
  /** Values with the same text rise and fall together: the films of one run, the soil of the farm. */
  readonly group: string;
}

/** factor × product of parameter^exponent, in ohms (series) or siemens (parallel). */
export interface Term {
  readonly factor: number;
  readonly powers: readonly { readonly parameter: number; readonly exponent: number }[];
}

/** How a conductance follows from parameters: terms in series add as ohms, in parallel as siemens; no term at all is an open path. */
export interface Formula {
  readonly combine: 'series' | 'parallel';
  readonly terms: readonly Term[];
}

/** The open path: 0 S. */
export const openFormula: Formula = { combine: 'parallel', terms: [] };

/** Collects the parameters and formulas of one network; equal ones are kept once. */
export class FormulaList {
  readonly parameters: Parameter[] = [];
  readonly formulas: Formula[] = [];
  readonly #parameterOf = new Map<string, number>();
  readonly #formulaOf = new Map<string, number>();

  parameter(parameter: Parameter): number {
    const known = this.#parameterOf.get(parameter.key);
    if (known !== undefined) return known;
    this.parameters.push(parameter);
    this.#parameterOf.set(parameter.key, this.parameters.length - 1);
    return this.parameters.length - 1;
  }

  formula(formula: Formula): number {
    const key = `${formula.combine}${formula.terms.map((t) => `|${t.factor}${t.powers.map((p) => `*${p.parameter}^${p.exponent}`).join('')}`).join('')}`;
    const known = this.#formulaOf.get(key);
    if (known !== undefined) return known;
    this.formulas.push(formula);
    this.#formulaOf.set(key, this.formulas.length - 1);
    return this.formulas.length - 1;
  }
}

const termValue = (term: Term, at: (parameter: number, exponent: number) => number): number => {
  let value = term.factor;
  for (const { parameter, exponent } of term.powers) value *= at(parameter, exponent) ** exponent;
  return value;
};

/** Siemens of a formula; `values` holds a value per parameter. */
export function formulaSiemens(formula: Formula, values: ArrayLike<number>): number {
  let sum = 0;
  for (const term of formula.terms) sum += termValue(term, (p) => values[p]!);
  return formula.combine === 'parallel' ? sum : 1 / sum;
}

/**
 * Derivative of a formula's siemens with respect to the natural logarithm of each parameter it uses, as
 * [parameter, siemens] pairs.
 */
export function formulaSensitivity(formula: Formula, values: ArrayLike<number>): [number, number][] {
  const siemens = formulaSiemens(formula, values);
  const scale = formula.combine === 'parallel' ? 1 : -siemens * siemens;
  const sums = new Map<number, number>();
  for (const term of formula.terms) {
    const value = termValue(term, (p) => values[p]!);
    for (const { parameter, exponent } of term.powers) {
      sums.set(parameter, (sums.get(parameter) ?? 0) + scale * value * exponent);
    }
  }
  return [...sums];
}

/** Lowest and highest siemens over the ranges of the parameters, each term taken at its own extremes. */
export function formulaRange(formula: Formula, parameters: readonly Parameter[]): { low: number; high: number } {
  const extreme = (least: boolean) => {
    let sum = 0;
    for (const term of formula.terms) {
      sum += termValue(term, (p, exponent) => {
        const { low, high } = parameters[p]!.estimate;
        return exponent > 0 === least ? low : high;
      });
    }
    return sum;
  };
  const [low, high] = [extreme(true), extreme(false)];
  return formula.combine === 'parallel' ? { low, high } : { low: 1 / high, high: 1 / low };
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
