import type { Issue } from '../issue.js';
import { defaults } from './defaults.js';
import type { Reporter } from './reporter.js';
import type { ResolvedCondition, ResolvedStretch } from './resolved.js';
import type { RowEdit } from './row-fields.js';
import type { RowLookup } from './row-lookup.js';
import type { Plan } from './schema.js';

interface GrowthInput {
  readonly growth?: string | RowEdit | undefined;
  readonly growthHeight?: number | undefined;
}

/** Growth as a row and the height of its top; null where none is written. */
export function growthOf(
  input: GrowthInput,
  path: Issue['path'],
  book: RowLookup,
  report: Reporter,
): ResolvedStretch['set']['growth'] {
  if (input.growth === undefined) {
    if (input.growthHeight !== undefined) {
      report.error(
        'missing-key',
        [...path, 'growth'],
        'a height without growth',
        'the growth that is so high, such as `growth: moderate`',
      );
    }
    return null;
  }
  const vegetation = book.keep('vegetation', input.growth, [...path, 'growth']);
  return { vegetation, heightM: input.growthHeight ?? book.kept('vegetation', vegetation)?.usualHeightM.typical ?? 0 };
}

/** Conditions in the plan's order. */
export const resolveConditions = (plan: Plan, book: RowLookup, report: Reporter): ResolvedCondition[] =>
  Object.entries(plan.conditions).map(([id, input]): ResolvedCondition => {
    const path = ['conditions', id];
    const { soil = 'moist', surface = 'dry', air = surface, ...rest } = input ?? ({} as NonNullable<typeof input>);
    const bare = { vegetation: book.keep('vegetation', defaults.vegetation, [...path, 'growth']), heightM: 0 };
    return {
      id,
      name: id,
      soil,
      film: air,
      post: surface,
      growthWetness: surface,
      growth: growthOf(rest, path, book, report) ?? bare,
      groundCover: book.keep('groundCovers', rest.groundCover ?? defaults.groundCover, [...path, 'groundCover']),
      temperatureC: rest.temperature ?? defaults.temperatureC,
    };
  });
