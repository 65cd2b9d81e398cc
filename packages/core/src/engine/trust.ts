import { EARTH, type Network } from './network.js';

/** A solved state: potentials to earth and the currents that enter from outside. */
export interface SolvedState {
  /** Volts of every node to earth. */
  readonly volts: Float64Array;
  /** Amps out of the source's plus terminal, into `ports.plus`; 0 without a source. */
  readonly amps: number;
}

/** How well potentials obey Kirchhoff's current law. */
export interface KirchhoffResidual {
  /** Largest sum of currents at any node, A. */
  readonly amps: number;
  /** The node where it is largest. */
  readonly node: number;
  /** That sum relative to all the current injected; 0 where nothing is injected and the sum is 0. */
  readonly relative: number;
  /**
   * The largest ratio, over all nodes, of the sum of currents to the sum of their terms' sizes (g·|V_a| + g·|V_b| a branch):
   * a few 1e-16 where the potentials are as good as double precision can write them (W. Oettli and W. Prager 1964).
   */
  readonly backward: number;
}

/** Checks Kirchhoff's current law at every node, spark gaps included; `injectedAmps` is per node, the source apart. */
export function kirchhoffResidual(
  network: Network,
  state: SolvedState,
  injectedAmps?: Float64Array,
): KirchhoffResidual {
  const { nodeCount, branchFrom, branchTo, branchSiemens, leakSiemens, ports, gaps } = network;
  const { volts } = state;
  const sum = new Float64Array(nodeCount);
  const size = new Float64Array(nodeCount);
  let injected = Math.abs(state.amps);
  const add = (node: number, amps: number, terms: number) => {
    if (node === EARTH) return;
    sum[node]! += amps;
    size[node]! += terms;
  };
  for (let i = 0; i < nodeCount; i++) {
    const leak = leakSiemens[i]! * volts[i]!;
    add(i, -leak, Math.abs(leak));
    const amps = injectedAmps?.[i] ?? 0;
    injected += Math.abs(amps);
    add(i, amps, Math.abs(amps));
  }
  for (let e = 0; e < branchSiemens.length; e++) {
    const a = branchFrom[e]!;
    const b = branchTo[e]!;
    const g = branchSiemens[e]!;
    const amps = g * (volts[a]! - volts[b]!);
    const terms = g * (Math.abs(volts[a]!) + Math.abs(volts[b]!));
    add(a, -amps, terms);
    add(b, amps, terms);
  }
  for (let i = 0; gaps && i < gaps.a.length; i++) {
    const a = gaps.a[i]!;
    const b = gaps.b[i]!;
    const amps = gapAmps(network, volts, i);
    const terms = (Math.abs(volts[a]!) + (b === EARTH ? 0 : Math.abs(volts[b]!)) + gaps.volts[i]!) / gaps.ohms[i]!;
    add(a, -amps, amps === 0 ? 0 : terms);
    add(b, amps, amps === 0 ? 0 : terms);
  }
  if (ports) {
    add(ports.plus, state.amps, Math.abs(state.amps));
    add(ports.minus, -state.amps, Math.abs(state.amps));
  }
  let worst = 0;
  let node = 0;
  let backward = 0;
  for (let i = 0; i < nodeCount; i++) {
    const amps = Math.abs(sum[i]!);
    if (!(amps <= worst)) {
      worst = amps;
      node = i;
    }
    if (amps !== 0) backward = Math.max(backward, amps / size[i]!);
  }
  return { amps: worst, node, relative: worst === 0 ? 0 : worst / injected, backward };
}

/** Power put in and power turned to heat, W; equal by Tellegen's theorem. */
export interface PowerBalance {
  readonly deliveredWatts: number;
  readonly dissipatedWatts: number;
  /** Their difference relative to the larger; 0 where both are 0. */
  readonly relative: number;
}

/** Compares what the source and the injections deliver with what branches, leaks and spark gaps dissipate. */
export function powerBalance(network: Network, state: SolvedState, injectedAmps?: Float64Array): PowerBalance {
  const { branchFrom, branchTo, branchSiemens, leakSiemens, ports, gaps } = network;
  const { volts } = state;
  let delivered = 0;
  if (ports) delivered = state.amps * (volts[ports.plus]! - (ports.minus === EARTH ? 0 : volts[ports.minus]!));
  let dissipated = 0;
  for (let i = 0; i < leakSiemens.length; i++) {
    dissipated += leakSiemens[i]! * volts[i]! ** 2;
    if (injectedAmps) delivered += injectedAmps[i]! * volts[i]!;
  }
  for (let e = 0; e < branchSiemens.length; e++) {
    dissipated += branchSiemens[e]! * (volts[branchFrom[e]!]! - volts[branchTo[e]!]!) ** 2;
  }
  for (let i = 0; gaps && i < gaps.a.length; i++)
    dissipated += gapAmps(network, volts, i) * gapVolts(network, volts, i);
  const larger = Math.max(Math.abs(delivered), Math.abs(dissipated));
  return {
    deliveredWatts: delivered,
    dissipatedWatts: dissipated,
    relative: larger === 0 ? 0 : Math.abs(delivered - dissipated) / larger,
  };
}

/** Volts across a spark gap, a over b. */
export function gapVolts(network: Network, volts: Float64Array, gap: number): number {
  const { a, b } = network.gaps!;
  return volts[a[gap]!]! - (b[gap] === EARTH ? 0 : volts[b[gap]!]!);
}

/** Amps through a spark gap by its law, from a to b. */
export function gapAmps(network: Network, volts: Float64Array, gap: number): number {
  const across = gapVolts(network, volts, gap);
  const over = Math.abs(across) - network.gaps!.volts[gap]!;
  return over > 0 ? (Math.sign(across) * over) / network.gaps!.ohms[gap]! : 0;
}
