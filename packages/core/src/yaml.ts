import { type Outcome, PlanError } from './issue.js';
import type { ResolvedPlan } from './plan/resolved.js';
import type { PlanVariant } from './studies/compare/change.js';
import { readVariants } from './studies/compare/read-change.js';
import { type MeterReadings, type ReadingsOptions, readReadings } from './studies/meter/readings.js';
import { isReadingsCsv, readingsFromCsv } from './studies/meter/readings-csv.js';
import { readDocument } from './yaml/read-document.js';

export { type ChangedPlanText, changePlanText } from './yaml/change-plan-text.js';
export { longestJson, longestYaml } from './yaml/read-document.js';
export { type ReadTextOptions, readPlanText } from './yaml/read-plan-text.js';

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
