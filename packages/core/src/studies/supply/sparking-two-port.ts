import { SourceCurve } from '../../engine/source-curve.js';
import { groundElement } from '../../fence/ground.js';
import type { OpenFence } from '../../fence/open-fence.js';
import type { LowestPost, Shorted, TwoPort } from './two-port.js';

/** Stands for a perfect ground: a billionth of an ohm. */
const perfectSiemens = 1e9;
/** Relative width to which a factor or a short is halved down: far below what a printed digit shows. */
const width = 1e-10;
/** Factors and shorts beyond which none is looked for. */
const mostFactor = 1e6;

/** A fence whose spark gaps bend it: every question is a solve of its circuit, and a factor or a short is found by halving. */
export class SparkingTwoPort implements TwoPort {
  readonly fence: OpenFence;
  readonly #fork: OpenFence;

  constructor(fence: OpenFence) {
    this.fence = fence;
    this.#fork = fence.fork();
  }

  #set(groundSiemens: number, curve: SourceCurve): OpenFence {
    const fork = this.#fork;
    fork.setElement(groundElement(fork.network), Math.min(groundSiemens, perfectSiemens));
    fork.setCurve(curve);
    return fork;
  }

  lowest(groundSiemens: number, curve: SourceCurve): LowestPost {
    const { volts, postId } = this.#set(groundSiemens, curve).lowest();
    return { volts, postId };
  }

  leastFactor(groundSiemens: number, curve: SourceCurve, targetVolts: number): number | null {
    const holds = (factor: number) => this.lowest(groundSiemens, scaledCurve(curve, factor)).volts >= targetVolts;
    let high = 1;
    while (!holds(high)) {
      high *= 4;
      if (high > mostFactor) return null;
    }
    let low = high / 4;
    while (low > 1 / mostFactor && holds(low)) [low, high] = [low / 4, low];
    while (high > low * (1 + width)) {
      const middle = Math.sqrt(low * high);
      if (holds(middle)) high = middle;
      else low = middle;
    }
    return high;
  }

  short(groundSiemens: number, curve: SourceCurve, node: number, volts: number): Shorted {
    const { circuit, layout } = this.#set(groundSiemens, curve);
    const leak = circuit.network.leakSiemens[node]!;
    const at = (siemens: number): Shorted => {
      circuit.setLeakSiemens(node, leak + siemens);
      const solution = circuit.solve();
      const riseVolts = -solution.volts[layout.groundTerminal]!;
      return { siemens, volts: solution.volts[node]!, amps: solution.amps, riseVolts };
    };
    try {
      if (at(0).volts <= volts) return at(0);
      let high = 1e-3;
      while (at(high).volts > volts && high < perfectSiemens) high *= 4;
      let low = 0;
      while (high - low > width * high) {
        const middle = (low + high) / 2;
        if (at(middle).volts > volts) low = middle;
        else high = middle;
      }
      return at(high);
    } finally {
      circuit.setLeakSiemens(node, leak);
    }
  }
}

/** A curve with its volts, and so its amps into every load, times a factor. */
export const scaledCurve = ({ amps, volts }: SourceCurve, factor: number): SourceCurve =>
  new SourceCurve(Array.from(amps, (amp, i): [number, number] => [amp * factor, volts[i]! * factor]));
