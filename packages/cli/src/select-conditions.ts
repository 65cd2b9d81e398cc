import type { ResolvedPlan } from '@postvolt/core';
import { InputError } from './input-error.js';
import { meant } from './text/meant.js';

/**
 * Ids of the plan's conditions that were asked for by id or name, whatever the case; all where none was.
 * @throws InputError that lists the plan's conditions where one is unknown.
 */
export function selectConditions(plan: ResolvedPlan, wanted: readonly string[] = []): string[] {
  const { conditions } = plan;
  if (wanted.length === 0) return conditions.map(({ id }) => id);
  const same = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();
  const chosen = wanted.map((text) => {
    const found = conditions.find(({ id, name }) => same(id, text) || same(name, text));
    if (found) return found.id;
    const known = conditions.map(({ id }) => id);
    const listed = known.map((id) => JSON.stringify(id)).join(', ');
    throw new InputError(
      `found condition ${JSON.stringify(text)}, expected one of the plan's: ${listed}.${meant(text, known)}`,
    );
  });
  return conditions.map(({ id }) => id).filter((id) => chosen.includes(id));
}
