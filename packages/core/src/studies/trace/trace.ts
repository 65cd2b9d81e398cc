import { Pacer, type TaskOptions } from '../../engine/pacer.js';
import { pickConditions } from '../../fence/pick-conditions.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import { chiSquared99 } from '../meter/chi-squared.js';
import { type GroupPrior, groupPrior, toZ } from '../meter/group-prior.js';
import { type MeasuredRound, measure } from '../meter/measure.js';
import { MeterScale } from '../meter/meter-error.js';
import { MeterFence, type PlacedFault } from '../meter/meter-fence.js';
import { WireMap } from '../meter/observation.js';
import { predictReadings } from '../meter/reading-model.js';
import type { MeterReadings } from '../meter/readings.js';
import { evenValues } from '../meter/settle.js';
import { Random } from '../spread/random.js';
import { adviseReading } from './advise-reading.js';
import { faultCandidates } from './candidates.js';
import { describeFault } from './describe-fault.js';
import { type Found, foundBy, withSecond } from './find-faults.js';
import { locate } from './locate.js';
import type { ComparedReading, TraceResult } from './result.js';
import { traceSentence } from './words.js';

/** What to ask of `trace`. */
export interface TraceOptions extends TaskOptions {
  /** A whole number; the same seed gives the same advice. 1 where left out. */
  readonly seed?: number;
  /** Whether the meter shows amps, for the advice; where left out, whether any reading has them, and true without readings. */
  readonly withAmps?: boolean;
}

/** Chances from which on a fault is said to be there, and below which there is no sign of one. */
const [sure, noSign] = [0.95, 0.2];

/**
 * Looks for faults in what a fence meter read: stretches of posts with their chances, likely causes and sizes, a second
 * fault where one does not fit, and where to read next. Volts are peak volts to earth, amps peak amps in the wire.
 *
 * One fault is put at every hot post, span and joint in turn, by rank-one updates of the solved network; its size is gone
 * through in cells of the logarithm; the uncertain table values are integrated out as normals around the values that suit
 * each part of the fence best (Laplace). A reading's error is normal on `MeterScale`'s even scale.
 *
 * Rejects with a `PlanError` for a condition that the plan does not have, and with the signal's reason when aborted.
 */
export async function trace(
  plan: ResolvedPlan,
  readings: MeterReadings,
  options: TraceOptions = {},
): Promise<TraceResult> {
  const [condition] = pickConditions(plan, [readings.condition]) as [ResolvedCondition];
  const pacer = new Pacer(options);
  const pause = async (done: number) => {
    if (pacer.due) await pacer.step(done);
  };
  const meter = new MeterFence(plan, condition);
  const scale = new MeterScale(readings.meterErrorPercent);
  const wires = new WireMap(meter.open);
  const measured = measure(meter, wires, readings.readings, scale);
  const prior = groupPrior(meter.groups, plan.calibration);
  const candidates = faultCandidates(meter);
  const look = (base: readonly PlacedFault[], from: number, to: number) =>
    locate(meter, measured, prior, base, candidates, (done) => pause(from + done * (to - from)));

  const first = foundBy(await look([], 0, 0.3));
  const faultChance = chanceOf(first.located.logBayes);
  const found = await withSecond(first, measured, look);
  const last = found.at(-1)!;
  const isSure = faultChance >= sure;
  const withAmps =
    options.withAmps ?? (readings.readings.length === 0 || readings.readings.some((r) => r.amps !== null));
  const others = found.slice(0, -1).map(({ fault }) => fault);
  await pause(0.7);
  const next = await adviseReading(meter, wires, prior, last.located, others, scale, {
    withAmps,
    random: new Random(`trace ${options.seed ?? 1}`),
    pause: (done) => pause(0.7 + 0.3 * done),
  });
  options.onProgress?.(1);
  const result: Omit<TraceResult, 'sentence'> = {
    format: 'postvolt trace',
    formatVersion: 1,
    title: plan.title,
    units: plan.units,
    condition: { id: condition.id, name: condition.name },
    meterErrorPercent: readings.meterErrorPercent,
    verdict: isSure ? 'fault' : faultChance < noSign ? 'no sign' : 'open',
    faultChance,
    faults: found.map(({ located }) => describeFault(meter.fence, located)),
    next,
    readings: compared(meter, measured, prior, found),
    misfit: last.located.groups.misfit,
    fits: measured.values.length === 0 || last.located.groups.misfit < chiSquared99(measured.values.length),
  };
  return { ...pick(result), sentence: traceSentence(result), ...result };
}

/** Puts the heading before the sentence, for readers of JSON. */
const pick = ({ format, formatVersion, title, units }: Omit<TraceResult, 'sentence'>) => ({
  format,
  formatVersion,
  title,
  units,
});

const chanceOf = (logBayes: number): number => 1 / (1 + Math.exp(-logBayes));

function compared(
  meter: MeterFence,
  measured: MeasuredRound,
  prior: GroupPrior,
  found: readonly Found[],
): ComparedReading[] {
  const { observations, values } = measured;
  if (values.length === 0) return [];
  const last = found.at(-1)!;
  const faults = found.map(({ fault }) => fault);
  const withFaults = predictReadings(meter, observations, toZ(prior, last.located.groups.w), faults);
  const withoutFault = found[0]!.located.without.readings;
  const [read, best] = [evenValues(measured, values), evenValues(measured, withFaults)];
  return observations.map(({ kind }, i) => ({
    post: measured.posts[i]!,
    kind,
    read: values[i]!,
    withoutFault: withoutFault[i]!,
    withFaults: withFaults[i]!,
    off: read[i]! - best[i]!,
  }));
}
