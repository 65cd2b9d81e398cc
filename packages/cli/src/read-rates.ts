import { readShare } from '@postvolt/core';
import { InputError } from './input-error.js';

/** A whole number from 1 to 100 in an option. */
export function readCount(option: string, text: string, what = 'whole number'): number {
  const count = Number(text.trim());
  if (text.trim() !== '' && Number.isInteger(count) && count >= 1 && count <= 100) return count;
  throw new InputError(`${option}: found ${JSON.stringify(text)}, expected a ${what} from 1 to 100`);
}

/** A whole number of years in an option. */
export const readYears = (option: string, text: string): number => readCount(option, text, 'whole number of years');

/** A part of a whole, up to `most`, in an option: `8 %` or `0.08`. */
export function readPart(option: string, text: string, most = 1): number {
  const read = readShare(text, most);
  if (read.ok) return read.value;
  const { found, expected, hint } = read.fault;
  throw new InputError(`${option}: found ${found}, expected ${expected}. ${hint}`.trimEnd());
}

/** A number above 0 in an option. */
export function readPositive(option: string, text: string): number {
  const value = Number(text.trim());
  if (text.trim() !== '' && Number.isFinite(value) && value > 0) return value;
  throw new InputError(`${option}: found ${JSON.stringify(text)}, expected a number above 0`);
}
