import { type Outcome, PlanError } from './issue.js';
import { type ReadOptions, readPlan } from './plan/read.js';
import { isResolvedPlan, readResolvedPlan } from './plan/read-resolved.js';
import type { ResolvedPlan } from './plan/resolved.js';
import { readDocument } from './read-document.js';
import type { PlanVariant } from './studies/compare/change.js';
import { readVariants } from './studies/compare/read-change.js';
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

/**
 * Reads the variants of a comparison from YAML or JSON text: a map from names to changes.
 *
 * Never throws. Issues carry the line of what they are about.
 */
export function readVariantsText(text: string): Outcome<PlanVariant[]> {
  return readDocument(text, 'variants', (value) => {
    try {
      return { ok: true, value: readVariants(value), issues: [] };
    } catch (error) {
      if (error instanceof PlanError) return { ok: false, issues: error.issues };
      throw error;
    }
  });
}
