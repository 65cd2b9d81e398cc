import type { Outcome } from './issue.js';
import { type ReadOptions, readPlan } from './plan/read.js';
import { isResolvedPlan, readResolvedPlan } from './plan/read-resolved.js';
import type { ResolvedPlan } from './plan/resolved.js';
import { readDocument } from './read-document.js';
import { type MeterReadings, type ReadingsOptions, readReadings } from './studies/meter/readings.js';
import { isReadingsCsv, readingsFromCsv } from './studies/meter/readings-csv.js';

export { longestJson, longestYaml } from './read-document.js';

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
  return readDocument(text, 'a plan', (value) =>
    isResolvedPlan(value) ? readResolvedPlan(value, options) : readPlan(value, options),
  );
}

/**
 * Reads a fence meter's readings from YAML, JSON or CSV text; a CSV's first line names its columns and starts with `post`.
 *
 * Never throws. Issues carry the line of what they are about.
 */
export function readReadingsText(
  text: string,
  plan: ResolvedPlan,
  options: ReadingsOptions = {},
): Outcome<MeterReadings> {
  return isReadingsCsv(text)
    ? readingsFromCsv(text, plan, options)
    : readDocument(text, 'readings', (value) => readReadings(value, plan, options));
}
