import { spanCount } from '../../plan/posts.js';
import type { ResolvedPlan, ResolvedRun } from '../../plan/resolved.js';
import { stretchCalibration } from './move-calibration.js';

/**
 * A plan with some runs in place of those of the same id, longer, shorter or with other posts; all that stands on them
 * keeps its place in proportion: faults, gates, jumpers and switches go to the nearest post, stretches grow with the run,
 * rods along a grounded strand keep their distance. Geometry on a map is dropped.
 */
export function replaceRuns(plan: ResolvedPlan, runs: ReadonlyMap<string, ResolvedRun>): ResolvedPlan {
  const before = new Map(plan.runs.map((run) => [run.id, run]));
  const ratioOf = (id: string) => {
    const [old, now] = [before.get(id)!, runs.get(id)];
    return now === undefined
      ? null
      : { now, length: now.lengthM / old.lengthM, spans: spanCount(now) / spanCount(old) };
  };
  const ratios = new Map(plan.runs.map(({ id }) => [id, ratioOf(id)]));
  const moved = (place: { readonly run: string; readonly post: number }, on: 'post' | 'span'): number => {
    const ratio = ratios.get(place.run) ?? null;
    if (ratio === null) return place.post;
    const last = spanCount(ratio.now);
    // A span is placed by its middle.
    const at = on === 'post' ? place.post * ratio.spans : (place.post + 0.5) * ratio.spans - 0.5;
    return Math.min(Math.max(0, Math.round(at)), on === 'post' ? last : last - 1);
  };
  return {
    ...plan,
    junctions: plan.junctions.map((junction) => ({ ...junction, at: null })),
    runs: plan.runs.map((run) => ({ ...(runs.get(run.id) ?? run), line: null })),
    jumpers: plan.jumpers.map((jumper) => ({ ...jumper, post: moved(jumper, 'post') })),
    switches: plan.switches.map((item) => ({ ...item, post: moved(item, 'span') })),
    gates: plan.gates.map((gate) => ({ ...gate, post: moved(gate, 'span') })),
    faults: plan.faults.map((fault) => ({ ...fault, post: moved(fault, fault.on) })),
    calibration: stretchCalibration(
      plan,
      new Map([...ratios].flatMap(([id, ratio]) => (ratio === null ? [] : [[id, ratio.length]]))),
    ),
    strandRods: plan.strandRods.map((rods) => {
      const ratio = ratios.get(rods.run) ?? null;
      return ratio === null ? rods : { ...rods, posts: spreadRods(rods.posts, ratio.length, ratio.spans, ratio.now) };
    }),
    stretches: plan.stretches.map((stretch) => {
      const ratio = ratios.get(stretch.run) ?? null;
      if (ratio === null) return stretch;
      const toM = stretch.toM === null ? null : stretch.toM * ratio.length;
      return { ...stretch, fromM: stretch.fromM * ratio.length, toM };
    }),
  };
}

/** As many rods as keep their distance on the new length, spread as the present ones are. */
function spreadRods(posts: readonly number[], length: number, spans: number, run: ResolvedRun): number[] {
  const sorted = [...posts].sort((a, b) => a - b);
  const count = Math.max(1, Math.round(sorted.length * length));
  const last = spanCount(run);
  const places = Array.from({ length: count }, (_, i) => {
    const at = Math.min(Math.max(0, ((i + 0.5) / count) * sorted.length - 0.5), sorted.length - 1);
    const before = Math.floor(at);
    const from = sorted[before]!;
    const post = from + (at - before) * ((sorted[before + 1] ?? from) - from);
    return Math.min(last, Math.max(0, Math.round(post * spans)));
  });
  return [...new Set(places)];
}
