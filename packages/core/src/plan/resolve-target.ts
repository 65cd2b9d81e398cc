import { showFound } from '../quantity/fault.js';
import { readQuantity } from '../quantity/quantity.js';
import { defaults } from './defaults.js';
import type { Reporter } from './reporter.js';
import type { ResolvedPlan } from './resolved.js';
import { lookUpRow } from './row-index.js';
import type { RowLookup } from './row-lookup.js';
import type { Plan } from './schema.js';
import { nearest } from './suggest.js';
import { namesOf } from './unknown-row.js';

/** The target of a plan, and the animal that touches. */
export function resolveTarget(plan: Plan, book: RowLookup, report: Reporter): Pick<ResolvedPlan, 'target' | 'animal'> {
  const { target } = plan;
  const named = typeof target === 'string' ? lookUpRow(book.tables, 'animals', target) : undefined;
  const path = named !== undefined && plan.animal === undefined ? ['target'] : ['animal'];
  const animal = book.keep('animals', plan.animal ?? named?.id ?? defaults.animal, path);
  const row = book.kept('animals', animal);
  const ofAnimal = (of: ResolvedPlan['target']['of'], animalRow = named ?? row) => ({
    volts: animalRow?.targetVolts.typical ?? 1,
    of,
    label: animalRow?.id ?? '',
  });
  if (target === undefined || named !== undefined) return { animal, target: ofAnimal('to earth') };
  if (typeof target !== 'string') {
    const asked =
      target.volts === undefined
        ? ofAnimal(target.of, row)
        : { volts: target.volts, of: target.of, label: 'this plan' };
    return { animal, target: asked };
  }
  const volts = readQuantity(target, 'voltage', { above: 0, most: 50_000 });
  if (volts.ok) return { animal, target: { volts: volts.value, of: 'to earth', label: 'this plan' } };
  const near = nearest(target, namesOf(book.tables, 'animals'));
  const isNumber = /^\s*[+-]?[\d.]/.test(target);
  report.error(
    isNumber ? volts.fault.code : 'unknown-row',
    ['target'],
    showFound(target),
    'an animal of the table, or volts such as `3 kV`',
    isNumber ? volts.fault.hint : near === null ? '' : `Did you mean "${near}"?`,
  );
  return { animal, target: ofAnimal('to earth') };
}
