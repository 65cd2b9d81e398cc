import { spanCount } from '../../plan/posts.js';
import type { ResolvedBuild, ResolvedPlan, ResolvedRun, ResolvedStretch } from '../../plan/resolved.js';
import { splitCalibration } from './move-calibration.js';

/** A place along a run, as a part of its length from 0 (its `from`) to 1 (its `to`). */
export interface PlaceAlong {
  readonly run: string;
  readonly fraction: number;
}

/** Post of the run that is nearest to a place, counted along its spans. */
const postAt = (run: ResolvedRun, fraction: number): number => Math.round(fraction * spanCount(run));

/**
 * A plan whose energizer stands at the post nearest to a place along a run, with its rods and lead-out; hot strands are
 * tied there. Between the run's ends the post becomes a junction that the fence passes by, and the run two.
 */
export function moveEnergizer(plan: ResolvedPlan, place: PlaceAlong): ResolvedPlan {
  const run = plan.runs.find(({ id }) => id === place.run)!;
  const post = postAt(run, place.fraction);
  if (post === 0) return atJunction(plan, run.from);
  if (post === spanCount(run)) return atJunction(plan, run.to);
  return splitRun(plan, run, post);
}

/** A plan whose energizer stands at another junction, with its rods and lead-out. */
export const atJunction = (plan: ResolvedPlan, junction: string): ResolvedPlan => ({
  ...plan,
  energizer: { ...plan.energizer, junction },
});

/** Id of what a split leaves beyond the energizer. */
const beyondId = (run: string): string => `${run} beyond`;

function splitRun(plan: ResolvedPlan, run: ResolvedRun, post: number): ResolvedPlan {
  const spans = spanCount(run);
  const beyond = freeId(beyondId(run.id), plan.runs);
  const junction = freeId('energizer place', plan.junctions);
  const [firstPosts, restPosts, splitM] = splitPosts(run, post, spans);
  const build = plan.builds.find(({ id }) => id === run.build)!;
  // The energizer feeds every hot strand of both parts, whatever the outer ends do.
  const tied = (outer: 'from' | 'to') => {
    const outerTied = build.ties === 'both' || build.ties === outer;
    const ties: ResolvedBuild['ties'] = outerTied ? 'both' : opposite(outer);
    return { ...build, id: freeId(`${build.id} ${outer} part`, plan.builds), ties };
  };
  const [firstBuild, restBuild] = [tied('from'), tied('to')] as const;
  const parts: ResolvedRun[] = [
    { ...run, to: junction, lengthM: splitM, line: null, posts: firstPosts, build: firstBuild.id },
    {
      ...run,
      id: beyond,
      from: junction,
      lengthM: run.lengthM - splitM,
      line: null,
      posts: restPosts,
      build: restBuild.id,
    },
  ];
  /** Moves what is placed by post or span onto its part; a thing at the split post stays with the first. */
  const place = <T extends { readonly run: string; readonly post: number }>(item: T, on: 'post' | 'span'): T => {
    if (item.run !== run.id || item.post < post || (on === 'post' && item.post === post)) return item;
    return { ...item, run: beyond, post: item.post - post };
  };
  return {
    ...plan,
    energizer: { ...plan.energizer, junction },
    junctions: [...plan.junctions, { id: junction, name: junction, at: null, through: true, post: null }],
    builds: [...plan.builds, firstBuild, restBuild],
    runs: plan.runs.flatMap((other) => (other === run ? parts : [other])),
    calibration: splitCalibration(plan, run.id, beyond, splitM),
    jumpers: plan.jumpers.map((item) => place(item, 'post')),
    switches: plan.switches.map((item) => place(item, 'span')),
    gates: plan.gates.map((item) => place(item, 'span')),
    faults: plan.faults.map((item) => place(item, item.on)),
    strandRods: plan.strandRods.flatMap((rods) => {
      if (rods.run !== run.id) return [rods];
      const on = (part: string, id: string, posts: number[]) =>
        posts.length > 0 ? [{ ...rods, id, run: part, posts }] : [];
      return [
        ...on(
          run.id,
          rods.id,
          rods.posts.filter((p) => p <= post),
        ),
        ...on(
          beyond,
          beyondId(rods.id),
          rods.posts.filter((p) => p > post).map((p) => p - post),
        ),
      ];
    }),
    stretches: plan.stretches.flatMap((stretch) =>
      stretch.run === run.id ? splitStretch(stretch, beyond, splitM) : [stretch],
    ),
  };
}

const opposite = (end: 'from' | 'to'): 'from' | 'to' => (end === 'from' ? 'to' : 'from');

function splitPosts(
  run: ResolvedRun,
  post: number,
  spans: number,
): [ResolvedRun['posts'], ResolvedRun['posts'], number] {
  if (run.posts.kind === 'equal') {
    const splitM = (post * run.lengthM) / spans;
    const each = { kind: 'equal', spacingM: run.lengthM / spans } as const;
    return [each, each, splitM];
  }
  const { positionsM } = run.posts;
  const splitM = positionsM[post]!;
  return [
    { kind: 'at', positionsM: positionsM.slice(0, post + 1) },
    { kind: 'at', positionsM: positionsM.slice(post).map((at) => at - splitM) },
    splitM,
  ];
}

function splitStretch(stretch: ResolvedStretch, beyond: string, splitM: number): ResolvedStretch[] {
  const { fromM, toM } = stretch;
  const parts: ResolvedStretch[] = [];
  // The split post is the first part's last: a stretch that goes on past it takes it in.
  if (fromM <= splitM) parts.push({ ...stretch, toM: toM === null || toM > splitM ? null : toM });
  if (toM === null || toM > splitM) {
    const rest = { fromM: Math.max(0, fromM - splitM), toM: toM === null ? null : toM - splitM };
    parts.push({ ...stretch, ...rest, id: beyondId(stretch.id), run: beyond });
  }
  return parts;
}

/** The id, or with a number behind it where it is taken. */
function freeId(id: string, taken: readonly { readonly id: string }[]): string {
  const ids = new Set(taken.map((item) => item.id));
  let free = id;
  for (let n = 2; ids.has(free); n++) free = `${id} ${n}`;
  return free;
}
