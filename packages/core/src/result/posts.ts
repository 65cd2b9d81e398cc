import { nodeDrivingOhms } from '../engine/driving-points.js';
import type { OpenFence } from '../fence/open-fence.js';
import { PlanError } from '../issue.js';
import { kindCode } from '../network/elements.js';
import { postAtEnd } from '../network/hanging.js';
import { nearestGrounded, strandNodeNames } from '../network/layout.js';
import type { ResolvedPlan } from '../plan/resolved.js';
import { suggestion } from '../plan/suggest.js';
import { isLeak } from './leaks.js';
import type { PostResult, StrandResult } from './result.js';

/** Currents of a run's strands, by strand and post: in the span to the next post, and leaving there. */
interface StrandAmps {
  readonly span: Float64Array;
  readonly leak: Float64Array;
}

/** Every post of the fence with every strand on it: junctions first, then each run's posts in order. */
export function postResults(fence: OpenFence): PostResult[] {
  const { layout } = fence;
  const table = postTable(fence);
  const posts = layout.ends.map((ends, j): PostResult => {
    const strands = ends.flatMap((end) => table.strandsAt(end.run, postAtEnd(layout, end)));
    return table.ofJunction(j, strands);
  });
  layout.runs.forEach((run, r) => {
    for (let i = 1; i < run.spans; i++) posts.push(table.ofRun(r, i));
  });
  return posts;
}

/**
 * The posts of one run in order, 0 to the last, with the strands of that run alone; posts at its ends carry the id of their
 * junction.
 */
export function postsOfRun(fence: OpenFence, runId: string): PostResult[] {
  const { layout, plan } = fence;
  const r = layout.runOf.get(runId);
  if (r === undefined) return refuseRun(runId, plan);
  const table = postTable(fence);
  const run = layout.runs[r]!;
  return Array.from(run.posts, (post, i) => {
    if (i > 0 && i < run.spans) return table.ofRun(r, i);
    return table.ofJunction(post, table.strandsAt(r, i));
  });
}

function refuseRun(runId: string, plan: ResolvedPlan): never {
  const known = plan.runs.map(({ id }) => id);
  throw new PlanError([
    {
      code: 'unknown-run',
      severity: 'error',
      path: ['run'],
      found: `"${runId}"`,
      expected: `one of ${known.join(', ')}`,
      hint: suggestion(runId, known),
      at: null,
    },
  ]);
}

/** What the results of posts are read from, made once for all of them. */
function postTable(fence: OpenFence) {
  const { network, layout, plan, volts, distanceM, animal } = fence;
  const nameOf = strandNodeNames(layout);
  const sourceOhms = nodeDrivingOhms(fence.circuit);
  const amps = strandAmps(fence);
  const grounded = layout.runs.map(({ strands }) =>
    strands.map(({ role }, s) => (role === 'hot' ? nearestGrounded(strands, s) : -1)),
  );

  const strandAt = (r: number, s: number, i: number): StrandResult => {
    const run = layout.runs[r]!;
    const { id, role } = run.strands[s]!;
    const node = run.nodes[s]![i]!;
    const g = grounded[r]![s]!;
    const far = distanceM[node]!;
    return {
      run: run.run.id,
      post: i,
      strand: id,
      role,
      status: fence.statusOf(role, node),
      node: nameOf(r, i, s),
      voltsToEarth: volts[node]!,
      voltsToGrounded: g < 0 ? null : volts[node]! - volts[run.nodes[g]![i]!]!,
      distanceM: Number.isFinite(far) ? far : null,
      animalVolts: animal.volts[node]!,
      animalAmps: animal.amps[node]!,
      sourceOhms: sourceOhms[node]!,
      spanAmps: i === run.spans ? null : amps[r]![s]!.span[i]!,
      leakAmps: amps[r]![s]!.leak[i]!,
    };
  };
  const strandsAt = (r: number, i: number) => layout.runs[r]!.strands.map((_, s) => strandAt(r, s, i));
  const bodyAmps = (post: number): number => {
    const e = network.postElement[post]!;
    return e < 0 ? 0 : fence.amps(e);
  };
  const ofJunction = (j: number, strands: StrandResult[]): PostResult => {
    const { id } = plan.junctions[j]!;
    return {
      id,
      junction: id,
      run: null,
      post: null,
      positionM: null,
      distanceM: nearest(strands),
      bodyVolts: volts[layout.body[j]!]!,
      bodyAmps: bodyAmps(j),
      strands,
    };
  };
  const ofRun = (r: number, i: number): PostResult => {
    const { run, positionsM, posts } = layout.runs[r]!;
    const strands = strandsAt(r, i);
    return {
      id: `${run.id}/${i}`,
      junction: null,
      run: run.id,
      post: i,
      positionM: positionsM[i]!,
      distanceM: nearest(strands),
      bodyVolts: volts[layout.body[posts[i]!]!]!,
      bodyAmps: bodyAmps(posts[i]!),
      strands,
    };
  };
  return { strandsAt, ofJunction, ofRun };
}

function nearest(strands: readonly StrandResult[]): number | null {
  let best: number | null = null;
  for (const { role, distanceM } of strands) {
    if (role === 'hot' && distanceM !== null && (best === null || distanceM < best)) best = distanceM;
  }
  return best;
}

function strandAmps(fence: OpenFence): StrandAmps[][] {
  const { elements, layout } = fence.network;
  const amps = layout.runs.map((run) =>
    run.strands.map(() => ({ span: new Float64Array(run.spans), leak: new Float64Array(run.spans + 1) })),
  );
  for (let e = 0; e < elements.count; e++) {
    const [r, i, s] = [elements.run[e]!, elements.post[e]!, elements.strand[e]!];
    if (r < 0 || s < 0) continue;
    const kind = elements.kind[e]!;
    const own = amps[r]![s]!;
    if (kind === kindCode.span || kind === kindCode.cable) own.span[i]! += fence.amps(e);
    else if (isLeak(kind) || kind === kindCode['strand rod']) own.leak[i]! += fence.amps(e);
  }
  return amps;
}
