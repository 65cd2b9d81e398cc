import type { GroupPrior } from '../meter/group-prior.js';
import type { MeterScale } from '../meter/meter-error.js';
import type { MeterFence, PlacedFault } from '../meter/meter-fence.js';
import type { Probe, WireMap } from '../meter/observation.js';
import type { Random } from '../spread/random.js';
import { reportedPosts } from './describe-fault.js';
import { type Foreseen, foresee } from './foresee.js';
import type { Located } from './locate.js';
import { ReadingWorth, worthReading } from './next-reading.js';
import type { NextReading } from './result.js';

/** Fences foreseen: enough to tell places apart whose worth differs by a tenth of a bit. */
const draws = 200;
/** Bits below which another reading is not worth the walk, and posts among which a person finds the fault by looking. */
const [leastBits, fewPosts] = [0.1, 3];

export interface AdviceOptions {
  readonly withAmps: boolean;
  readonly random: Random;
  readonly pause: (done: number) => Promise<void>;
}

/** The place to read that best splits what is left, or null where no reading tells much. */
export async function adviseReading(
  meter: MeterFence,
  wires: WireMap,
  prior: GroupPrior,
  located: Located,
  baseFaults: readonly PlacedFault[],
  scale: MeterScale,
  options: AdviceOptions,
): Promise<NextReading | null> {
  const best = await bestReading(meter, wires, prior, located, baseFaults, scale, options);
  const left = reportedPosts(meter.fence, located).reduce((sum, mark) => sum + mark, 0);
  // A first reading tells whether the tables are about right, if nothing else.
  const isFirst = located.without.readings.length === 0;
  if (best === null || (!isFirst && (best.bits < leastBits || left <= fewPosts))) return null;
  const { probe, volts, amps, bits } = best;
  const { layout } = meter.fence;
  const run = layout.runs[probe.run]!;
  const name = (post: number) => `${run.run.id}/${post}`;
  const junction = probe.post === 0 ? run.run.from : probe.post === run.spans ? run.run.to : null;
  return {
    post: junction ?? name(probe.post),
    strand: probe.branches.length > 1 ? 'all' : run.strands[wires.topStrand(probe.run)]!.id,
    wireTo: options.withAmps ? name(probe.post + probe.direction) : null,
    bits,
    volts: ends(volts),
    amps: options.withAmps ? ends(amps) : null,
  };
}

/** The probe that tells most, with what is foreseen there. */
export async function bestReading(
  meter: MeterFence,
  wires: WireMap,
  prior: GroupPrior,
  { scores, posterior }: Located,
  baseFaults: readonly PlacedFault[],
  scale: MeterScale,
  { withAmps, random, pause }: AdviceOptions,
): Promise<{
  readonly probe: Probe;
  readonly bits: number;
  readonly volts: Float64Array;
  readonly amps: Float64Array;
} | null> {
  const probes = worthReading(meter.fence.layout, wires, posterior.ofPost);
  if (probes.length === 0 || scores.best < 0) return null;
  const foreseen: Foreseen = await foresee(meter, prior, scores, posterior, baseFaults, probes, {
    draws,
    random,
    pause,
  });
  const order = new Map(meter.fence.layout.runs.map((_, r) => [r, r * 2 ** 24]));
  const place = (draw: number) => {
    const { run, post, kind } = foreseen.hypotheses[draw]!.candidate;
    return (order.get(run) ?? -1) + post + (kind === 'series' ? 0.5 : 0);
  };
  const worth = new ReadingWorth(foreseen, place, scale, withAmps);
  const ranking = worth.ranking();
  let best = 0;
  ranking.forEach((bits, p) => {
    if (bits > ranking[best]!) best = p;
  });
  return {
    probe: probes[best]!,
    bits: worth.bits(best, random),
    volts: foreseen.volts[best]!,
    amps: foreseen.amps[best]!,
  };
}

/** 5th and 95th percentile. */
function ends(values: Float64Array): { readonly low: number; readonly high: number } {
  const sorted = values.slice().sort();
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))]!;
  return { low: at(0.05), high: at(0.95) };
}
