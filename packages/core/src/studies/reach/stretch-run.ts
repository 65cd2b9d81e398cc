import { postPositionM, spanCount } from '../../plan/posts.js';
import type { ResolvedRun } from '../../plan/resolved.js';

/** Spans that a run gains for each multiple of its present length: its count of spans is this times the multiple, rounded up. */
export const spansPerFactor = (run: ResolvedRun): number =>
  run.posts.kind === 'at' ? run.posts.positionsM.length - 1 : run.lengthM / run.posts.spacingM;

/** A loop of one span would join a junction to itself. */
const leastSpans = (run: ResolvedRun): number => (run.from === run.to ? 2 : 1);

/** Spans of a run at a multiple of its length, with posts as close together as they are. */
export const spansAt = (run: ResolvedRun, factor: number): number =>
  // The hair of slack is that of `spanCount`.
  Math.max(leastSpans(run), Math.ceil(factor * spansPerFactor(run) - 1e-9));

/**
 * A run at a multiple of its length, with posts as close together as they are.
 *
 * Posts placed by hand keep the pattern of their spacing: where the run has half as many spans again, so has each part of it.
 */
export function stretchRun(run: ResolvedRun, factor: number): ResolvedRun {
  const lengthM = run.lengthM * factor;
  const spans = spansAt(run, factor);
  const stretched = { ...run, lengthM, line: null };
  if (run.posts.kind === 'equal' && spanCount(stretched) === spans) return stretched;
  return { ...stretched, posts: { kind: 'at', positionsM: spread(run, spans, factor) } };
}

/** A run with its posts closer together or farther apart by a factor, at its present length. */
export function respaceRun(run: ResolvedRun, factor: number): ResolvedRun {
  if (run.posts.kind === 'equal') {
    const respaced = { ...run, posts: { ...run.posts, spacingM: run.posts.spacingM * factor } };
    if (spanCount(respaced) >= leastSpans(run)) return respaced;
  }
  const spans = Math.max(leastSpans(run), Math.ceil(spanCount(run) / factor - 1e-9));
  return { ...run, posts: { kind: 'at', positionsM: spread(run, spans, 1) } };
}

/** Places of so many spans, each at its share of the run's own spans, all times a factor. */
function spread(run: ResolvedRun, spans: number, factor: number): number[] {
  const present = spanCount(run);
  return Array.from({ length: spans + 1 }, (_, i) => {
    if (i === spans) return run.lengthM * factor;
    const at = (i * present) / spans;
    const before = Math.floor(at);
    const [start, end] = [postPositionM(run, before), postPositionM(run, before + 1)];
    return (start + (at - before) * (end - start)) * factor;
  });
}
