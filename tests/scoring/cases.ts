import type { ResolvedPlan } from '@postvolt/core';
import { endOfRange } from '../../packages/core/src/network/draw-value.js';
import { hotNodes } from '../../packages/core/src/result/leaks.js';
import { MeterFence, type PlacedFault } from '../../packages/core/src/studies/meter/meter-fence.js';
import { observe, type Probe } from '../../packages/core/src/studies/meter/observation.js';
import { normalQuantile } from '../../packages/core/src/studies/spread/normal-quantile.js';
import type { Random } from '../../packages/core/src/studies/spread/random.js';
import { type Candidate, faultCandidates } from '../../packages/core/src/studies/trace/candidates.js';

/** A fence as it really is: tables off within their ranges, and perhaps a fault. */
export interface Case {
  readonly fault: { readonly candidate: Candidate; readonly ohms: number; readonly cost: number } | null;
  /** What the meter shows, with its error. */
  read(probe: Probe): { readonly volts: number; readonly amps: number };
}

export class CaseMaker {
  readonly meter: MeterFence;
  readonly candidates: readonly Candidate[];
  readonly #hot: Uint8Array;

  constructor(plan: ResolvedPlan) {
    this.meter = new MeterFence(plan, plan.conditions[0]!);
    this.candidates = faultCandidates(this.meter);
    this.#hot = hotNodes(this.meter.fence);
  }

  /** Tables evenly anywhere within their ranges; with a fault that costs the weakest post a tenth or more, if one is wanted. */
  make(random: Random, withFault: boolean, errorPercent = 5): Case {
    const { meter } = this;
    const z = Float64Array.from(meter.groups.list, () => (2 * random.next() - 1) * endOfRange);
    let fault: Case['fault'] = null;
    while (withFault && fault === null) {
      const leak = random.next() < 0.7;
      const kinds = this.candidates.filter(({ kind }) => (kind === 'leak') === leak);
      const candidate = kinds[Math.floor(random.next() * kinds.length)]!;
      const ohms = leak
        ? 300e3 ** random.next()
        : random.next() < 0.5
          ? Number.POSITIVE_INFINITY
          : 10 * 100 ** random.next();
      meter.set(z);
      const before = this.#weakest();
      meter.set(z, [place(candidate, ohms)]);
      const cost = 1 - this.#weakest() / before;
      if (cost >= 0.1) fault = { candidate, ohms, cost };
    }
    return this.makeAt(z, random, fault, errorPercent);
  }

  /** Tables at `z`, with a fault or none. */
  makeAt(z: Float64Array, random: Random, fault: Case['fault'], errorPercent = 5): Case {
    const { meter } = this;
    meter.set(z, fault === null ? [] : [place(fault.candidate, fault.ohms)]);
    const { circuit } = meter;
    const volts = circuit.solve().volts.slice();
    const charging = meter.chargingVolts(circuit);
    const charge = meter.groups.chargingAmpsPerMetreVolt(z);
    const branchSiemens = circuit.network.branchSiemens.slice();
    const shown = (value: number, step: number) =>
      Math.round((value * (1 + (errorPercent / 100) * normalQuantile(random.next()))) / step) * step;
    return {
      fault,
      read: (probe) => ({
        volts: shown(observe({ kind: 'volts', probe }, volts, charging, charge, branchSiemens), 100),
        amps: shown(observe({ kind: 'amps', probe }, volts, charging, charge, branchSiemens), 0.1),
      }),
    };
  }

  #weakest(): number {
    const { volts } = this.meter.circuit.solve();
    let least = Number.POSITIVE_INFINITY;
    for (let n = 0; n < volts.length; n++) if (this.#hot[n] === 1) least = Math.min(least, volts[n]!);
    return least;
  }
}

export const place = ({ kind, place: at }: Candidate, ohms: number): PlacedFault =>
  kind === 'leak' ? { kind, node: at, ohms } : { kind, branch: at, ohms };
