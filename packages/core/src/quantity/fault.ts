import type { Kind } from './kinds.js';

/** What is wrong with a quantity, as data; a plan's issue adds the place. */
export interface QuantityFault {
  readonly code: 'missing-unit' | 'bad-quantity' | 'wrong-unit' | 'out-of-range';
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
}

/** A value in SI, or what is wrong with what was written. */
export type QuantityOutcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly fault: QuantityFault };

/** A failed outcome; `found` is shown as it stood. */
export const fail = (
  code: QuantityFault['code'],
  found: unknown,
  expected: string,
  hint = '',
): { readonly ok: false; readonly fault: QuantityFault } => ({
  ok: false,
  fault: { code, found: showFound(found), expected, hint },
});

/** Shows a value as it stood, short enough for a line. */
export function showFound(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return 'an empty value';
  if (typeof value === 'string') return value.length > 60 ? `"${value.slice(0, 57)}..."` : `"${value}"`;
  if (typeof value === 'number' || typeof value === 'boolean' || typeof value === 'bigint') return String(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  return typeof value === 'object' ? 'a map' : `a ${typeof value}`;
}

/** `a, b or c` */
export const either = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;

/** `a length such as 1320 ft or 400 m` */
export const wordKind = ({ noun, examples }: Kind): string => `${noun} such as ${either(examples)}`;
