import type { Formula } from './formulas.js';

/**
 * Formulas as flat arrays, for a fence whose values change thousands of times.
 *
 * Legend: formula r owns terms `termStart[r]` to `termStart[r + 1]` − 1; term t is `factor[t]` times the operands
 * `operandStart[t]` to `operandStart[t + 1]` − 1; operand p stands for the value of parameter p, and p + the number of
 * parameters for one over it.
 */
export class FormulaProgram {
  readonly #parameterCount: number;
  readonly #inSeries: Uint8Array;
  readonly #termStart: Int32Array;
  readonly #factor: Float64Array;
  readonly #operandStart: Int32Array;
  readonly #operand: Int32Array;
  readonly #operandValue: Float64Array;

  /** Exponents are whole numbers. */
  constructor(formulas: readonly Formula[], parameterCount: number) {
    const [termStart, factor, operandStart, operand] = [[0], [] as number[], [0], [] as number[]];
    for (const { terms } of formulas) {
      for (const term of terms) {
        factor.push(term.factor);
        for (const { parameter, exponent } of term.powers) {
          if (!Number.isInteger(exponent)) throw new Error(`a formula with the exponent ${exponent}`);
          const index = exponent < 0 ? parameter + parameterCount : parameter;
          for (let n = Math.abs(exponent); n > 0; n--) operand.push(index);
        }
        operandStart.push(operand.length);
      }
      termStart.push(factor.length);
    }
    this.#parameterCount = parameterCount;
    this.#inSeries = Uint8Array.from(formulas, ({ combine }) => (combine === 'series' ? 1 : 0));
    this.#termStart = Int32Array.from(termStart);
    this.#factor = Float64Array.from(factor);
    this.#operandStart = Int32Array.from(operandStart);
    this.#operand = Int32Array.from(operand);
    this.#operandValue = new Float64Array(2 * parameterCount);
  }

  /** Writes the siemens of every formula for a value per parameter. */
  run(values: ArrayLike<number>, siemens: Float64Array): void {
    const value = this.#operandValue;
    for (let p = 0; p < this.#parameterCount; p++) {
      value[p] = values[p]!;
      value[p + this.#parameterCount] = 1 / values[p]!;
    }
    const inSeries = this.#inSeries;
    const termStart = this.#termStart;
    const factor = this.#factor;
    const operandStart = this.#operandStart;
    const operand = this.#operand;
    for (let r = 0; r < inSeries.length; r++) {
      let sum = 0;
      for (let t = termStart[r]!; t < termStart[r + 1]!; t++) {
        let term = factor[t]!;
        for (let k = operandStart[t]!; k < operandStart[t + 1]!; k++) term *= value[operand[k]!]!;
        sum += term;
      }
      siemens[r] = inSeries[r] === 1 ? 1 / sum : sum;
    }
  }
}
