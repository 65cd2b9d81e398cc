import { groupPrior } from '../../packages/core/src/studies/meter/group-prior.js';
import { MeterScale } from '../../packages/core/src/studies/meter/meter-error.js';
import type { PlacedFault } from '../../packages/core/src/studies/meter/meter-fence.js';
import { type Observation, WireMap } from '../../packages/core/src/studies/meter/observation.js';
import { Random } from '../../packages/core/src/studies/spread/random.js';
import { bestReading } from '../../packages/core/src/studies/trace/advise-reading.js';
import { reportedPosts } from '../../packages/core/src/studies/trace/describe-fault.js';
import { foundBy, withSecond } from '../../packages/core/src/studies/trace/find-faults.js';
import { locate } from '../../packages/core/src/studies/trace/locate.js';
import type { Case, CaseMaker } from './cases.js';

/** What was reported after so many readings. */
export interface Step {
  readonly readings: number;
  /** Whether the stretches hold the true place, both posts of a span. */
  readonly inside: boolean;
  /** The stretches as a part of the fence's posts. */
  readonly share: number;
  readonly faultChance: number;
  /** Faults reported after the last reading: two where one does not fit; 1 before that. */
  readonly faults: number;
}

export interface ScoreOptions {
  readonly withAmps: boolean;
  readonly mostReadings: number;
  readonly meterPercent: number;
  readonly seed: string;
}

const nextTurn = async () => {};

/** Reads a case where the advice says, one reading after the other, and looks at each report. */
export async function scoreCase(maker: CaseMaker, truth: Case, options: ScoreOptions): Promise<Step[]> {
  const { meter, candidates } = maker;
  const { postCount } = meter.fence.layout;
  const wires = new WireMap(meter.open);
  const prior = groupPrior(meter.groups, null);
  const scale = new MeterScale(options.meterPercent);
  const observations: Observation[] = [];
  const values: number[] = [];
  const steps: Step[] = [];
  for (let readings = 0; ; readings++) {
    const measured = { observations: [...observations], values: Float64Array.from(values), scale };
    const located = await locate(meter, measured, prior, [], candidates);
    const marked = reportedPosts(meter.fence, located);
    const isLast = readings === options.mostReadings;
    const look = (base: readonly PlacedFault[]) => locate(meter, measured, prior, base, candidates);
    steps.push({
      readings,
      inside: truth.fault?.candidate.posts.every((post) => marked[post] === 1) ?? false,
      share: marked.reduce((sum, mark) => sum + mark, 0) / postCount,
      faultChance: 1 / (1 + Math.exp(-located.logBayes)),
      faults: isLast ? (await withSecond(foundBy(located), measured, look)).length : 1,
    });
    if (isLast) return steps;
    const best = (await bestReading(meter, wires, prior, located, [], scale, {
      withAmps: options.withAmps,
      random: new Random(`${options.seed} ${readings}`),
      pause: nextTurn,
    }))!;
    const { volts, amps } = truth.read(best.probe);
    observations.push({ kind: 'volts', probe: best.probe });
    values.push(volts);
    if (!options.withAmps) continue;
    observations.push({ kind: 'amps', probe: best.probe });
    values.push(amps);
  }
}
