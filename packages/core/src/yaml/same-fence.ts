import type { ResolvedPlan } from '../plan/resolved.js';
import { setsNothing } from './write-growth.js';

/** Relative difference of numbers that went through text and back: lengths are written to six digits. */
const rounding = 5.001e-6;

/** Parts of a plan that a fence's volts follow from. */
const parts = [
  ...['pulseHz', 'target', 'animal', 'soil', 'energizer', 'runs'],
  ...['jumpers', 'switches', 'gates', 'links', 'strandRods', 'stretches', 'faults', 'conditions'],
] as const;

/**
 * What of two plans is not the same fence, by the place of the first difference; null where all is. Names of builds and
 * of what may be called by its number, places on a map and where a value was entered do not count.
 */
export function fenceDifference(a: ResolvedPlan, b: ResolvedPlan): string | null {
  const [left, right] = [fenceOf(a), fenceOf(b)];
  return difference(left, right, '');
}

/** A plan with every build and row written out where it is named. */
function fenceOf(plan: ResolvedPlan): unknown {
  const { rows } = plan;
  const row = (
    table: 'wires' | 'posts' | 'soils' | 'insulators' | 'vegetation' | 'animals' | 'joints' | 'faults',
    id: string | null,
  ) => (id === null ? null : nameless((rows[table] as Record<string, unknown>)[id]));
  const growth = (of: { readonly vegetation: string; readonly heightM: number } | null) => {
    if (of === null) return null;
    const kind = rows.vegetation[of.vegetation]!;
    // What does not leak has no height that counts.
    return { kind: nameless(kind), heightM: kind.wetSiemensPerMetre.typical === 0 ? 0 : of.heightM };
  };
  const builds = new Map(
    plan.builds.map(({ id, post, strands, ties }) => [
      id,
      {
        post: row('posts', post),
        ties,
        strands: strands.map((strand) => ({
          ...strand,
          wire: row('wires', strand.wire),
          insulator: row('insulators', strand.insulator),
          endInsulator: row('insulators', strand.endInsulator),
        })),
      },
    ]),
  );
  const cable = <T extends { readonly wire: string } | null>(of: T) =>
    of === null ? null : { ...of, wire: row('wires', of.wire) };
  const { energizer } = plan;
  const whole: Record<string, unknown> = {
    ...plan,
    animal: row('animals', plan.animal),
    soil: row('soils', plan.soil),
    energizer: { ...energizer, leadOut: cable(energizer.leadOut), groundLead: cable(energizer.groundLead) },
    runs: plan.runs.map(({ line: _, posts, lengthM, ...run }) => ({
      ...run,
      lengthM,
      posts: posts.kind === 'at' ? posts : { spans: Math.max(1, Math.ceil(lengthM / posts.spacingM - 1e-9)) },
      build: builds.get(run.build),
    })),
    jumpers: plan.jumpers.map(({ id: _, ...item }) => ({ ...item, joint: row('joints', item.joint) })),
    switches: plan.switches.map((item) => ({ ...item, joint: row('joints', item.joint) })),
    gates: plan.gates.map((item) => ({ ...item, joint: row('joints', item.joint), cable: cable(item.cable) })),
    links: plan.links.map((item) => ({ ...item, cable: cable(item.cable) })),
    strandRods: plan.strandRods.map((item) => ({ ...item, posts: [...item.posts].sort((a, b) => a - b) })),
    stretches: plan.stretches
      .filter((stretch) => !setsNothing(stretch))
      .map(({ id: _, set, ...item }) => ({
        ...item,
        set: {
          ...set,
          post: row('posts', set.post),
          soil: row('soils', set.soil),
          wire: row('wires', set.wire),
          insulator: row('insulators', set.insulator),
          growth: growth(set.growth),
        },
      })),
    faults: plan.faults.map(({ id: _, ...item }) => ({ ...item, kind: row('faults', item.kind) })),
    conditions: plan.conditions.map((item) => ({ ...item, growth: growth(item.growth) })),
  };
  return Object.fromEntries(parts.map((part) => [part, whole[part]]));
}

/** A row by its values alone. */
const nameless = (row: unknown): unknown => {
  const { id: _, aliases: __, ...values } = row as { id: string; aliases: unknown };
  return values;
};

/** Keys of notes that no volts follow from. */
const notes = new Set(['source', 'basis', 'fromMemory', 'about']);

function difference(a: unknown, b: unknown, place: string): string | null {
  if (a === b) return null;
  if (typeof a === 'number' && typeof b === 'number')
    return Math.abs(a - b) <= rounding * Math.max(Math.abs(a), Math.abs(b)) ? null : place;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return place;
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  for (const key of keys) {
    if (notes.has(key)) continue;
    const inner = difference(
      (a as Record<string, unknown>)[key],
      (b as Record<string, unknown>)[key],
      place === '' ? key : `${place}.${key}`,
    );
    if (inner !== null) return inner;
  }
  return null;
}
