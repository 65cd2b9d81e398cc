import { checkNetwork } from './check-network.js';
import { refuse } from './issue.js';
import { EARTH, type Network } from './network.js';

/** Builds a {@link Network} in code, part by part. */
export class NetworkBuilder {
  readonly #leaks: number[] = [];
  readonly #from: number[] = [];
  readonly #to: number[] = [];
  readonly #siemens: number[] = [];
  readonly #pairA: number[] = [];
  readonly #pairB: number[] = [];
  readonly #gapA: number[] = [];
  readonly #gapB: number[] = [];
  readonly #gapVolts: number[] = [];
  readonly #gapOhms: number[] = [];
  #ports: Network['ports'];

  /** Adds a node with a leak to remote earth, S; returns its number. */
  node(leakSiemens = 0): number {
    return this.#leaks.push(leakSiemens) - 1;
  }

  /** Adds a conductance to remote earth, S, at a node; several add up. */
  leak(node: number, siemens: number): this {
    const present = this.#leaks[node];
    if (present === undefined) refuse('leak', node, 'the number of a node added before');
    this.#leaks[node] = present + siemens;
    return this;
  }

  /** Adds a branch of a conductance, S, between two nodes; returns its number. */
  branch(a: number, b: number, siemens: number): number {
    this.#from.push(a);
    this.#to.push(b);
    return this.#siemens.push(siemens) - 1;
  }

  /** Declares a pair whose mutual resistance is wanted; returns its number. */
  pair(a: number, b: number): number {
    this.#pairA.push(a);
    return this.#pairB.push(b) - 1;
  }

  /** Adds a spark gap from node a to node b or `EARTH`; returns its number. */
  gap(a: number, b: number, volts: number, ohms: number): number {
    this.#gapA.push(a);
    this.#gapB.push(b);
    this.#gapVolts.push(volts);
    return this.#gapOhms.push(ohms) - 1;
  }

  /** Names the terminals of the source; without `minus` the source stands between `plus` and remote earth. */
  ports(plus: number, minus: number = EARTH): this {
    this.#ports = { plus, minus };
    return this;
  }

  /** The network so far, checked. Throws an {@link EngineError} that names the first illegal entry. */
  build(): Network {
    const network: Network = {
      nodeCount: this.#leaks.length,
      branchFrom: Int32Array.from(this.#from),
      branchTo: Int32Array.from(this.#to),
      branchSiemens: Float64Array.from(this.#siemens),
      leakSiemens: Float64Array.from(this.#leaks),
      ports: this.#ports,
      pairs: this.#pairA.length > 0 ? { a: Int32Array.from(this.#pairA), b: Int32Array.from(this.#pairB) } : undefined,
      gaps:
        this.#gapA.length > 0
          ? {
              a: Int32Array.from(this.#gapA),
              b: Int32Array.from(this.#gapB),
              volts: Float64Array.from(this.#gapVolts),
              ohms: Float64Array.from(this.#gapOhms),
            }
          : undefined,
    };
    checkNetwork(network);
    return network;
  }
}
