import { readQuantity } from '@postvolt/core';
import { InputError } from './input-error.js';

/**
 * Metres of a length written behind an option, such as `330 ft`.
 * @throws InputError that names the option where it is none, or not above zero.
 */
export function readLength(option: string, text: string): number {
  const read = readQuantity(text, 'length', { above: 0 });
  if (read.ok) return read.value;
  const { found, expected, hint } = read.fault;
  throw new InputError(`${option}: found ${found}, expected ${expected}. ${hint}`.trim());
}
