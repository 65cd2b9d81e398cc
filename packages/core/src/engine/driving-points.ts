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

/**
 * Driving-point resistances of all nodes, declared pairs and branches in one linear pass.
 *
 * The source counts with the fall of its present segment (`present`), not at all (`none`), or as a tie between its
 * terminals (`ideal`).
 */
export function drivingPoints(circuit: Circuit, source: 'present' | 'none' | 'ideal' = 'present'): DrivingPoints {
  const { network } = circuit;
  const { pairs, branchFrom, branchTo, nodeCount } = network;
  const { sourceOhms, inputSiemens } = circuit.solve();
  const tied = circuit.tiedInverse();
  const nodeOhms = tied.nodeOhms(new Float64Array(nodeCount));
  const pairOhms = new Float64Array(pairs?.a.length ?? 0);
  if (pairs) tied.pairOhms(pairs.a, pairs.b, pairOhms);
  const branchOhms = tied.pairOhms(branchFrom, branchTo, new Float64Array(branchFrom.length));
  // What a source adds to the inverse with tied terminals: share · shareᵀ over the conductance at the terminals.
  const siemens = inputSiemens + (source === 'none' ? 0 : source === 'ideal' ? Infinity : 1 / sourceOhms);
  const added = 1 / siemens;
  if (added > 0) {
    const share = circuit.share();
    const square = (x: number) => (x === 0 ? 0 : x * x * added);
    for (let i = 0; i < nodeCount; i++) nodeOhms[i]! += square(share[i]!);
    for (let i = 0; pairs && i < pairOhms.length; i++)
      pairOhms[i]! += square(share[pairs.a[i]!]! - share[pairs.b[i]!]!);
    for (let e = 0; e < branchOhms.length; e++) branchOhms[e]! += square(share[branchFrom[e]!]! - share[branchTo[e]!]!);
  }
  return { nodeOhms, pairOhms, branchOhms };
}
