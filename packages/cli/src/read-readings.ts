import type { ResolvedPlan } from '@postvolt/core';
import { type MeterReadings, parseReadings } from '@postvolt/core/studies';
import { InputError } from './input-error.js';
import { PlanIssues, readText } from './read-plan.js';

/** Options of the commands that take a meter's readings. */
export interface ReadingsChoice {
  readonly condition?: string;
  readonly meterError?: string;
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

const optionsOf = ({ condition, meterError }: ReadingsChoice) => ({
  ...(condition === undefined ? {} : { condition }),
  ...(meterError === undefined ? {} : { meterErrorPercent: readMeterError(meterError) }),
});

/** `5 %`, `5` or `5%`, as percent. */
export function readMeterError(text: string): number {
  const percent = Number(text.replace('%', '').trim());
  if (text.trim() !== '' && percent >= 0 && percent <= 50) return percent;
  throw new InputError(
    `--meter-error: found ${JSON.stringify(text)}, expected a share of the reading from 0 to 50 %, such as 5 %`,
  );
}

/**
 * A round on which nothing was read yet.
 * @throws PlanError for a condition that the plan does not have, or where one of several has to be named.
 */
export function noReadings(plan: ResolvedPlan, choice: ReadingsChoice): MeterReadings {
  return parseReadings({ readings: [] }, plan, optionsOf(choice));
}
