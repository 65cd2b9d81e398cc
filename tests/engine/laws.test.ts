import { analyse, branchAmps, Circuit, Factor, type Network, SourceCurve } from '@postvolt/core/engine';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { expectLaws } from '../laws.js';
import { curvePoints, networks, renumbered, siemens } from './arbitrary.js';

// The laws that hold for every resistive network, on random ones with conductances over eighteen decades.
// Kirchhoff 1845; Tellegen 1952; Rayleigh 1899 (monotonicity); the rest in any text on circuit theory.

const wild = networks({ decades: 18 });

/** A few roundings a node, fourteen nodes at most: 1e-13 of the largest potential is some fifty roundings. */
const ROUNDING = 1e-13;

function factored(network: Network): Factor {
  const factor = new Factor(analyse(network));
  expect(factor.refactor(network.branchSiemens, network.leakSiemens)).toBe(true);
  return factor;
}

function unit(n: number, node: number, amps = 1): Float64Array {
  const injected = new Float64Array(n);
  injected[node] = amps;
  return injected;
}

describe('a driven network', () => {
  test('obeys Kirchhoff at every node, Tellegen as a whole, and the source its curve', () => {
    fc.assert(
      fc.property(wild, curvePoints, (network, points) => {
        const source = new SourceCurve(points);
        const solution = new Circuit(network, source).solve();
        expectLaws(network, solution);
        const { plus, minus } = network.ports;
        const across = solution.volts[plus]! - (minus < 0 ? 0 : solution.volts[minus]!);
        expect(Math.abs(across - solution.terminalVolts)).toBeLessThanOrEqual(ROUNDING * solution.terminalVolts);
        const onCurve = source.emfVolts[solution.segment]! - solution.sourceOhms * solution.amps;
        expect(Math.abs(onCurve - solution.terminalVolts)).toBeLessThanOrEqual(
          ROUNDING * source.emfVolts[solution.segment]!,
        );
        expect(solution.sourceOhms).toBe(source.ohms[solution.segment]);
      }),
    );
  });

  test('sends through its branches at every node what the source and the leaks do not', () => {
    fc.assert(
      fc.property(wild, curvePoints, (network, points) => {
        const { volts, amps } = new Circuit(network, new SourceCurve(points)).solve();
        const left = volts.map((v, i) => -v * network.leakSiemens[i]!);
        const size = left.map(Math.abs);
        const add = (node: number, current: number, terms: number) => {
          if (node < 0) return;
          left[node]! += current;
          size[node]! += terms;
        };
        add(network.ports.plus, amps, amps);
        add(network.ports.minus, -amps, amps);
        const through = branchAmps(network, volts);
        through.forEach((current, e) => {
          const [a, b] = [network.branchFrom[e]!, network.branchTo[e]!];
          const terms = network.branchSiemens[e]! * (Math.abs(volts[a]!) + Math.abs(volts[b]!));
          add(a, -current, terms);
          add(b, current, terms);
        });
        left.forEach((current, i) => {
          expect(Math.abs(current)).toBeLessThanOrEqual(1e-12 * size[i]!);
        });
        expect(branchAmps(network, volts, through.slice().fill(7))).toEqual(through);
      }),
    );
  });

  test('has every potential between those of the terminals, minus at or below earth and plus at or above', () => {
    fc.assert(
      fc.property(wild, curvePoints, (network, points) => {
        const { volts, amps } = new Circuit(network, new SourceCurve(points)).solve();
        const { plus, minus } = network.ports;
        const high = volts[plus]!;
        const low = minus < 0 ? 0 : volts[minus]!;
        expect(high).toBeGreaterThanOrEqual(0);
        expect(low).toBeLessThanOrEqual(0);
        expect(amps).toBeGreaterThanOrEqual(0);
        const slack = ROUNDING * (high - low);
        for (const v of volts) {
          expect(v).toBeLessThanOrEqual(high + slack);
          expect(v).toBeGreaterThanOrEqual(low - slack);
        }
      }),
    );
  });

  test('is pulled towards earth nowhere outwards by a leak: at a positive node nothing rises, at a negative one nothing falls', () => {
    fc.assert(
      fc.property(wild, curvePoints, fc.nat(), siemens(18), (network, points, pick, added) => {
        const circuit = new Circuit(network, new SourceCurve(points));
        const before = circuit.solve().volts.slice();
        const node = pick % network.nodeCount;
        const sign = Math.sign(before[node]!);
        circuit.setLeakSiemens(node, network.leakSiemens[node]! + added);
        const { volts, terminalVolts } = circuit.solve();
        const slack = ROUNDING * (terminalVolts + Math.max(...before.map(Math.abs)));
        volts.forEach((v, i) => {
          expect(sign * v).toBeLessThanOrEqual(sign * before[i]! + slack);
        });
      }),
    );
  });

  test('does not care how its nodes and branches are numbered', () => {
    fc.assert(
      fc.property(wild, curvePoints, fc.nat(), (network, points, seed) => {
        const one = new Circuit(network, new SourceCurve(points)).solve();
        const other = renumbered(network, seed);
        const two = new Circuit(other.network, new SourceCurve(points)).solve();
        expect(Math.abs(two.amps - one.amps)).toBeLessThanOrEqual(1e-12 * one.amps);
        one.volts.forEach((v, i) => {
          expect(Math.abs(two.volts[other.node[i]!]! - v)).toBeLessThanOrEqual(ROUNDING * one.terminalVolts);
        });
      }),
    );
  });
});

