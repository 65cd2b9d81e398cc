import { formatChance, postPositionM, type ResolvedPlan } from '@postvolt/core';
import type { MeterReadings, TraceResult } from '@postvolt/core/studies';
import type { FaultCandidate, FaultCandidatesInput, ReadingPlace } from '../figures/fault-candidates.js';

/** Stretches of one fault that are drawn. */
const mostStretches = 9;

/** Where a trace has the fault, as its figure takes it: likeliest stretches first, with what was read and where to read next. */
export function faultCandidatesInput(
  plan: ResolvedPlan,
  traced: TraceResult,
  readings: MeterReadings,
): FaultCandidatesInput {
  const runOf = new Map(plan.runs.map((run) => [run.id, run]));
  const candidates = traced.faults
    .flatMap(({ stretches, causes }) =>
      stretches.slice(0, mostStretches).map((stretch) => ({ stretch, cause: causes[0]?.cause ?? 'fault' })),
    )
    .sort((a, b) => b.stretch.chance - a.stretch.chance)
    .flatMap(({ stretch: { pieces, chance }, cause }, i) =>
      pieces.map(
        ({ run, fromPost, toPost }): FaultCandidate => ({
          run,
          fromM: postPositionM(runOf.get(run)!, fromPost),
          toM: postPositionM(runOf.get(run)!, toPost),
          rank: i + 1,
          cause: `${formatChance(chance)}, ${cause}`,
        }),
      ),
    );
  const read = readings.readings
    .filter(({ volts }) => volts !== null)
    .map(
      ({ run, postNumber, volts }): ReadingPlace => ({
        run,
        positionM: postPositionM(runOf.get(run)!, postNumber),
        volts,
      }),
    );
  const next = placeOf(plan, traced.next?.post ?? null);
  return { plan, units: plan.units, candidates, readings: next === null ? read : [...read, next] };
}

/** Where on a run a post's name is; a junction is the end of the first run there. */
function placeOf(plan: ResolvedPlan, post: string | null): ReadingPlace | null {
  if (post === null) return null;
  const run = plan.runs.find(({ id }) => post.startsWith(`${id}/`) && /^\d+$/.test(post.slice(id.length + 1)));
  if (run !== undefined)
    return { run: run.id, positionM: postPositionM(run, Number(post.slice(run.id.length + 1))), volts: null };
  const end = plan.runs.find(({ from, to }) => from === post || to === post);
  return end === undefined ? null : { run: end.id, positionM: end.from === post ? 0 : end.lengthM, volts: null };
}
