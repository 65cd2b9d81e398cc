import { InputError } from './input-error.js';

/**
 * A whole number given to an option, thousands with commas or without.
 * @throws InputError where it is none; whether it is in range is the asker's matter.
 */
export function readWhole(option: string, text: string): number {
  const digits = text.trim().replace(/,(?=\d{3}(?:,|$))/g, '');
  const value = Number(digits);
  if (/^-?\d+$/.test(digits) && Number.isSafeInteger(value)) return value;
  throw new InputError(`${option}: found ${JSON.stringify(text)}, expected a whole number`);
}
