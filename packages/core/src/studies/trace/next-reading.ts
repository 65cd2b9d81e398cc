import type { Layout } from '../../network/layout.js';
import type { MeterScale } from '../meter/meter-error.js';
import type { Probe, WireMap } from '../meter/observation.js';
import type { Random } from '../spread/random.js';
import type { Foreseen } from './foresee.js';

/** Posts a run that are looked at whatever the readings say, and quantiles of the likely places that are looked at besides. */
const postsPerRun = 8;
const likelyPlaces = 40;
/** Parts of equal probability between which a reading should decide. */
const parts = 16;

/** Places worth reading: spread over all runs, and closer together where the fault is likely. */
export function worthReading(layout: Layout, wires: WireMap, ofPost: Float64Array): Probe[] {
  const chosen = layout.runs.map(() => new Set<number>());
  layout.runs.forEach(({ spans }, r) => {
    const count = Math.min(postsPerRun, spans);
    for (let k = 0; k <= count; k++) chosen[r]!.add(Math.round((k * spans) / count));
  });
  // In the order of the runs, so that neighbours stay together.
  const order = layout.runs.flatMap(({ posts, spans }, r) =>
    Array.from({ length: spans + 1 }, (_, i) => ({ r, i, p: ofPost[posts[i]!]! })),
  );
  const total = order.reduce((sum, { p }) => sum + p, 0);
  let held = 0;
  let next = 0.5;
  for (const { r, i, p } of order) {
    held += (p / total) * likelyPlaces;
    if (held < next) continue;
    next = Math.floor(held - 0.5) + 1.5;
    for (const post of [i - 1, i, i + 1]) if (post >= 0 && post <= layout.runs[r]!.spans) chosen[r]!.add(post);
  }
  return chosen.flatMap((posts, r) => {
    const strands = wires.hotStrands(r);
    if (strands.length === 0) return [];
    const top = wires.topStrand(r);
    const ordered = [top, ...strands.filter((s) => s !== top)];
    const { spans } = layout.runs[r]!;
    return [...posts].sort((a, b) => a - b).map((i) => wires.probe(r, i, i === spans ? -1 : 1, ordered));
  });
}

/** How well readings tell the parts of the fence apart in which the fault may be. */
export class ReadingWorth {
  readonly #foreseen: Foreseen;
  readonly #scale: MeterScale;
  readonly #withAmps: boolean;
  /** By draw: its part; and by part: its share of the draws. */
  readonly #part: Int32Array;
  readonly #size = new Float64Array(parts);

  /** `place` orders the draws along the fence. */
  constructor(foreseen: Foreseen, place: (draw: number) => number, scale: MeterScale, withAmps: boolean) {
    this.#foreseen = foreseen;
    this.#scale = scale;
    this.#withAmps = withAmps;
    const draws = foreseen.hypotheses.length;
    const order = Array.from({ length: draws }, (_, d) => d).sort((a, b) => place(a) - place(b));
    this.#part = new Int32Array(draws);
    order.forEach((d, rank) => {
      this.#part[d] = Math.floor((rank * parts) / draws);
    });
    // Draws of one place belong to one part.
    for (let i = 1; i < draws; i++)
      if (place(order[i]!) === place(order[i - 1]!)) this.#part[order[i]!] = this.#part[order[i - 1]!]!;
    for (const p of this.#part) this.#size[p]! += 1 / draws;
  }

  /** Of every probe, in bits, too low by about the same for all: enough to choose by. */
  ranking(): Float64Array {
    return Float64Array.from(this.#foreseen.volts, (_, probe) => this.#bits(probe, this.#part));
  }

  /** Of one probe, in bits, above what the same draws seem to tell of parts that were dealt out at random. */
  bits(probe: number, random: Random): number {
    const deals = 4;
    let byChance = 0;
    for (let deal = 0; deal < deals; deal++) {
      const dealt = Int32Array.from(random.permutation(this.#part.length), (d) => this.#part[d]!);
      byChance += this.#bits(probe, dealt) / deals;
    }
    return Math.max(0, this.#bits(probe, this.#part) - byChance);
  }

  /** Mean gain of the logarithm of the true part's probability, over the foreseen fences, each judged by all the others. */
  #bits(probe: number, part: Int32Array): number {
    const volts = this.#foreseen.volts[probe]!;
    const amps = this.#foreseen.amps[probe]!;
    const draws = volts.length;
    // Half of the readings' own variance for the truth's reading, half for the fence that it is compared with.
    const a = volts.map((v) => this.#scale.even('volts', v) / 2);
    const b = amps.map((i) => (this.#withAmps ? this.#scale.even('amps', i) / 2 : 0));
    const same = new Float64Array(draws);
    const all = new Float64Array(draws);
    for (let k = 0; k < draws; k++) {
      for (let j = 0; j < k; j++) {
        const exponent = (a[j]! - a[k]!) ** 2 + (b[j]! - b[k]!) ** 2;
        if (exponent > 20) continue;
        const likeness = Math.exp(-exponent);
        all[k]! += likeness;
        all[j]! += likeness;
        if (part[j] !== part[k]) continue;
        same[k]! += likeness;
        same[j]! += likeness;
      }
    }
    let bits = 0;
    for (let k = 0; k < draws; k++) {
      // Half a draw spread over all parts keeps a fence that is like no other from counting as told apart for good.
      const own = this.#size[part[k]!]!;
      bits += Math.log2((same[k]! + 0.5 * own) / (all[k]! + 0.5) / own) / draws;
    }
    return bits;
  }
}
