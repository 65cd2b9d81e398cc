import {
  analyse,
  Circuit,
  drivingPoints,
  EARTH,
  Factor,
  type Network,
  SelectedInverse,
  SourceCurve,
} from '@postvolt/core/engine';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { networks, runs } from './arbitrary.js';
import { denseInverse, type Extra } from './dense.js';

// Against the dense inverse of ml-matrix. It assembles and subtracts, so it keeps some eight of sixteen digits over six decades
// of conductance; the tests with fifty digits show the rest.
const EIGHT_DIGITS = 1e-8;
const mild = networks({ decades: 6, withPairs: true });

/** Z_aa + Z_bb − 2 Z_ab of a dense inverse, with the size of its terms. */
function across(network: Network, extra: readonly Extra[]) {
  const z = denseInverse(network, extra);
  return (a: number, b: number) => {
    if (b === EARTH) return { ohms: z.get(a, a), terms: z.get(a, a) };
    const terms = z.get(a, a) + z.get(b, b);
    return { ohms: terms - z.get(a, b) - z.get(b, a), terms };
  };
}

/** The same with the terminals tied together: what they leave of an inverse Z is Z − Z c cᵀ Z / cᵀ Z c, c = plus − minus. */
function acrossTied(network: Network) {
  const { plus, minus } = network.ports!;
  const z = denseInverse(network);
  const toTerminals = (i: number) => z.get(i, plus) - (minus === EARTH ? 0 : z.get(i, minus));
  const between = toTerminals(plus) - (minus === EARTH ? 0 : toTerminals(minus));
  const free = across(network, []);
  return (a: number, b: number) => {
    const { ohms, terms } = free(a, b);
    const reach = toTerminals(a) - (b === EARTH ? 0 : toTerminals(b));
    return { ohms: ohms - reach ** 2 / between, terms };
  };
}

function expectOhms(found: number, exact: { ohms: number; terms: number }): void {
  expect(Math.abs(found - exact.ohms)).toBeLessThanOrEqual(EIGHT_DIGITS * exact.terms);
}

describe('the selected inverse', () => {
  test('has the diagonal, branches and declared pairs of the dense one, with any conductance between the terminals', () => {
    fc.assert(
      fc.property(mild, fc.constantFrom(0, 1e-3, 1, 1e3), (network, terminalSiemens) => {
        const { plus, minus } = network.ports;
        const exact = across(network, [[plus, minus, terminalSiemens]]);
        const factor = new Factor(analyse(network));
        factor.refactor(network.branchSiemens, network.leakSiemens);
        const inverse = new SelectedInverse(factor);
        inverse.compute(terminalSiemens);
        const nodeOhms = inverse.nodeOhms(new Float64Array(network.nodeCount));
        nodeOhms.forEach((ohms, i) => {
          expectOhms(ohms, exact(i, EARTH));
        });
        for (const { a, b } of [network.pairs!, { a: network.branchFrom, b: network.branchTo }]) {
          inverse.pairOhms(a, b, new Float64Array(a.length)).forEach((ohms, i) => {
            expectOhms(ohms, exact(a[i]!, b[i]!));
            expect(inverse.sumOhms(a[i]!, b[i]!)).toBe(nodeOhms[a[i]!]! + nodeOhms[b[i]!]!);
          });
          if (a.length > 0) expect(inverse.sumOhms(a[0]!, EARTH)).toBe(nodeOhms[a[0]!]);
        }
      }),
    );
  });

  test('follows the factor when it is computed again', () => {
    fc.assert(
      fc.property(mild, (network) => {
        const factor = new Factor(analyse(network));
        factor.refactor(network.branchSiemens, network.leakSiemens);
        const inverse = new SelectedInverse(factor);
        inverse.compute();
        const leakSiemens = network.leakSiemens.map((g) => 2 * g);
        const branchSiemens = network.branchSiemens.map((g) => 2 * g);
        const before = inverse.nodeOhms(new Float64Array(network.nodeCount));
        factor.refactor(branchSiemens, leakSiemens);
        inverse.compute();
        // Twice every conductance is half of every resistance, to the last bit.
        expect(inverse.nodeOhms(new Float64Array(network.nodeCount))).toEqual(before.map((ohms) => ohms / 2));
      }),
    );
  });
});

describe('driving points', () => {
  test.each(['none', 'present', 'ideal'] as const)('with the source counted as "%s"', (source) => {
    fc.assert(
      fc.property(mild, (network) => {
        const circuit = new Circuit(
          network,
          new SourceCurve([
            [0, 9],
            [1e-3, 8],
            [1, 3],
          ]),
        );
        const { plus, minus } = network.ports;
        const { sourceOhms } = circuit.solve();
        const exact =
          source === 'ideal'
            ? acrossTied(network)
            : across(network, source === 'none' ? [] : [[plus, minus, 1 / sourceOhms]]);
        const found = drivingPoints(circuit, source);
        found.nodeOhms.forEach((ohms, i) => {
          expectOhms(ohms, exact(i, EARTH));
        });
        found.pairOhms.forEach((ohms, i) => {
          expectOhms(ohms, exact(network.pairs!.a[i]!, network.pairs!.b[i]!));
        });
        found.branchOhms.forEach((ohms, e) => {
          expectOhms(ohms, exact(network.branchFrom[e]!, network.branchTo[e]!));
        });
      }),
      { numRuns: runs(80) },
    );
  });

  test('of an ideal source do not depend on how it is counted', () => {
    fc.assert(
      fc.property(mild, (network) => {
        const circuit = new Circuit(network, SourceCurve.ideal(9));
        expect(drivingPoints(circuit, 'present')).toEqual(drivingPoints(circuit, 'ideal'));
      }),
      { numRuns: runs(20) },
    );
  });

  test('change with the values, and with the source when that changes its segment', () => {
    const network: Network = {
      nodeCount: 2,
      branchFrom: Int32Array.of(0),
      branchTo: Int32Array.of(1),
      branchSiemens: Float64Array.of(1),
      leakSiemens: Float64Array.of(0, 1),
      ports: { plus: 0, minus: EARTH },
    };
    const circuit = new Circuit(network, SourceCurve.thevenin(10, 2));
    // Node 1: 1 Ω to earth beside 1 Ω and 2 Ω of the source.
    expect(drivingPoints(circuit).nodeOhms[1]).toBeCloseTo(3 / 4, 14);
    expect(drivingPoints(circuit).branchOhms[0]).toBeCloseTo(3 / 4, 14);
    circuit.setLeakSiemens(1, 0.5);
    expect(drivingPoints(circuit).nodeOhms[1]).toBeCloseTo(6 / 5, 14);
    circuit.setSource(SourceCurve.thevenin(10, 5));
    expect(drivingPoints(circuit).nodeOhms[1]).toBeCloseTo(12 / 8, 14);
    expect(drivingPoints(circuit, 'none').nodeOhms[1]).toBeCloseTo(2, 14);
    expect(drivingPoints(circuit).pairOhms).toEqual(new Float64Array(0));
  });
});
