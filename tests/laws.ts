import { kirchhoffResidual, type Network, powerBalance, type SolvedState } from '@postvolt/core/engine';
import { expect } from 'vitest';

/**
 * Potentials are rounded to 1.1e-16 of themselves and pass through a few roundings a node on their way; the sum of currents
 * at a node is then off by some 1e-16 of its terms. 1e-12 leaves room for paths of many thousand nodes.
 */
export const CURRENT_LAW = 1e-12;

/**
 * Power in and power out are sums of positive terms, but a branch's own loss is taken from a difference of potentials:
 * with spans that lose a millionth of the volts, 1e-16 of the volts is 1e-10 of that loss. 1e-9 is ten times that.
 */
export const POWER_LAW = 1e-9;

/** Asserts Kirchhoff's current law at every node and Tellegen's theorem (power in = power out) on a solved network. */
export function expectLaws(network: Network, state: SolvedState, injectedAmps?: Float64Array): void {
  const kirchhoff = kirchhoffResidual(network, state, injectedAmps);
  expect(kirchhoff.backward, `Kirchhoff at node ${kirchhoff.node}: ${kirchhoff.amps} A left over`).toBeLessThan(
    CURRENT_LAW,
  );
  const power = powerBalance(network, state, injectedAmps);
  expect(
    power.relative,
    `Tellegen: ${power.deliveredWatts} W delivered, ${power.dissipatedWatts} W dissipated`,
  ).toBeLessThan(POWER_LAW);
}
