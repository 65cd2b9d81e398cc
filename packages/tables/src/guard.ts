/** Refuses what is not a positive finite number, by name. */
export function positive(name: string, value: number): number {
  if (!(Number.isFinite(value) && value > 0))
    throw new RangeError(`${name}: found ${value}, expected a number above 0`);
  return value;
}

/** Refuses what is not a finite number of at least 0, by name. */
export function nonNegative(name: string, value: number): number {
  if (!(Number.isFinite(value) && value >= 0)) {
    throw new RangeError(`${name}: found ${value}, expected a number of at least 0`);
  }
  return value;
}

/** Refuses what is not a whole number from 1 to `most`, by name. */
export function wholeNumber(name: string, value: number, most: number): number {
  if (!(Number.isInteger(value) && value >= 1 && value <= most)) {
    throw new RangeError(`${name}: found ${value}, expected a whole number from 1 to ${most}`);
  }
  return value;
}
