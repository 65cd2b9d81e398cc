import { type PlanVariant, readChanges } from '@postvolt/core/studies';
import { PlanIssues, readText } from './read-plan.js';

/**
 * The variants of a file and of an option, in that order.
 * @throws InputError where the file cannot be read; PlanIssues where a variant is not understood.
 */
export async function readVariants(
  file: string | undefined,
  changes: readonly string[],
  option = '--with',
): Promise<PlanVariant[]> {
  const variants: PlanVariant[] = [];
  if (file !== undefined) {
    const { readVariantsText } = await import('@postvolt/core/yaml');
    const outcome = readVariantsText(await readText(file, file));
    if (!outcome.ok) throw new PlanIssues(outcome.issues, file);
    variants.push(...outcome.value);
  }
  for (const text of changes) variants.push({ name: text, changes: readChanges(text, [option]) });
  return variants;
}
