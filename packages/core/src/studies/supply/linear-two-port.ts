import type { Circuit } from '../../engine/circuit.js';
import type { SourceCurve } from '../../engine/source-curve.js';
import { groundElement } from '../../fence/ground.js';
import { postIdOf } from '../../fence/hot-posts.js';
import type { OpenFence } from '../../fence/open-fence.js';
import type { LowestPost, Shorted, TwoPort } from './two-port.js';

/** The ground system that the network is factored with once, S; others are reached from it without loss of digits. */
const factoredGround = 1;

/** What an animal's touch needs, by entry of the hot nodes. */
interface Touch {
  readonly bodyOhms: number;
  /** Of the animal's path to earth. */
  readonly pathOhms: Float64Array;
  /** Driving-point ohms with the terminals tied and the factored ground. */
  readonly tiedOhms: Float64Array;
  /** Across the pair with the grounded strand, −1 where there is none: node of that strand, ohms with the terminals tied. */
  readonly grounded: Int32Array;
  readonly pairOhms: Float64Array;
}

/** The two terminals with some ground system. */
interface Terminals {
  /** Volts of the plus and the minus terminal for one volt between them, the latter zero or less. */
  readonly plus: number;
  readonly minus: number;
  readonly inputSiemens: number;
  /** Ohms to earth of the terminals tied together, and by how much that differs from the factored ground's. */
  readonly tiedOhms: number;
  readonly addedOhms: number;
}

/** The weakest post's volts for one volt between the terminals. */
interface LeastShare {
  readonly share: number;
  readonly entry: number;
}

/**
 * A linear fence without energizer and ground: eliminated down to its two terminals it is a leak at each and a branch
 * between them, and every node's volts are a fixed share of the two terminals' volts. One factorisation serves every
 * energizer and every number of rods.
 */
export class LinearTwoPort implements TwoPort {
  readonly fence: OpenFence;
  readonly #circuit: Circuit;
  /** Leak at either terminal, the ground system left out, and branch between them, S. */
  readonly #plusLeak: number;
  readonly #minusLeak: number;
  readonly #between: number;
  /** By node: volts for one volt at the plus, or at the minus terminal, the other held at earth. */
  readonly #plusShare: Float64Array;
  readonly #minusShare: Float64Array;
  /** By the minus terminal's share, which tells ground systems apart. */
  readonly #leastShares = new Map<number, LeastShare>();
  #touch: Touch | undefined;

  constructor(fence: OpenFence) {
    this.fence = fence;
    const other = fence.fork();
    other.setElement(groundElement(fence.network), factoredGround);
    const fork = other.circuit;
    fork.solve();
    const { factor } = fork;
    this.#circuit = fork;
    this.#plusLeak = factor.plusLeakSiemens;
    this.#minusLeak = Math.max(0, factor.minusLeakSiemens - factoredGround);
    this.#between = factor.portSiemens;
    const { nodeCount } = fork.network;
    this.#plusShare = new Float64Array(nodeCount);
    this.#minusShare = new Float64Array(nodeCount);
    factor.spread(1, 0, this.#plusShare);
    factor.spread(0, 1, this.#minusShare);
  }

  lowest(groundSiemens: number, curve: SourceCurve): LowestPost {
    const ends = this.#terminals(groundSiemens);
    return this.fence.plan.target.of === 'to earth' ? this.#toEarth(ends, curve) : this.#acrossAnimal(ends, curve);
  }

  /** Every volt follows the source in proportion, whatever the curve's knees: a scaled curve keeps the load where it was. */
  leastFactor(groundSiemens: number, curve: SourceCurve, targetVolts: number): number | null {
    const { volts } = this.lowest(groundSiemens, curve);
    return volts > 0 ? targetVolts / volts : null;
  }

  short(groundSiemens: number, curve: SourceCurve, node: number, volts: number): Shorted {
    const ends = this.#terminals(groundSiemens);
    const share = this.#share(ends, node);
    const both = this.#plusShare[node]! + this.#minusShare[node]!;
    const tied = this.#tiedOhms([node])[0]! + both * both * ends.addedOhms;
    const open = curve.meet(ends.inputSiemens, 0, { volts: 0, amps: 0, segment: 0 });
    if (share * open.volts <= volts) {
      return { siemens: 0, volts: share * open.volts, amps: open.amps, riseVolts: -ends.minus * open.volts };
    }
    // With the terminals at U the node is a source of share · U behind its tied resistance; the short's current reaches the
    // source in the same share (reciprocity). On each segment of the curve that leaves one linear equation for the short.
    const siemens = segmentShort(curve, ends.inputSiemens, share, tied, volts);
    const shorted = siemens * volts;
    const terminalVolts = (volts + tied * shorted) / share;
    return {
      siemens,
      volts,
      amps: ends.inputSiemens * terminalVolts + share * shorted,
      riseVolts: -ends.minus * terminalVolts + both * ends.tiedOhms * shorted,
    };
  }

  #terminals(groundSiemens: number): Terminals {
    const p = this.#plusLeak;
    const m = this.#minusLeak + groundSiemens;
    const factored = 1 / (p + this.#minusLeak + factoredGround);
    if (m === Number.POSITIVE_INFINITY)
      return { plus: 1, minus: 0, inputSiemens: this.#between + p, tiedOhms: 0, addedOhms: -factored };
    const sum = p + m;
    return {
      plus: m / sum,
      minus: -p / sum,
      inputSiemens: this.#between + (p * m) / sum,
      tiedOhms: 1 / sum,
      addedOhms: 1 / sum - factored,
    };
  }

  /** Volts of a node for one volt between the terminals. */
  #share({ plus, minus }: Terminals, node: number): number {
    return this.#plusShare[node]! * plus + this.#minusShare[node]! * minus;
  }

  #toEarth(ends: Terminals, curve: SourceCurve): LowestPost {
    // The weakest post's share is the same for every curve.
    const { share, entry } = this.#leastShares.get(ends.minus) ?? this.#leastShare(ends);
    return {
      volts: share * curve.meet(ends.inputSiemens, 0, { volts: 0, amps: 0, segment: 0 }).volts,
      postId: postIdOf(this.fence.hot, entry),
    };
  }

  #leastShare(ends: Terminals): LeastShare {
    const { nodes } = this.fence.hot;
    let least = { share: Number.POSITIVE_INFINITY, entry: 0 };
    for (let entry = 0; entry < nodes.length; entry++) {
      const share = this.#share(ends, nodes[entry]!);
      if (share < least.share) least = { share, entry };
    }
    this.#leastShares.set(ends.minus, least);
    return least;
  }

