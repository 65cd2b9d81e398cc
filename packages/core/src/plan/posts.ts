import type { ResolvedRun } from './resolved.js';

type Spaced = Pick<ResolvedRun, 'lengthM' | 'posts'>;

/** Number of spans of a run, which is also the number of its last post. */
export function spanCount(run: Spaced): number {
  if (run.posts.kind === 'at') return run.posts.positionsM.length - 1;
  // A hair of slack keeps 1320 ft / 40 ft at 33 after its way through metres.
  return Math.max(1, Math.ceil(run.lengthM / run.posts.spacingM - 1e-9));
}

/** Metres from the run's start to a post. */
export function postPositionM(run: Spaced, post: number): number {
  if (run.posts.kind === 'at') return run.posts.positionsM[post]!;
  const spans = spanCount(run);
  return post === spans ? run.lengthM : (post * run.lengthM) / spans;
}

/** Number of the first post beyond a distance along the run, found by bisection; N + 1 past the end. */
function firstBeyond(run: Spaced, atM: number): number {
  let low = 0;
  let high = spanCount(run) + 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (postPositionM(run, middle) > atM) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** The post nearest to a distance along the run; the lower one of two that are equally near. */
export function nearestPost(run: Spaced, atM: number): number {
  const after = Math.min(firstBeyond(run, atM), spanCount(run));
  const before = Math.max(0, after - 1);
  return atM - postPositionM(run, before) <= postPositionM(run, after) - atM ? before : after;
}

/** The span that holds a distance along the run, by the number of the post before it. */
export const spanAt = (run: Spaced, atM: number): number =>
  Math.min(Math.max(0, firstBeyond(run, atM) - 1), spanCount(run) - 1);
