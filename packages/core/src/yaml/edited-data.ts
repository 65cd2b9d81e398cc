/** Plain data of a document, as a writer changes it in place. */
export type Fields = { [key: string]: unknown };

/** Stands in a list where an item is taken out, so that the others keep their numbers until the text is written. */
export const removed = Symbol('removed');

/** An item at the end of a list that belongs in front of all others. */
export class InFront {
  constructor(readonly value: unknown) {}
}

export const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && !(value instanceof InFront);

/** The data as they read once the edits are written. */
export function settled(value: unknown): unknown {
  if (Array.isArray(value)) {
    const kept = value.filter((item) => item !== removed);
    const front = kept.filter((item) => item instanceof InFront).map((item) => settled(item.value));
    return [...front, ...kept.filter((item) => !(item instanceof InFront)).map(settled)];
  }
  if (!isFields(value)) return value;
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, settled(item)]));
}

/** Sets a field; a new one stands behind the last of those that come before it in `order`. */
export function put(fields: Fields, key: string, value: unknown, order: readonly string[]): void {
  if (Object.hasOwn(fields, key)) {
    fields[key] = value;
    return;
  }
  const before = new Set(order.slice(0, order.indexOf(key)));
  const keys = Object.keys(fields);
  const at = keys.findLastIndex((known) => before.has(known)) + 1;
  const later = keys.slice(at).map((known) => [known, fields[known]] as const);
  for (const [known] of later) delete fields[known];
  fields[key] = value;
  for (const [known, item] of later) fields[known] = item;
}

/** Data without any part in common: an alias becomes a copy of what it stands for. */
export const unshared = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;
