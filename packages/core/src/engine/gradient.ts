import { checkNode } from './check-network.js';
import type { Circuit } from './circuit.js';

/** Derivatives of one potential (or weighted sum of potentials) with respect to everything that decides it. */
export interface Gradient {
  /** Per branch conductance, V/S. */
  readonly perBranchSiemens: Float64Array;
  /** Per leak to earth, V/S. */
  readonly perLeakSiemens: Float64Array;
  /** Per volt of the source's open-circuit voltage on its present segment. */
  readonly perEmfVolt: number;
  /** Per ohm of the source's fall on its present segment, V/Ω. */
  readonly perSourceOhm: number;
  /** Per ampere injected at each node, V/A: the node's row of the inverse, source included. */
  readonly perInjectedAmp: Float64Array;
}

/** A node, or a weighted sum of potentials. */
export type Observed = number | { readonly nodes: ArrayLike<number>; readonly weights: ArrayLike<number> };

/**
 * The gradient of a node's volts, by one solve with the transposed (here: the same) matrix; the source follows its
 * present segment and spark gaps stay as they are.
 *
 * With v the potentials and z the node's row of the inverse, dV/dg of a branch a–b is −(z_a − z_b)(v_a − v_b)
 * (S. W. Director and R. A. Rohrer 1969). `into`, a former result, is overwritten if given.
 */
export function gradient(circuit: Circuit, observed: Observed, into?: Gradient): Gradient {
  const { network, factor } = circuit;
  const { nodeCount, branchFrom, branchTo } = network;
  const solution = circuit.solve();
  const row = into?.perInjectedAmp ?? new Float64Array(nodeCount);
  unit(observed, nodeCount, row);
  factor.solve(row, row, 1 / solution.sourceOhms);

  const { volts } = solution;
  const perBranchSiemens = into?.perBranchSiemens ?? new Float64Array(branchFrom.length);
  const perLeakSiemens = into?.perLeakSiemens ?? new Float64Array(nodeCount);
  // Two a turn, for the same reason as in the solve.
  let e = 0;
  for (; e + 1 < perBranchSiemens.length; e += 2) {
    const a = branchFrom[e]!;
    const b = branchTo[e]!;
    perBranchSiemens[e] = (row[b]! - row[a]!) * (volts[a]! - volts[b]!);
    const c = branchFrom[e + 1]!;
    const d = branchTo[e + 1]!;
    perBranchSiemens[e + 1] = (row[d]! - row[c]!) * (volts[c]! - volts[d]!);
  }
  if (e < perBranchSiemens.length) {
    const a = branchFrom[e]!;
    const b = branchTo[e]!;
    perBranchSiemens[e] = (row[b]! - row[a]!) * (volts[a]! - volts[b]!);
  }
  let i = 0;
  for (; i + 1 < nodeCount; i += 2) {
    perLeakSiemens[i] = -row[i]! * volts[i]!;
    perLeakSiemens[i + 1] = -row[i + 1]! * volts[i + 1]!;
  }
  if (i < nodeCount) perLeakSiemens[i] = -row[i]! * volts[i]!;

  // One volt more behind the source's fall: what reaches the node is its share of what reaches the terminals.
  const shareOfNode = weighted(observed, circuit.share());
  const perEmfVolt = shareOfNode / (1 + solution.sourceOhms * solution.inputSiemens);
  const perSourceOhm = -perEmfVolt * solution.amps;
  return { perBranchSiemens, perLeakSiemens, perEmfVolt, perSourceOhm, perInjectedAmp: row };
}

/** Writes the weights of what is observed over an array of zeros. */
export function unit(observed: Observed, nodeCount: number, into: Float64Array): void {
  into.fill(0);
  const add = (node: number, weight: number) => {
    checkNode('observed', node, nodeCount);
    into[node]! += weight;
  };
  if (typeof observed === 'number') add(observed, 1);
  else for (let i = 0; i < observed.nodes.length; i++) add(observed.nodes[i]!, observed.weights[i]!);
}

/** The weighted sum of `values` that is observed. */
export function weighted(observed: Observed, values: Float64Array): number {
  if (typeof observed === 'number') return values[observed]!;
  let sum = 0;
  for (let i = 0; i < observed.nodes.length; i++) sum += observed.weights[i]! * values[observed.nodes[i]!]!;
  return sum;
}
