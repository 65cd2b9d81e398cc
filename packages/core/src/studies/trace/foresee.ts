import { type GroupPrior, toZ } from '../meter/group-prior.js';
import type { MeterFence, PlacedFault } from '../meter/meter-fence.js';
import { observe, type Probe } from '../meter/observation.js';
import { normalQuantile } from '../spread/normal-quantile.js';
import type { Random } from '../spread/random.js';
import { type ConditionalGroups, placed } from './linear-scan.js';
import type { PlacePosterior } from './place-posterior.js';
import type { FaultScores, Hypothesis } from './score-faults.js';

/** Fences that the readings allow, each with one fault, solved in full, and what a meter would show on each. */
export interface Foreseen {
  /** By draw. */
  readonly hypotheses: readonly Hypothesis[];
  /** By probe, by draw. */
  readonly volts: readonly Float64Array[];
  readonly amps: readonly Float64Array[];
}

/** Draws fences from the posterior and reads each at every probe; one solve a draw. */
export async function foresee(
  meter: MeterFence,
  prior: GroupPrior,
  scores: FaultScores,
  posterior: PlacePosterior,
  baseFaults: readonly PlacedFault[],
  probes: readonly Probe[],
  options: {
    readonly draws: number;
    readonly random: Random;
    readonly pause: (done: number) => Promise<void>;
  },
): Promise<Foreseen> {
  const { draws, random } = options;
  const volts = probes.map(() => new Float64Array(draws));
  const amps = probes.map(() => new Float64Array(draws));
  const known = new Map<number, ConditionalGroups>();
  const hypotheses: Hypothesis[] = [];
  // Evenly spaced shares of the probability, shifted by one random number: the least scatter that a sample can have.
  const shift = random.next();
  let h = 0;
  let below = posterior.probability[0]!;
  for (let draw = 0; draw < draws; draw++) {
    await options.pause(draw / draws);
    const share = (draw + shift) / draws;
    while (below < share && h < posterior.probability.length - 1) below += posterior.probability[++h]!;
    const hypothesis = scores.hypotheses[h]!;
    let groups = known.get(h);
    if (groups === undefined) {
      groups = scores.conditional(h);
      known.set(h, groups);
    }
    const { w, ohms } = groups.draw(() => normalQuantile(random.next()));
    const z = toZ(prior, w);
    meter.set(z, [...baseFaults, placed(hypothesis.candidate, ohms)]);
    const { circuit } = meter;
    const state = circuit.solve();
    const charging = meter.chargingVolts(circuit);
    const charge = meter.groups.chargingAmpsPerMetreVolt(z);
    const { branchSiemens } = circuit.network;
    probes.forEach((probe, p) => {
      volts[p]![draw] = state.volts[probe.voltsNode]!;
      amps[p]![draw] = observe({ kind: 'amps', probe }, state.volts, charging, charge, branchSiemens);
    });
    hypotheses.push(hypothesis);
  }
  return { hypotheses, volts, amps };
}
