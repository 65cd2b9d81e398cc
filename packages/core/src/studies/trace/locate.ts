import type { GroupPrior } from '../meter/group-prior.js';
import type { MeterFence, PlacedFault } from '../meter/meter-fence.js';
import { type Measured, type Settled, settle } from '../meter/settle.js';
import type { Candidate } from './candidates.js';
import { type ConditionalGroups, type LinearizationPoint, LinearScan, placed } from './linear-scan.js';
import { type PlacePosterior, placePosterior } from './place-posterior.js';
import { type FaultScores, joinScores, logEvidence, scoreFaults } from './score-faults.js';

/** One more fault on a fence with the faults that were found before. */
export interface Located {
  readonly scores: FaultScores;
  readonly posterior: PlacePosterior;
  /** The best hypothesis, groups settled. */
  readonly groups: ConditionalGroups;
  /** Without this fault. */
  readonly without: Settled;
  /** Logarithm of how much likelier the readings are with this fault than without it. */
  readonly logBayes: number;
}

/** Settled without bounds: ranges are 90 % ones, and the truth may lie a little outside. */
const farOut = 6;
/** Candidates of a part of the fence on a first and second look; on the last look all that are not hopeless. */
const fewCandidates = 12;
const coarseCandidates = 40;
/** Logarithms of how much less likely than the best a part, and on the last look a place, may be before it is left alone. */
const hopeless = { first: 30, second: 12, last: 12 } as const;

interface Part {
  readonly candidates: readonly Candidate[];
  readonly around: LinearizationPoint;
}

/**
 * Looks for one fault. The model is made linear for each part of the fence by itself (a run between two readings, leaks and
 * series faults apart), around the best fault there: what the groups must be depends on where the fault is.
 */
export async function locate(
  meter: MeterFence,
  measured: Measured,
  prior: GroupPrior,
  baseFaults: readonly PlacedFault[],
  candidates: readonly Candidate[],
  pause: (done: number) => Promise<void> = async () => {},
): Promise<Located> {
  const scanAround = (around: LinearizationPoint) => new LinearScan(meter, measured, prior, around, baseFaults);
  const without = settle(meter, measured, { precision: prior.precision, bound: farOut, faults: baseFaults });
  const start: LinearizationPoint = { w: new Float64Array(meter.groups.list.length), fault: null };
  let scores: FaultScores;
  let mass: number;
  if (measured.observations.length === 0) {
    scores = scoreFaults(scanAround(start), measured, candidates);
    mass = scores.mass;
  } else {
    const atStart = scanAround(start);
    const parts = partsOf(candidates, measured).map((members): Part => ({ candidates: members, around: start }));
    const first: FaultScores[] = [];
    for (const part of parts) {
      first.push(scoreFaults(atStart, measured, thinned(part.candidates, fewCandidates)));
      await pause(0.1);
    }
    mass = parts.reduce((sum, part, p) => sum + fullMass(first[p]!, part.candidates), 0);
    const hopeful = moveOn(parts, first, hopeless.first);
    const second: FaultScores[] = [];
    for (const part of hopeful) {
      second.push(scoreFaults(scanAround(part.around), measured, thinned(part.candidates, fewCandidates)));
      await pause(0.1 + (0.3 * second.length) / hopeful.length);
    }
    scores = await lastLook(moveOn(hopeful, second, hopeless.second), scanAround, measured, pause);
  }
  return {
    scores,
    posterior: placePosterior(scores, meter.fence.layout.postCount),
    groups: scores.conditional(scores.best),
    without,
    logBayes: logEvidence(scores, mass) - without.logEvidence,
  };
}

const bestWeight = ({ hypotheses, best }: FaultScores): number =>
  best < 0 ? Number.NEGATIVE_INFINITY : hypotheses[best]!.logWeight;

const strideOf = (candidates: readonly Candidate[], count: number): number =>
  Math.max(1, Math.floor(candidates.length / count));

/** Evenly spaced ones of a list. */
function thinned(candidates: readonly Candidate[], count: number): Candidate[] {
  const stride = strideOf(candidates, count);
  return candidates.filter((_, c) => c % stride === stride >> 1);
}

/** Prior probability of all candidates of a part, from that of a few. */
const fullMass = ({ mass }: FaultScores, candidates: readonly Candidate[]): number => {
  const looked = thinned(candidates, fewCandidates);
  const sum = (of: readonly Candidate[]) => of.reduce((total, { prior }) => total + prior, 0);
  return (mass * sum(candidates)) / sum(looked);
};

/** Parts that are not hopeless, each around its best fault. */
function moveOn(parts: readonly Part[], scores: readonly FaultScores[], drop: number): Part[] {
  const most = Math.max(...scores.map(bestWeight));
  return parts.flatMap((part, p): Part[] => {
    const own = scores[p]!;
    if (own.best < 0 || bestWeight(own) < most - drop) return [];
    const { w, ohms } = own.conditional(own.best);
    return [{ ...part, around: { w, fault: placed(own.hypotheses[own.best]!.candidate, ohms) } }];
  });
}

/** Every candidate, except between two coarse ones that are hopeless both. */
async function lastLook(
  parts: readonly Part[],
  scanAround: (around: LinearizationPoint) => LinearScan,
  measured: Measured,
  pause: (done: number) => Promise<void>,
): Promise<FaultScores> {
  const coarse: { part: Part; scan: LinearScan; scores: FaultScores }[] = [];
  for (const part of parts) {
    const scan = scanAround(part.around);
    coarse.push({ part, scan, scores: scoreFaults(scan, measured, thinned(part.candidates, coarseCandidates)) });
    await pause(0.4 + (0.3 * coarse.length) / parts.length);
  }
  const most = Math.max(...coarse.map(({ scores }) => bestWeight(scores)));
  const fine: FaultScores[] = [];
  for (const { part, scan, scores } of coarse) {
    const stride = strideOf(part.candidates, coarseCandidates);
    if (stride === 1) {
      fine.push(scores);
      continue;
    }
    const hopeful = new Uint8Array(part.candidates.length);
    const at = new Map(part.candidates.map((candidate, c) => [candidate, c]));
    for (const { candidate, logWeight } of scores.hypotheses) {
      if (logWeight < most - hopeless.last) continue;
      const c = at.get(candidate)!;
      hopeful.fill(1, Math.max(0, c - stride), c + stride + 1);
    }
    const kept = part.candidates.filter((_, c) => hopeful[c] === 1);
    fine.push(scoreFaults(scan, measured, kept));
    await pause(0.7 + (0.3 * fine.length) / coarse.length);
  }
  return joinScores(fine);
}

/** Candidates by kind and by the piece of run, between readings, that they lie on. */
function partsOf(candidates: readonly Candidate[], { observations }: Measured): Candidate[][] {
  // A wire clamped towards higher numbers is beyond its post.
  const cuts = new Map<number, number[]>();
  for (const { probe } of observations) {
    const { run, post, direction } = probe;
    cuts.set(run, [...(cuts.get(run) ?? []), direction === 1 ? post + 0.5 : post - 0.5]);
  }
  const parts = new Map<string, Candidate[]>();
  for (const candidate of candidates) {
    const { kind, run, post } = candidate;
    const piece = (cuts.get(run) ?? []).filter((cut) => cut < (kind === 'series' ? post + 0.5 : post)).length;
    const key = `${kind}|${run}|${piece}`;
    const part = parts.get(key);
    if (part === undefined) parts.set(key, [candidate]);
    else part.push(candidate);
  }
  return [...parts.values()];
}
