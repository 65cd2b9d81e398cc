import { analyse, Circuit, Factor, NetworkBuilder, SelectedInverse, SourceCurve } from '@postvolt/core/engine';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { networks, runs } from './arbitrary.js';
import { preciseVolts } from './precise.js';

// Against elimination in 50-digit arithmetic (mathjs BigNumber). Only sums, products and quotients of positive numbers form
// the factor, so each result is off by at most a few 1e-16 an operation on its way: 1e-12 is the goal, and thousands of them.
const TWELVE_DIGITS = 1e-12;

test('every potential has twelve digits over eighteen decades of conductance', () => {
  fc.assert(
    fc.property(networks({ decades: 18, mostNodes: 9 }), fc.nat(), (network, pick) => {
      const n = network.nodeCount;
      const node = pick % n;
      const amps = Array.from({ length: n }, (_, i) => (i === node ? 1 : 0));
      const factor = new Factor(analyse(network));
      factor.refactor(network.branchSiemens, network.leakSiemens);
      const volts = Float64Array.from(amps);
      factor.solve(volts, volts);
      preciseVolts(network, amps).forEach((exact, i) => {
        const off = exact.minus(volts[i]!).abs();
        expect(off.toNumber()).toBeLessThanOrEqual(TWELVE_DIGITS * Math.abs(exact.toNumber()));
      });
      const inverse = new SelectedInverse(factor);
      inverse.compute();
      const own = inverse.nodeOhms(new Float64Array(n))[node]!;
      expect(Math.abs(own / volts[node]! - 1)).toBeLessThanOrEqual(TWELVE_DIGITS);
    }),
    { numRuns: runs(60) },
  );
});

test('every potential behind a Thévenin source to earth has twelve digits', () => {
  fc.assert(
    fc.property(networks({ decades: 18, mostNodes: 9, twoTerminals: false }), (network) => {
      const { plus } = network.ports;
      const { volts } = new Circuit(
        network,
        new SourceCurve([
          [0, 8000],
          [16, 0],
        ]),
      ).solve();
      const amps = Array.from({ length: network.nodeCount }, (_, i) => (i === plus ? 16 : 0));
      preciseVolts(network, amps, [[plus, -1, 1 / 500]]).forEach((exact, i) => {
        const off = exact.minus(volts[i]!).abs();
        expect(off.toNumber()).toBeLessThanOrEqual(TWELVE_DIGITS * exact.toNumber());
      });
    }),
    { numRuns: runs(40) },
  );
});

test('a leak of 1e-12 S beside branches of 1e6 S keeps its digits', () => {
  // An assembled diagonal has lost this leak before elimination begins: 1e6 + 1e-12 = 1e6 in double precision.
  const builder = new NetworkBuilder();
  const far = builder.node(1e-12);
  let last = far;
  for (let i = 0; i < 10; i++) {
    const next = builder.node();
    builder.branch(last, next, 1e6);
    last = next;
  }
  const network = builder.ports(last).build();
  const { amps, volts } = new Circuit(network, SourceCurve.ideal(8000)).solve();
  const exact = 8000 / (1e12 + 10 / 1e6);
  expect(Math.abs(amps / exact - 1)).toBeLessThanOrEqual(TWELVE_DIGITS);
  expect(volts[far]).toBeCloseTo(8000, 9);
});
