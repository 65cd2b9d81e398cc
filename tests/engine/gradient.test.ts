import {
  Circuit,
  EARTH,
  gradient,
  type Network,
  NetworkBuilder,
  type Observed,
  SourceCurve,
} from '@postvolt/core/engine';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { networks, runs, siemens } from './arbitrary.js';
import { denseInverse } from './dense.js';

const emf = 9000;
const mild = networks({ decades: 5 });
const observedOf = (pick: number, weight: number, { nodeCount: n }: Network): Observed =>
  pick % 3 === 0 ? pick % n : { nodes: [pick % n, (pick >> 4) % n], weights: [1, weight] };

function voltsOf(observed: Observed, volts: Float64Array): number {
  if (typeof observed === 'number') return volts[observed]!;
  return volts[observed.nodes[0]!]! + observed.weights[1]! * volts[observed.nodes[1]!]!;
}

/**
 * A central difference over ±1e-4 of a value has a truncation error of 1e-8 of the third derivative, which for a fraction of
 * polynomials of first degree is at most a few times the volts, and a rounding error of 1e-16/1e-4: 1e-7 of the volts covers both.
 */
const STEP = 1e-4;
const SLACK = 1e-7 * emf;

describe('the gradient', () => {
  test('with respect to every branch and leak agrees with central differences', () => {
    fc.assert(
      fc.property(mild, fc.nat(), siemens(2), fc.constantFrom(0, 1, 300), (network, pick, weight, ohms) => {
        const observed = observedOf(pick, -weight / 10, network);
        const source = ohms === 0 ? SourceCurve.ideal(emf) : SourceCurve.thevenin(emf, ohms);
        const circuit = new Circuit(network, source);
        const { perBranchSiemens, perLeakSiemens } = gradient(circuit, observed);
        const difference = (set: (value: number) => void, value: number) => {
          set(value * (1 + STEP));
          const above = voltsOf(observed, circuit.solve().volts);
          set(value * (1 - STEP));
          const below = voltsOf(observed, circuit.solve().volts);
          set(value);
          return (above - below) / (2 * STEP);
        };
        // Both as volts per relative change.
        network.branchSiemens.forEach((g, e) => {
          const found = difference((value) => circuit.setBranchSiemens(e, value), g);
          expect(Math.abs(g * perBranchSiemens[e]! - found)).toBeLessThanOrEqual(SLACK);
        });
        network.leakSiemens.forEach((g, i) => {
          const found = difference((value) => circuit.setLeakSiemens(i, value), g);
          expect(Math.abs(g * perLeakSiemens[i]! - found)).toBeLessThanOrEqual(SLACK);
        });
      }),
      { numRuns: runs(60) },
    );
  });

  // Both ends of the loops over branches and nodes, with effects far above the rounding of the differences.
  test.each([3, 4])('of a loaded ladder of %i spans, value by value', (spans) => {
    const builder = new NetworkBuilder();
    const posts = Array.from({ length: spans + 1 }, (_, i) => builder.node(0.002 * (i + 1)));
    for (let i = 0; i < spans; i++) builder.branch(posts[i]!, posts[i + 1]!, 0.01 * (i + 1));
    const network = builder.ports(posts[0]!).build();
    const circuit = new Circuit(network, SourceCurve.thevenin(emf, 100));
    const { perBranchSiemens, perLeakSiemens } = gradient(circuit, posts[spans]!);
    const volts = () => circuit.solve().volts[posts[spans]!]!;
    const difference = (set: (value: number) => void, value: number) => {
      set(value * (1 + STEP));
      const above = volts();
      set(value * (1 - STEP));
      const below = volts();
      set(value);
      return (above - below) / (2 * STEP * value);
    };
    network.branchSiemens.forEach((g, e) => {
      expect(perBranchSiemens[e]! / difference((value) => circuit.setBranchSiemens(e, value), g)).toBeCloseTo(1, 6);
    });
    network.leakSiemens.forEach((g, i) => {
      expect(perLeakSiemens[i]! / difference((value) => circuit.setLeakSiemens(i, value), g)).toBeCloseTo(1, 6);
    });
  });

  test('with respect to injected amps is the row of the dense inverse, source included', () => {
    fc.assert(
      fc.property(mild, fc.nat(), (network, pick) => {
        const node = pick % network.nodeCount;
        const circuit = new Circuit(
          network,
          new SourceCurve([
            [0, emf],
            [10, 6000],
            [100, 1000],
          ]),
        );
        const { plus, minus } = network.ports;
        const exact = denseInverse(network, [[plus, minus, 1 / circuit.solve().sourceOhms]]);
        gradient(circuit, node).perInjectedAmp.forEach((ohms, i) => {
          // Five decades cost the dense inverse some seven digits.
          expect(Math.abs(ohms - exact.get(node, i))).toBeLessThanOrEqual(1e-8 * exact.get(node, node));
        });
      }),
    );
  });

  test('with respect to the source agrees with central differences, on any segment', () => {
    fc.assert(
      fc.property(mild, fc.nat(), (network, pick) => {
        const observed = observedOf(pick, 0.5, network);
        const circuit = new Circuit(
          network,
          new SourceCurve([
            [0, emf],
            [10, 6000],
            [100, 1000],
          ]),
        );
        const { segment, sourceOhms } = circuit.solve();
        const emfVolts = circuit.source.emfVolts[segment]!;
        const { perEmfVolt, perSourceOhm } = gradient(circuit, observed);
        const at = (volts: number, ohms: number) =>
          voltsOf(observed, new Circuit(network, SourceCurve.thevenin(volts, ohms)).solve().volts);
        const byEmf = at(emfVolts * 1.001, sourceOhms) - at(emfVolts * 0.999, sourceOhms);
        const byOhms = at(emfVolts, sourceOhms * (1 + STEP)) - at(emfVolts, sourceOhms * (1 - STEP));
        expect(Math.abs(perEmfVolt * 0.002 * emfVolts - byEmf)).toBeLessThanOrEqual(SLACK);
        expect(Math.abs(perSourceOhm * sourceOhms - byOhms / (2 * STEP))).toBeLessThanOrEqual(SLACK);
      }),
      { numRuns: runs(60) },
    );
  });

  test('is written over a former one if that is given', () => {
    const network: Network = {
      nodeCount: 2,
      branchFrom: Int32Array.of(0),
      branchTo: Int32Array.of(1),
      branchSiemens: Float64Array.of(1),
      leakSiemens: Float64Array.of(0, 1),
      ports: { plus: 0, minus: EARTH },
    };
    const circuit = new Circuit(network, SourceCurve.ideal(10));
    const first = gradient(circuit, 0);
    const second = gradient(circuit, 1, first);
    expect(second.perBranchSiemens).toBe(first.perBranchSiemens);
    expect(second.perLeakSiemens).toBe(first.perLeakSiemens);
    // v = 10 g/(g + d): 10 d/(g + d)² by the branch, −10 g/(g + d)² by the leak.
    expect(second.perBranchSiemens[0]).toBeCloseTo(2.5, 14);
    expect([...second.perLeakSiemens]).toEqual([expect.closeTo(0, 14), -2.5]);
    expect(second.perEmfVolt).toBeCloseTo(0.5, 14);
  });
});
