import type { ResolvedPlan } from '@postvolt/core';
import { type MeterReadings, parseReadings } from '@postvolt/core/studies';
import { PlanIssues, readText } from './read-plan.js';
import { readPart } from './read-rates.js';

/** Options of the commands that take a meter's readings. */
export interface ReadingsChoice {
  readonly condition?: string;
  readonly meterError?: string;
  /** That of readings that do not say theirs. */
  readonly usualCondition?: string;
}

/**
 * Reads a file of readings against its plan; `-` stands for standard input.
 * @throws InputError where the file cannot be read or an option is wrong; PlanIssues where the readings are.
 */
export async function readReadings(path: string, plan: ResolvedPlan, choice: ReadingsChoice): Promise<MeterReadings> {
  const file = path === '-' ? 'standard input' : path;
  const text = await readText(path, file);
  const { readReadingsText } = await import('@postvolt/core/yaml');
  const outcome = readReadingsText(text, plan, optionsOf(choice));
  if (!outcome.ok) throw new PlanIssues(outcome.issues, file);
  return outcome.value;
}

const optionsOf = ({ condition, meterError, usualCondition }: ReadingsChoice) => ({
  ...(condition === undefined ? {} : { condition }),
  ...(usualCondition === undefined ? {} : { usualCondition }),
  ...(meterError === undefined ? {} : { meterErrorPercent: readMeterError(meterError) }),
});

/** `5 %`, or 0.05, as percent: written as in a file of readings. */
export const readMeterError = (text: string): number => 100 * readPart('--meter-error', text, 0.5);

/**
 * A round on which nothing was read yet.
 * @throws PlanError for a condition that the plan does not have, or where one of several has to be named.
 */
export function noReadings(plan: ResolvedPlan, choice: ReadingsChoice): MeterReadings {
  return parseReadings({ readings: [] }, plan, optionsOf(choice));
}
