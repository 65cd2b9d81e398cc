import type { Network } from './network.js';

/** Amps through every branch, from `branchFrom` to `branchTo`, for given potentials. `into` is overwritten if given. */
export function branchAmps(network: Network, volts: Float64Array, into?: Float64Array): Float64Array {
  const { branchFrom, branchTo, branchSiemens } = network;
  const amps = into ?? new Float64Array(branchSiemens.length);
  for (let e = 0; e < amps.length; e++) amps[e] = branchSiemens[e]! * (volts[branchFrom[e]!]! - volts[branchTo[e]!]!);
  return amps;
}
