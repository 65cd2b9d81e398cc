import { Circuit, EARTH, kirchhoffResidual, type Network, SourceCurve } from '@postvolt/core/engine';
import { expect, test } from 'vitest';
import { permutation, renumbered } from './arbitrary.js';

const million = 1_000_000;

/** A strand of a million posts, 0.7 Ω a span and a nanosiemens a post: the far end keeps 1e-11 of the volts. */
function ladder(): Network {
  return {
    nodeCount: million,
    branchFrom: Int32Array.from({ length: million - 1 }, (_, i) => i),
    branchTo: Int32Array.from({ length: million - 1 }, (_, i) => i + 1),
    branchSiemens: new Float64Array(million - 1).fill(1 / 0.7),
    leakSiemens: new Float64Array(million).fill(1e-9),
    ports: { plus: 0, minus: EARTH },
  };
}

test('a ladder of a million nodes, numbered at random, has the volts of its closed form', { timeout: 300_000 }, () => {
  const { network, node } = renumbered(ladder(), 1);
  const { volts } = new Circuit(network, SourceCurve.ideal(8000)).solve();
  // cosh (N−k+½)γ / cosh (N+½)γ, with e^γ written out to keep digits; relative to 8000 V at node 0.
  const product = 0.7e-9;
  const gamma = Math.log1p(product / 2 + Math.sqrt(product * (1 + product / 4)));
  const last = million - 1;
  for (let k = 0; k <= last; k += 997) {
    const [near, far] = [(last - k + 0.5) * gamma, (last + 0.5) * gamma];
    const exact = (8000 * Math.exp(near - far) * (1 + Math.exp(-2 * near))) / (1 + Math.exp(-2 * far));
    // A million roundings of 1e-16, all one way at worst.
    expect(Math.abs(volts[node[k]!]! / exact - 1)).toBeLessThanOrEqual(1e-10);
  }
});

test('a million nodes of strands, tees, loops and cross leaks obey Kirchhoff', { timeout: 300_000 }, () => {
  const random = permutation(million, 3);
  const from: number[] = [];
  const to: number[] = [];
  for (let i = 1; i < million; i++) {
    from.push(i);
    // Mostly the post before; every five-hundredth starts at some post so far.
    to.push(i % 500 === 0 ? random[i]! % i : i - 1);
  }
  for (let i = 0; i < 200; i++) {
    const [a, b] = [random[2 * i]!, random[2 * i + 1]!];
    from.push(a);
    to.push(b);
  }
  const network: Network = {
    nodeCount: million,
    branchFrom: Int32Array.from(from),
    branchTo: Int32Array.from(to),
    branchSiemens: Float64Array.from(from, (_, e) => 0.5 + (random[e % million]! % 1000) / 500),
    leakSiemens: Float64Array.from(random, (r) => 10 ** (-9 + (r % 1000) / 250)),
    ports: { plus: 0, minus: 1 },
  };
  const solution = new Circuit(
    network,
    new SourceCurve([
      [0, 9800],
      [14, 7000],
      [42, 4200],
    ]),
  ).solve();
  expect(kirchhoffResidual(network, solution).backward).toBeLessThanOrEqual(1e-14);
  expect(solution.amps).toBeGreaterThan(0);
});
