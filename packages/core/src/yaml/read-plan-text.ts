import type { Outcome } from '../issue.js';
import { type ReadOptions, readPlan } from '../plan/read.js';
import { isResolvedPlan, readResolvedPlan } from '../plan/read-resolved.js';
import type { ResolvedPlan } from '../plan/resolved.js';
import { readDocument } from './read-document.js';

/** Options of `readPlanText`. */
export interface ReadTextOptions extends ReadOptions {
  /** Name of the file, for those who word the issues; the issues themselves carry line and column. */
  readonly file?: string;
}

/**
 * Reads a plan, or a resolved plan, from YAML or JSON text.
 *
 * Never throws. Issues carry the line and column of what they are about.
 */
export function readPlanText(text: string, options: ReadTextOptions = {}): Outcome<ResolvedPlan> {
  return readDocument(text, 'a plan', (value) => readPlanData(value, options));
}

/** Reads a plan, or a resolved plan, that came as data. */
export const readPlanData = (value: unknown, options: ReadOptions): Outcome<ResolvedPlan> =>
  isResolvedPlan(value) ? readResolvedPlan(value, options) : readPlan(value, options);
