import type { ResolvedPlan, ResolvedStretch } from '../plan/resolved.js';
import { planSchema } from '../plan/schema.js';
import { conditionSchema } from '../plan/schema-conditions.js';
import { type Fields, InFront, put } from './edited-data.js';
import { writeLength } from './write-length.js';
import { each, stretchOrder } from './write-parts.js';

const conditionOrder = Object.keys(conditionSchema.shape);
const planOrder = Object.keys(planSchema.shape);

type Growth = NonNullable<ResolvedStretch['set']['growth']>;

/** Writes the growth of conditions that has changed. */
export function writeConditions(data: Fields, before: ResolvedPlan, after: ResolvedPlan): void {
  const conditions = data['conditions'] as Fields | undefined;
  before.conditions.forEach((condition, i) => {
    const { id, growth } = after.conditions[i]!;
    const fields = conditions?.[id] as Fields | null | undefined;
    if (isSame(condition.growth, growth) || fields === null || fields === undefined) return;
    writeGrowth(fields, growth, after, conditionOrder);
  });
}

/** Writes stretches that set something else, or that are new and come before all others. */
export function writeStretches(data: Fields, before: ResolvedPlan, after: ResolvedPlan): void {
  const empty = new Set(before.stretches.filter(setsNothing).map(({ id }) => id));
  const present = data['stretches'];
  // What has nothing left to say goes.
  const kept = after.stretches.filter((stretch) => !setsNothing(stretch) || empty.has(stretch.id));
  each(data, 'stretches', before.stretches, kept, (fields, old, now) => {
    if (old.strands?.length !== now.strands?.length) fields['strands'] = [...now.strands!];
    for (const key of ['post', 'wire', 'insulator', 'insulatorState'] as const) {
      if (old.set[key] === now.set[key]) continue;
      if (now.set[key] === null) delete fields[key];
      else put(fields, key, now.set[key], stretchOrder);
    }
    if (old.set.leakSiemensPerMetre !== null && now.set.leakSiemensPerMetre === null) delete fields['leak'];
    if (now.set.growth !== null && !isSame(old.set.growth, now.set.growth))
      writeGrowth(fields, now.set.growth, after, stretchOrder);
  });
  const known = new Set(before.stretches.map(({ id }) => id));
  const made = kept.filter(({ id }) => !known.has(id));
  if (made.length === 0) return;
  if (data['stretches'] === undefined) put(data, 'stretches', present ?? [], planOrder);
  const list = data['stretches'] as unknown[];
  for (const { id, run, conditions, set } of made) {
    const fields: Fields = { name: id, run, ...(conditions === null ? {} : { conditions: [...conditions] }) };
    if (set.growth !== null) writeGrowth(fields, set.growth, after, stretchOrder);
    list.push(new InFront(fields));
  }
}

/** Whether a stretch changes nothing. */
export const setsNothing = ({ set }: ResolvedStretch): boolean => Object.values(set).every((value) => value === null);

function writeGrowth(fields: Fields, growth: Growth, { rows }: ResolvedPlan, order: readonly string[]): void {
  put(fields, 'growth', growth.vegetation, order);
  const usual = rows.vegetation[growth.vegetation]!;
  // What does not leak has no height that counts.
  if (growth.heightM === usual.usualHeightM.typical || usual.wetSiemensPerMetre.typical === 0)
    delete fields['growthHeight'];
  else put(fields, 'growthHeight', writeLength(growth.heightM), order);
}

const isSame = (a: Growth | null, b: Growth): boolean =>
  a !== null && a.vegetation === b.vegetation && a.heightM === b.heightM;
