import { defaults } from '../plan/defaults.js';
import { nearestPost, postPositionM, spanAt, spanCount } from '../plan/posts.js';
import { postsEvery } from '../plan/resolve-parts.js';
import type { ResolvedBuild, ResolvedFault, ResolvedPlan, ResolvedRun } from '../plan/resolved.js';
import { gateSchema, stretchSchema } from '../plan/schema-parts.js';
import { readQuantity } from '../quantity/quantity.js';
import { type Fields, put, removed } from './edited-data.js';
import { writeLength } from './write-length.js';

const gateOrder = Object.keys(gateSchema.shape);
export const stretchOrder = Object.keys(stretchSchema.shape);

type Item = Fields | typeof removed;

/** Writes what has moved, gone or changed of the things that hang on the runs, stretches aside. */
export function writeParts(data: Fields, before: ResolvedPlan, after: ResolvedPlan): void {
  const runs = new Map(after.runs.map((run) => [run.id, run]));
  each(data, 'jumpers', before.jumpers, after.jumpers, (fields, old, now) => {
    writePlace(fields, 'post', now.post, runs.get(now.run)!);
    if (now.strands.length !== old.strands.length) fields['strands'] = [...now.strands];
  });
  each(data, 'switches', before.switches, after.switches, (fields, _, now) =>
    writePlace(fields, 'span', now.post, runs.get(now.run)!),
  );
  each(data, 'gates', before.gates, after.gates, (fields, _, now) => {
    const run = runs.get(now.run)!;
    writePlace(fields, 'span', now.post, run);
    const cable = fields['cable'] as Fields | undefined;
    const usual = postPositionM(run, now.post + 1) - postPositionM(run, now.post) + defaults.gateCableSlackM;
    // The gate keeps its width, whatever the span is in which it stands.
    if (cable?.['length'] !== undefined || Math.abs(usual - now.cable.lengthM) < 1e-9) return;
    put(fields, 'cable', { ...cable, length: writeLength(now.cable.lengthM) }, gateOrder);
  });
  each(data, 'groundedRods', before.strandRods, after.strandRods, (fields, _, now) => {
    const run = runs.get(now.run)!;
    const every = fields['every'];
    const present =
      every === undefined
        ? (fields['posts'] as unknown[]).map((place) => postAt(place, 'post', run))
        : postsEvery(run, lengthOf(every));
    if (String([...new Set(present)].sort(rising)) === String([...now.posts].sort(rising))) return;
    delete fields['every'];
    fields['posts'] = [...now.posts];
  });
  const builds = new Map(after.builds.map((build) => [build.id, build]));
  each(data, 'faults', before.faults, after.faults, (fields, old, now) => {
    const run = runs.get(now.run)!;
    writeFault(fields, old, now, run, builds.get(run.build)!);
  });
}

function writeFault(
  fields: Fields,
  old: ResolvedFault,
  now: ResolvedFault,
  run: ResolvedRun,
  { strands }: ResolvedBuild,
): void {
  if (fields['span'] !== undefined) writePlace(fields, 'span', now.post, run);
  else {
    const post = postAt(fields['post'], 'post', run);
    // What interrupts the wire at the last post is on the span before it.
    const there = now.on === 'span' ? Math.min(post, spanCount(run) - 1) : post;
    if (there !== now.post) fields['post'] = now.post;
  }
  const usual = strands.find(({ role }) => role === 'hot')?.id;
  if (fields['strand'] === undefined && usual !== old.strand) fields['strand'] = old.strand;
  if (fields['otherStrand'] !== undefined || now.otherStrand === null) return;
  const others = strands.filter(({ id }) => id !== now.strand);
  const touched = others.find(({ role }) => role === 'grounded') ?? others[0];
  if (touched?.id !== now.otherStrand) fields['otherStrand'] = now.otherStrand;
}

/** Calls for each part that is still there with its fields; takes out the others, and the list once it is empty. */
export function each<T extends { readonly id: string }>(
  data: Fields,
  key: string,
  before: readonly T[],
  after: readonly T[],
  write: (fields: Fields, before: T, after: T) => void,
): void {
  const list = data[key] as Item[] | undefined;
  if (list === undefined) return;
  const now = new Map(after.map((part) => [part.id, part]));
  const present = list.slice() as Fields[];
  before.forEach((part, i) => {
    const changed = now.get(part.id);
    if (changed === undefined) list[i] = removed;
    else write(present[i]!, part, changed);
  });
  if (list.length > 0 && list.every((item) => item === removed)) delete data[key];
}

const rising = (a: number, b: number): number => a - b;

function lengthOf(text: unknown): number {
  const read = readQuantity(text, 'length');
  return read.ok ? read.value : Number.NaN;
}

const postAt = (place: unknown, on: 'post' | 'span', run: ResolvedRun): number => {
  if (typeof place === 'number') return place;
  return on === 'post' ? nearestPost(run, lengthOf(place)) : spanAt(run, lengthOf(place));
};

/** A distance along the run stays where it still leads to the same post. */
function writePlace(fields: Fields, key: 'post' | 'span', post: number, run: ResolvedRun): void {
  if (postAt(fields[key], key, run) !== post) fields[key] = post;
}