describe('a bare network', () => {
  test('is reciprocal: one ampere at a is felt at b as one at b is at a', () => {
    fc.assert(
      fc.property(wild, fc.nat(), fc.nat(), (network, i, j) => {
        const n = network.nodeCount;
        const [a, b] = [i % n, j % n];
        const factor = factored(network);
        const fromA = unit(n, a);
        const fromB = unit(n, b);
        factor.solve(fromA, fromA);
        factor.solve(fromB, fromB);
        // Positive sums of positive terms: relative even where it is small.
        expect(Math.abs(fromA[b]! - fromB[a]!)).toBeLessThanOrEqual(1e-12 * fromA[b]!);
      }),
    );
  });

  test('superposes', () => {
    fc.assert(
      fc.property(wild, fc.nat(), fc.nat(), siemens(4), (network, i, j, ratio) => {
        const n = network.nodeCount;
        const factor = factored(network);
        const both = unit(n, i % n);
        both[j % n]! += ratio;
        const [one, two, sum] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)];
        factor.solve(unit(n, i % n), one);
        factor.solve(unit(n, j % n, ratio), two);
        factor.solve(both, sum);
        sum.forEach((v, k) => {
          expect(Math.abs(v - one[k]! - two[k]!)).toBeLessThanOrEqual(1e-12 * v);
        });
      }),
    );
  });

  test('has resistances a k-th as large when all conductances are k times as large', () => {
    fc.assert(
      fc.property(wild, fc.nat(), siemens(12), (network, i, k) => {
        const n = network.nodeCount;
        const scaled = {
          ...network,
          branchSiemens: network.branchSiemens.map((g) => k * g),
          leakSiemens: network.leakSiemens.map((g) => k * g),
        };
        const [one, two] = [new Float64Array(n), new Float64Array(n)];
        factored(network).solve(unit(n, i % n), one);
        factored(scaled).solve(unit(n, i % n), two);
        one.forEach((v, j) => {
          expect(Math.abs(k * two[j]! - v)).toBeLessThanOrEqual(1e-12 * v);
        });
      }),
    );
  });

  test('has its largest driving-point resistance where the current enters, and falls with every conductance added', () => {
    fc.assert(
      fc.property(wild, fc.nat(), fc.nat(), siemens(18), (network, i, j, added) => {
        const n = network.nodeCount;
        const node = i % n;
        const [before, after] = [new Float64Array(n), new Float64Array(n)];
        factored(network).solve(unit(n, node), before);
        const branchSiemens = network.branchSiemens.slice();
        const leakSiemens = network.leakSiemens.slice();
        const place = j % (n + branchSiemens.length);
        if (place < n) leakSiemens[place]! += added;
        else branchSiemens[place - n]! += added;
        factored({ ...network, branchSiemens, leakSiemens }).solve(unit(n, node), after);
        expect(Math.max(...before)).toBeLessThanOrEqual(before[node]! * (1 + ROUNDING));
        expect(after[node]!).toBeLessThanOrEqual(before[node]! * (1 + ROUNDING));
      }),
    );
  });
});
