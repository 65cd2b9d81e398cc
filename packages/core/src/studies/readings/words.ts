import { formatVolts } from '../../quantity/format.js';
import type { ConditionSheet } from './result.js';

/** Whose readings these are: a plan may hold faults that are known and stay. */
const fenceRead = (faults: number): string =>
  faults === 0 ? 'a sound fence' : `this fence with its ${faults === 1 ? 'fault' : `${faults} faults`}`;

/** The sheet in a sentence: where the meter should read least. */
export function readingsSentence(conditions: readonly ConditionSheet[], faults: number): string {
  const lines = conditions.flatMap((sheet) => sheet.lines.map((line) => ({ sheet, line })));
  if (lines.length === 0) return 'No run has a hot strand to read.';
  const { sheet, line } = lines.reduce((a, b) => (b.line.volts.typical < a.line.volts.typical ? b : a));
  const { typical, low, high } = line.volts;
  const where = `${line.post} in ${sheet.name}`;
  const count = conditions[0]!.lines.length;
  return `With typical values ${fenceRead(faults)} reads ${formatVolts(typical)} or more at all ${count} places of the sheet; at the lowest, ${where}, nine readings of ten lie from ${formatVolts(low)} to ${formatVolts(high)}.`;
}
