import { showFound } from '../quantity/fault.js';
import type { Reporter } from './reporter.js';

/** Most values that a plan may hold, every use of an alias counted; a plan of the longest run stays below. */
export const mostValues = 5_000_000;
const deepest = 40;
const refusedKeys = new Set(['__proto__', 'constructor', 'prototype']);

/**
 * Refuses what no plan holds before anything else looks at it: keys that reach an object's prototype, values that are
 * not data, numbers that are none, endless nesting and more values than a plan can use.
 */
export function guardInput(input: unknown, report: Reporter): void {
  const path: (string | number)[] = [];
  let values = 0;
  const visit = (value: unknown): boolean => {
    if (++values > mostValues) {
      report.error('too-large', [], `more than ${mostValues.toLocaleString('en')} values`, 'a plan with fewer values');
      return false;
    }
    if (typeof value === 'number' && !Number.isFinite(value)) {
      report.error('bad-number', [...path], String(value), 'a finite number');
      return true;
    }
    if (typeof value === 'object' && value !== null) return visitObject(value);
    if (typeof value === 'function' || typeof value === 'symbol' || typeof value === 'bigint') {
      report.error('bad-value', [...path], showFound(value), 'text, a number, a list or a map');
    }
    return true;
  };
  const visitObject = (value: object): boolean => {
    if (path.length >= deepest) {
      report.error('too-deep', path.slice(0, 6), `more than ${deepest} levels`, 'a plan with fewer levels');
      return false;
    }
    if (!Array.isArray(value)) {
      const prototype: unknown = Object.getPrototypeOf(value);
      if (prototype !== null && Object.getPrototypeOf(prototype) !== null) {
        report.error('bad-value', [...path], 'an object of a class', 'a plain map');
        return true;
      }
    }
    const entries: Iterable<[string | number, unknown]> = Array.isArray(value)
      ? value.entries()
      : Object.entries(value);
    for (const [key, item] of entries) {
      path.push(key);
      const refused = typeof key === 'string' && refusedKeys.has(key);
      if (refused)
        report.error('refused-key', [...path], `the key "${key}"`, 'another name', 'This name is never allowed.');
      const goOn = refused || visit(item);
      path.pop();
      if (!goOn) return false;
    }
    return true;
  };
  visit(input);
}
