import { drivingPoints } from '../engine/driving-points.js';
import { kindCode } from '../network/elements.js';
import { nearestGrounded } from '../network/fence-circuit.js';
import { nodeNames } from '../network/layout.js';
import { elementAmps, isLeak } from './leaks.js';
import type { PostResult, StrandResult } from './result.js';
import { type AnimalTouches, type SolvedFence, statusOf } from './solved-fence.js';

/** Currents of a run's strands, by strand and post: in the span to the next post, and leaving there. */
interface StrandAmps {
  readonly span: Float64Array;
  readonly leak: Float64Array;
}

/** Every post of the fence with every strand on it: junctions first, then each run's posts in order. */
export function postResults(solved: SolvedFence, animal: AnimalTouches): PostResult[] {
  const { fence, volts, distanceM, circuit } = solved;
  const { layout, plan } = fence;
  const names = nodeNames(layout);
  const { nodeOhms } = drivingPoints(circuit);
  const amps = strandAmps(solved);

  const strand = (r: number, s: number, i: number): StrandResult => {
    const run = layout.runs[r]!;
    const { id, role } = run.strands[s]!;
    const node = run.nodes[s]![i]!;
    const g = role === 'hot' ? nearestGrounded(run.strands, s) : -1;
    const far = distanceM[node]!;
    return {
      run: run.run.id,
      post: i,
      strand: id,
      role,
      status: statusOf(solved, role, node),
      node: names[node]!,
      voltsToEarth: volts[node]!,
      voltsToGrounded: g < 0 ? null : volts[node]! - volts[run.nodes[g]![i]!]!,
      distanceM: Number.isFinite(far) ? far : null,
      animalVolts: animal.volts[node]!,
      animalAmps: animal.amps[node]!,
      sourceOhms: nodeOhms[node]!,
      spanAmps: i === run.spans ? null : amps[r]![s]!.span[i]!,
      leakAmps: amps[r]![s]!.leak[i]!,
    };
  };
  const body = (post: number) => {
    const bodyVolts = volts[layout.body[post]!]!;
    const e = fence.postElement[post]!;
    return { bodyVolts, bodyAmps: e < 0 ? 0 : elementAmps(solved, e) };
  };
  const junctions = layout.ends.map((ends, j): PostResult => {
    const strands = ends.flatMap((end) => {
      const run = layout.runs[end.run]!;
      return run.strands.map((_, s) => strand(end.run, s, end.end === 'from' ? 0 : run.spans));
    });
    const id = plan.junctions[j]!.id;
    return {
      id,
      junction: id,
      run: null,
      post: null,
      positionM: null,
      distanceM: nearest(strands),
      ...body(j),
      strands,
    };
  });
  const others = layout.runs.flatMap((run, r) =>
    Array.from({ length: Math.max(0, run.spans - 1) }, (_, n): PostResult => {
      const i = n + 1;
      const strands = run.strands.map((_, s) => strand(r, s, i));
      return {
        id: `${run.run.id}/${i}`,
        junction: null,
        run: run.run.id,
        post: i,
        positionM: run.positionsM[i]!,
        distanceM: nearest(strands),
        ...body(run.posts[i]!),
        strands,
      };
    }),
  );
  return [...junctions, ...others];
}

function nearest(strands: readonly StrandResult[]): number | null {
  let best: number | null = null;
  for (const { role, distanceM } of strands) {
    if (role === 'hot' && distanceM !== null && (best === null || distanceM < best)) best = distanceM;
  }
  return best;
}

function strandAmps(solved: SolvedFence): StrandAmps[][] {
  const { elements, layout } = solved.fence;
  const amps = layout.runs.map((run) =>
    run.strands.map(() => ({ span: new Float64Array(run.spans), leak: new Float64Array(run.spans + 1) })),
  );
  for (let e = 0; e < elements.count; e++) {
    const [r, i, s] = [elements.run[e]!, elements.post[e]!, elements.strand[e]!];
    if (r < 0 || s < 0) continue;
    const kind = elements.kind[e]!;
    const own = amps[r]![s]!;
    if (kind === kindCode.span || kind === kindCode.cable) own.span[i]! += elementAmps(solved, e);
    else if (isLeak(kind) || kind === kindCode['strand rod']) own.leak[i]! += elementAmps(solved, e);
  }
  return amps;
}
