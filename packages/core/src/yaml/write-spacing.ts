import type { ResolvedPlan, ResolvedRun } from '../plan/resolved.js';
import { buildSchema, runSchema } from '../plan/schema-lines.js';
import { type Fields, put } from './edited-data.js';
import { writeLength } from './write-length.js';

const buildOrder = Object.keys(buildSchema.shape);
const runOrder = Object.keys(runSchema.shape);

/** A spacing that divides its run has to go on doing so. */
export const spacingDigits = 12;
/** Spans are small differences of large distances. */
const placeDigits = 9;

/** Writes other distances between posts: for the build where all runs that follow it change alike, else for the run. */
export function writeSpacing(data: Fields, before: ResolvedPlan, after: ResolvedPlan): void {
  const builds = data['builds'] as Record<string, Fields>;
  const runs = data['runs'] as Record<string, Fields>;
  const only = Object.keys(builds)[0]!;
  const followers = new Map<string, { readonly id: string; readonly text: string | null }[]>();
  after.runs.forEach((run, i) => {
    const fields = runs[run.id]!;
    const text =
      isSame(before.runs[i]!, run) || run.posts.kind === 'at' ? null : writeLength(run.posts.spacingM, spacingDigits);
    if (fields['posts'] === undefined && fields['postSpacing'] === undefined) {
      const build = (fields['build'] as string | undefined) ?? only;
      followers.set(build, [...(followers.get(build) ?? []), { id: run.id, text }]);
    } else if (text !== null) put(fields, 'postSpacing', text, runOrder);
    if (run.posts.kind === 'equal' || isSame(before.runs[i]!, run)) return;
    delete fields['postSpacing'];
    // Both ends are put in by themselves.
    put(
      fields,
      'posts',
      run.posts.positionsM.slice(1, -1).map((at) => writeLength(at, placeDigits)),
      runOrder,
    );
  });
  for (const [build, list] of followers) {
    const text = list[0]!.text;
    const isShared = builds[build]!['postSpacing'] !== undefined || list.length > 1;
    if (text !== null && isShared && list.every((run) => run.text === text))
      put(builds[build]!, 'postSpacing', text, buildOrder);
    else for (const run of list) if (run.text !== null) put(runs[run.id]!, 'postSpacing', run.text, runOrder);
  }
}

/** Whether the posts of a run stand where they stood; a hair of rounding moves none. */
function isSame(a: ResolvedRun, b: ResolvedRun): boolean {
  if (a.posts.kind === 'equal' && b.posts.kind === 'equal') return near(a.posts.spacingM, b.posts.spacingM);
  return JSON.stringify(a.posts) === JSON.stringify(b.posts);
}

const near = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-12 * Math.max(Math.abs(a), Math.abs(b));
