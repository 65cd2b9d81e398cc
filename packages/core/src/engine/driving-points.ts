import type { Circuit } from './circuit.js';

/** Driving-point resistances, Ω, with what they owe to the source. */
export interface DrivingPoints {
  /** Of every node to earth. */
  readonly nodeOhms: Float64Array;
  /** Across every declared pair, Z_aa + Z_bb − 2 Z_ab. */
  readonly pairOhms: Float64Array;
  /** Across the ends of every branch, itself included. */
  readonly branchOhms: Float64Array;
}

/** How the source counts in a driving-point resistance. */
type SourceCounts = 'present' | 'none' | 'ideal';

/**
 * Driving-point resistances of all nodes, declared pairs and branches in one linear pass.
 *
 * The source counts with the fall of its present segment (`present`), not at all (`none`), or as a tie between its
 * terminals (`ideal`).
 */
export function drivingPoints(circuit: Circuit, source: SourceCounts = 'present'): DrivingPoints {
  const { network } = circuit;
  const { pairs, branchFrom, branchTo } = network;
  const nodeOhms = nodeDrivingOhms(circuit, source);
  const tied = circuit.tiedInverse();
  const pairOhms = new Float64Array(pairs?.a.length ?? 0);
  if (pairs) tied.pairOhms(pairs.a, pairs.b, pairOhms);
  const branchOhms = tied.pairOhms(branchFrom, branchTo, new Float64Array(branchFrom.length));
  const added = sourceAddition(circuit, source);
  if (added > 0) {
    const share = circuit.share();
    const square = (x: number) => (x === 0 ? 0 : x * x * added);
    for (let i = 0; pairs && i < pairOhms.length; i++)
      pairOhms[i]! += square(share[pairs.a[i]!]! - share[pairs.b[i]!]!);
    for (let e = 0; e < branchOhms.length; e++) branchOhms[e]! += square(share[branchFrom[e]!]! - share[branchTo[e]!]!);
  }
  return { nodeOhms, pairOhms, branchOhms };
}

/** Driving-point resistance of every node to earth alone; otherwise as {@link drivingPoints}. */
export function nodeDrivingOhms(circuit: Circuit, source: SourceCounts = 'present'): Float64Array {
  const nodeOhms = circuit.tiedInverse().nodeOhms(new Float64Array(circuit.network.nodeCount));
  const added = sourceAddition(circuit, source);
  const share = circuit.share();
  if (added > 0)
    for (let i = 0; i < nodeOhms.length; i++) if (share[i] !== 0) nodeOhms[i]! += share[i]! * share[i]! * added;
  return nodeOhms;
}

/** What the source adds to the inverse with tied terminals, times share · shareᵀ: one over the conductance at the terminals. */
function sourceAddition(circuit: Circuit, source: SourceCounts): number {
  const { sourceOhms, inputSiemens } = circuit.solve();
  return 1 / (inputSiemens + (source === 'none' ? 0 : source === 'ideal' ? Infinity : 1 / sourceOhms));
}