  #acrossAnimal(ends: Terminals, curve: SourceCurve): LowestPost {
    this.#touch ??= this.#touchData();
    const { bodyOhms, pathOhms, tiedOhms, grounded, pairOhms } = this.#touch;
    const { nodes } = this.fence.hot;
    const point = { volts: 0, amps: 0, segment: 0 };
    const amps = (share: number, loop: number) =>
      (share * curve.meet(ends.inputSiemens + (share * share) / loop, 0, point).volts) / loop;
    let least = Number.POSITIVE_INFINITY;
    let entry = 0;
    for (let i = 0; i < nodes.length; i++) {
      const node = nodes[i]!;
      const share = this.#share(ends, node);
      const both = this.#plusShare[node]! + this.#minusShare[node]!;
      let through = amps(share, pathOhms[i]! + tiedOhms[i]! + both * both * ends.addedOhms);
      const other = grounded[i]!;
      if (other >= 0) {
        const between = both - this.#plusShare[other]! - this.#minusShare[other]!;
        const loop = bodyOhms + pairOhms[i]! + between * between * ends.addedOhms;
        through = Math.max(through, amps(share - this.#share(ends, other), loop));
      }
      if (through * bodyOhms < least) {
        least = through * bodyOhms;
        entry = i;
      }
    }
    return { volts: least, postId: postIdOf(this.fence.hot, entry) };
  }

  /** Driving-point ohms of some nodes, terminals tied, with the factored ground; one solve a node. */
  #tiedOhms(nodes: readonly number[]): number[] {
    return nodes.map((node) => {
      const column = new Float64Array(this.#circuit.network.nodeCount);
      column[node] = 1;
      this.#circuit.factor.solve(column, column, Number.POSITIVE_INFINITY);
      return column[node]!;
    });
  }

  #touchData(): Touch {
    const { network, layout, formulaSiemens: formulas } = this.fence;
    const { nodes } = this.fence.hot;
    const bodyOhms = 1 / formulas[network.animalBetweenStrands]!;
    const pathOf = new Float64Array(layout.nodeCount);
    layout.runs.forEach((run, r) => {
      for (const strand of run.nodes)
        strand.forEach((node, i) => {
          pathOf[node] = 1 / formulas[network.animalToEarth[r]![i]!]!;
        });
    });
    const tied = this.#circuit.tiedInverse();
    const nodeOhms = tied.nodeOhms(new Float64Array(layout.nodeCount));
    const groundedOf = new Int32Array(layout.nodeCount).fill(-1);
    const pairOf = new Float64Array(layout.nodeCount);
    const { pairs } = this.#circuit.network;
    if (pairs !== undefined) {
      const ohms = tied.pairOhms(pairs.a, pairs.b, new Float64Array(pairs.a.length));
      pairs.a.forEach((node, p) => {
        groundedOf[node] = pairs.b[p]!;
        pairOf[node] = ohms[p]!;
      });
    }
    const at = (values: Float64Array) => Float64Array.from(nodes, (node) => values[node]!);
    return {
      bodyOhms,
      pathOhms: at(pathOf),
      tiedOhms: at(nodeOhms),
      grounded: Int32Array.from(nodes, (node) => groundedOf[node]!),
      pairOhms: at(pairOf),
    };
  }
}

/** Siemens of the short that leaves so many volts, on the segment of the curve where it comes to lie. */
function segmentShort(curve: SourceCurve, input: number, share: number, tied: number, volts: number): number {
  const last = curve.ohms.length - 1;
  for (let s = 0; ; s++) {
    const [fall, emf] = [curve.ohms[s]!, curve.emfVolts[s]!];
    // emf = U + fall · I, with U = volts (1 + tied · x) / share and I = input · U + share · volts · x.
    const perVolt = (1 + fall * input) / share;
    const x = (emf / volts - perVolt) / (tied * perVolt + fall * share);
    const terminal = (volts * (1 + tied * x)) / share;
    const amps = input * terminal + share * volts * x;
    if (s === last || amps <= curve.amps[s + 1]!) return Math.max(0, x);
  }
}
