import * as mathjs from 'mathjs';

/** The part of mathjs's Unit that quantities need. */
interface MathUnit {
  toNumber(unit: string): number;
  equalBase(other: MathUnit): boolean;
}
interface MathUnitClass {
  new (value: number | undefined, unit: string): MathUnit;
}

/** A quotient kept by mathjs for 5/9 of a kelvin. */
class Ratio {
  readonly isFraction = true;
  readonly #value: number;
  constructor(over: number, under = 1) {
    this.#value = over / under;
  }
  valueOf(): number {
    return this.#value;
  }
}

// mathjs builds its Unit from arithmetic that is handed in; plain numbers leave its big numbers, fractions and
// matrices out of the bundle (a tenth of the size, and of the start-up time).
// Taken by name from the module: a destructured namespace keeps every function of it in the bundle.
const createUnitClass = (mathjs as unknown as { createUnitClass: (parts: object) => MathUnitClass }).createUnitClass;

const Unit = createUnitClass({
  config: { number: 'number', relTol: 1e-12, absTol: 1e-15, predictable: false },
  addScalar: (a: number, b: number) => a + b,
  subtractScalar: (a: number, b: number) => a - b,
  multiplyScalar: (a: number, b: number) => a * b,
  divideScalar: (a: number, b: number) => a / b,
  pow: (a: number, b: number) => a ** b,
  abs: Math.abs,
  fix: Math.trunc,
  round: Math.round,
  equal: (a: number, b: number) => a === b,
  isNumeric: (value: unknown) => typeof value === 'number',
  format: String,
  number: Number,
  Complex: class {},
  BigNumber: class {},
  Fraction: Ratio,
});

/** Takes off the noise that a conversion leaves in the last digit (0.0002 s as 0.00019999999999999998). */
const tidy = (value: number): number => Number(value.toPrecision(15));

/** A value in `unit` as a number of `target` units; null where mathjs knows no such unit; NaN where the kinds differ. */
export function convert(value: number, unit: string, target: string): number | null {
  let measured: MathUnit;
  try {
    measured = new Unit(value, unit);
  } catch {
    return null;
  }
  return measured.equalBase(new Unit(undefined, target)) ? tidy(measured.toNumber(target)) : Number.NaN;
}
