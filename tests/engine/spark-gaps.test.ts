import {
  Circuit,
  EARTH,
  gapAmps,
  gapVolts,
  type Network,
  NetworkBuilder,
  Scan,
  type Solution,
  SourceCurve,
  touchNodes,
  whatIf,
} from '@postvolt/core/engine';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { expectLaws } from '../laws.js';
import { curvePoints, networks, permutation, renumbered, runs } from './arbitrary.js';
import { denseVolts } from './dense.js';

const sparking = networks({ decades: 6, withGaps: true });

/** A gap may stand on the wrong side of its threshold by the rounding of the potentials at its ends, no more. */
const SIDE = 1e-12;

function expectGapLaws(network: Network, volts: Float64Array, sign: Int8Array): void {
  const { a, b, volts: threshold } = network.gaps!;
  sign.forEach((side, i) => {
    const across = gapVolts(network, volts, i);
    const slack = SIDE * (threshold[i]! + Math.abs(volts[a[i]!]!) + (b[i] === EARTH ? 0 : Math.abs(volts[b[i]!]!)));
    if (side === 0) expect(Math.abs(across)).toBeLessThanOrEqual(threshold[i]! + slack);
    else expect(side * across).toBeGreaterThanOrEqual(threshold[i]! - slack);
  });
}

describe('spark gaps', () => {
  test('all obey their law, and the network Kirchhoff and Tellegen with them', () => {
    let fired = 0;
    fc.assert(
      fc.property(sparking, curvePoints, (network, points) => {
        const source = new SourceCurve(points);
        const solution = new Circuit(network, source).solve();
        expectLaws(network, solution);
        expectGapLaws(network, solution.volts, solution.gapSign);
        const onCurve = source.emfVolts[solution.segment]! - solution.sourceOhms * solution.amps;
        expect(Math.abs(onCurve - solution.terminalVolts)).toBeLessThanOrEqual(
          1e-12 * source.emfVolts[solution.segment]!,
        );
        fired += solution.gapSign.filter((sign) => sign !== 0).length;
      }),
      { numRuns: runs(400) },
    );
    expect(fired).toBeGreaterThan(runs(200) / 2);
  });

  test('find the one state that is consistent, tried against every state of a dense network', () => {
    fc.assert(
      fc.property(networks({ decades: 4, mostNodes: 5, withGaps: true }), (network) => {
        const gaps = network.gaps!;
        const count = Math.min(4, gaps.a.length);
        const few = { ...network, gaps: sliced(gaps, count) };
        const { volts } = new Circuit(few, SourceCurve.thevenin(10, 0.5)).solve();
        let consistent = 0;
        for (let state = 0; state < 3 ** count; state++) {
          const signs = Int8Array.from({ length: count }, (_, i) => (Math.floor(state / 3 ** i) % 3) - 1);
          const tried = withSigns(few, signs);
          if (!isConsistent(few, tried, signs)) continue;
          consistent++;
          tried.forEach((v, i) => {
            expect(Math.abs(v - volts[i]!)).toBeLessThanOrEqual(1e-8 * 10);
          });
        }
        expect(consistent).toBeGreaterThan(0);
      }),
      { numRuns: runs(60) },
    );
  });

  test('do not care for their own order or that of the nodes', () => {
    fc.assert(
      fc.property(sparking, curvePoints, fc.nat(), (network, points, seed) => {
        const source = new SourceCurve(points);
        const one = new Circuit(network, source).solve();
        const other = renumbered(network, seed);
        const order = permutation(network.gaps!.a.length, seed);
        const two = new Circuit({ ...other.network, gaps: reordered(other.network.gaps!, order) }, source).solve();
        one.volts.forEach((v, i) => {
          expect(Math.abs(two.volts[other.node[i]!]! - v)).toBeLessThanOrEqual(1e-11 * one.terminalVolts);
        });
        order.forEach((from, to) => {
          const agree = two.gapSign[to] === one.gapSign[from];
          // Only a gap right at its threshold may be called either way.
          const over = Math.abs(gapVolts(network, one.volts, from)) - network.gaps!.volts[from]!;
          expect(agree || Math.abs(over) <= 1e-11 * one.terminalVolts).toBe(true);
        });
      }),
    );
  });

  test('with a threshold of zero are resistances', () => {
    fc.assert(
      fc.property(sparking, (network) => {
        const gaps = { ...network.gaps!, volts: new Float64Array(network.gaps!.a.length) };
        const { volts } = new Circuit({ ...network, gaps }, SourceCurve.thevenin(10, 0.5)).solve();
        const extra = Array.from(gaps.a, (a, i) => [a, gaps.b[i]!, 1 / gaps.ohms[i]!] as const);
        denseVolts(network, 10, 0.5, extra).forEach((v, i) => {
          expect(Math.abs(v - volts[i]!)).toBeLessThanOrEqual(1e-7 * 10);
        });
      }),
      { numRuns: runs(60) },
    );
  });

  test('by hand: 8000 V behind 300 Ω into a gap of 5000 V and 200 Ω', () => {
    const builder = new NetworkBuilder();
    const hot = builder.node();
    builder.gap(hot, EARTH, 5000, 200);
    const network = builder.ports(hot).build();
    const { volts, amps, gapSign } = new Circuit(network, SourceCurve.thevenin(8000, 300)).solve();
    expect(amps).toBeCloseTo(3000 / 500, 12);
    expect(volts[hot]).toBeCloseTo(6200, 9);
    expect(gapSign).toEqual(Int8Array.of(1));
    expect(gapAmps(network, volts, 0)).toBeCloseTo(6, 12);
  });

  test('by hand: the grounded side fires below earth', () => {
    const builder = new NetworkBuilder();
    const [hot, rods] = [builder.node(1 / 1000), builder.node(1 / 1000)];
    builder.gap(rods, EARTH, 1000, 1000);
    const network = builder.ports(hot, rods).build();
    const { volts, gapSign } = new Circuit(network, SourceCurve.ideal(6000)).solve();
    // x below earth at the rods: (6000 − x)/1000 comes in, x/1000 + (x − 1000)/1000 goes out.
    expect(volts[rods]).toBeCloseTo(-7000 / 3, 9);
    expect(volts[hot]).toBeCloseTo(6000 - 7000 / 3, 9);
    expect(gapSign).toEqual(Int8Array.of(-1));
    expect(gapAmps(network, volts, 0)).toBeCloseTo(-4 / 3, 12);
  });

  test('by hand: a gap across an ideal source', () => {
    const builder = new NetworkBuilder();
    const [hot, rods] = [builder.node(), builder.node(0.01)];
    builder.gap(hot, rods, 5000, 100);
    expect(new Circuit(builder.ports(hot, rods).build(), SourceCurve.ideal(6000)).solve().amps).toBeCloseTo(10, 12);
  });

  test('one that fires may keep its neighbour from firing', () => {
    const builder = new NetworkBuilder();
    const [near, far] = [builder.node(1e-6), builder.node(1e-6)];
    builder.branch(near, far, 1 / 50);
    builder.gap(near, EARTH, 6900, 1000);
    builder.gap(far, EARTH, 4000, 1);
    const { gapSign, volts } = new Circuit(builder.ports(near).build(), SourceCurve.thevenin(8000, 500)).solve();
    expect(gapSign).toEqual(Int8Array.of(0, 1));
    expect(volts[near]).toBeLessThan(6900);
  });

  test('settle by the thousand', () => {
    const builder = new NetworkBuilder();
    const posts = 3000;
    for (let i = 0; i < posts; i++) {
      builder.node(1e-7);
      if (i > 0) builder.branch(i - 1, i, 2);
      builder.gap(i, EARTH, 500 + ((i * 7919) % 5000), 50 + ((i * 104_729) % 2000));
    }
    const network = builder.ports(0).build();
    const { volts, gapSign } = new Circuit(
      network,
      new SourceCurve([
        [0, 9800],
        [14, 7000],
        [42, 4200],
      ]),
    ).solve();
    expectGapLaws(network, volts, gapSign);
    expect(gapSign.filter((sign) => sign !== 0).length).toBeGreaterThan(50);
  });
});

describe('with spark gaps', () => {
  test('a source that is changed may fire them or put them out', () => {
    const builder = new NetworkBuilder();
    const hot = builder.node(1e-4);
    builder.gap(hot, EARTH, 5000, 200);
    const circuit = new Circuit(builder.ports(hot).build(), SourceCurve.ideal(6000));
    expect(circuit.solve().amps).toBeCloseTo(5.6, 12);
    circuit.setSource(SourceCurve.ideal(4000));
    expect(circuit.solve().amps).toBeCloseTo(0.4, 12);
    circuit.setSource(SourceCurve.ideal(7000));
    expect(circuit.solve().amps).toBeCloseTo(10.7, 12);
    circuit.setLeakSiemens(hot, 0);
    expect(circuit.solve().amps).toBeCloseTo(10, 12);
  });

  test('a new branch may fire one, and another may put it out again', () => {
    const builder = new NetworkBuilder();
    const [hot, far] = [builder.node(), builder.node(1e-4)];
    builder.branch(hot, far, 1e-4);
    builder.gap(far, EARTH, 5000, 200);
    const circuit = new Circuit(builder.ports(hot).build(), SourceCurve.ideal(8000));
    expect(circuit.solve().volts[far]).toBeCloseTo(4000, 9);
    // In at 0.0101 S from 8000 V, out at 1e-4 S and beyond 5000 V at 1/200 S: x · 0.0152 = 80.8 + 25.
    const fired = whatIf(circuit, [{ kind: 'add', a: hot, b: far, siemens: 0.01 }]);
    expect(fired.refactored).toBe(true);
    expect(fired.volts[far]).toBeCloseTo(105.8 / 0.0152, 9);
    expect(fired.amps).toBeCloseTo(0.0101 * (8000 - 105.8 / 0.0152), 12);
    // Off the wire but for a new leak: the new branch feeds it, x · 0.0301 = 80 with the old branch gone.
    const out = whatIf(circuit, [
      { kind: 'add', a: far, b: hot, siemens: 0.01 },
      { kind: 'add', a: far, b: EARTH, siemens: 0.02 },
      { kind: 'branch', branch: 0, siemens: 0 },
    ]);
    expect(out.volts[far]).toBeCloseTo(80 / 0.0301, 9);
  });

  test('a change is followed by them as solving anew does', () => {
    fc.assert(
      fc.property(sparking, curvePoints, fc.nat(), fc.nat(), (network, points, i, j) => {
        const n = network.nodeCount;
        const [a, b] = [i % n, (i + 1 + (j % (n - 1))) % n];
        const source = new SourceCurve(points);
        const circuit = new Circuit(network, source);
        const state = whatIf(circuit, [
          { kind: 'leak', node: a, siemens: 2 },
          { kind: 'add', a, b, siemens: 3 },
        ]);
        const changed = {
          ...network,
          branchFrom: Int32Array.of(...network.branchFrom, a),
          branchTo: Int32Array.of(...network.branchTo, b),
          branchSiemens: Float64Array.of(...network.branchSiemens, 3),
          leakSiemens: network.leakSiemens.map((g, node) => (node === a ? 2 : g)),
        };
        const exact = new Circuit(changed, source).solve();
        state.volts.forEach((v, node) => {
          expect(Math.abs(v - exact.volts[node]!)).toBeLessThanOrEqual(1e-9 * source.volts[0]!);
        });
      }),
    );
  });

  test('a change beside one that goes on firing keeps its share of the current', () => {
    const at = (leak: number, touched: number) => {
      const builder = new NetworkBuilder();
      const hot = builder.node(1e-4);
      const far = builder.node(leak);
      builder.branch(hot, far, 0.02 + touched);
      builder.gap(far, EARTH, 3000, 500);
      return new Circuit(builder.ports(hot).build(), SourceCurve.thevenin(9000, 300));
    };
    const circuit = at(1e-4, 0);
    expect(circuit.solve().gapSign[0]).toBe(1);
    const state = whatIf(circuit, [
      { kind: 'leak', node: 1, siemens: 5e-4 },
      { kind: 'add', a: 0, b: 1, siemens: 0.01 },
    ]);
    const exact = at(5e-4, 0.01).solve();
    expect(state.refactored).toBe(false);
    expect(state.amps / exact.amps).toBeCloseTo(1, 9);
    expect(state.terminalVolts / exact.terminalVolts).toBeCloseTo(1, 9);
    state.volts.forEach((v, node) => {
      expect(v / exact.volts[node]!).toBeCloseTo(1, 9);
    });
  });

  test('a scan, and a touch where they are held, leave them as they are', () => {
    fc.assert(
      fc.property(sparking, curvePoints, (network, points) => {
        const circuit = new Circuit(network, new SourceCurve(points));
        const slack = 1e-9 * circuit.source.volts[0]!;
        const touches = touchNodes(circuit.fork(circuit.solve().gapSign), 0.5);
        const scan = new Scan(
          circuit,
          Int32Array.from({ length: network.nodeCount }, (_, node) => node),
        );
        const volts = new Float64Array(network.nodeCount);
        const expectSame = (amps: number, exact: Solution) => {
          expect(Math.abs(amps - exact.amps)).toBeLessThanOrEqual(1e-9 * (circuit.solve().amps + exact.amps) + 1e-300);
          volts.forEach((v, node) => {
            expect(Math.abs(v - exact.volts[node]!)).toBeLessThanOrEqual(slack);
          });
        };
        for (let node = 0; node < network.nodeCount; node++) {
          const held = circuit.fork(circuit.solve().gapSign);
          held.setLeakSiemens(node, network.leakSiemens[node]! + 2);
          const exact = held.solve();
          expect(exact.gapSign).toEqual(circuit.solve().gapSign);
          expect(Math.abs(touches.volts[node]! - exact.volts[node]!)).toBeLessThanOrEqual(slack);
          expect(Math.abs(touches.terminalVolts[node]! - exact.terminalVolts)).toBeLessThanOrEqual(slack);
          expectSame(scan.leak(node, 2, volts), exact);
        }
        for (let branch = 0; branch < network.branchFrom.length; branch++) {
          for (const siemens of [0.1, 3]) {
            const held = circuit.fork(circuit.solve().gapSign);
            held.setBranchSiemens(branch, siemens);
            expectSame(scan.branch(branch, siemens, volts), held.solve());
          }
        }
      }),
      { numRuns: runs(60) },
    );
  });
});

type Gaps = NonNullable<Network['gaps']>;

function sliced(gaps: Gaps, count: number): Gaps {
  const first = <T extends Int32Array | Float64Array>(values: T) => values.slice(0, count) as T;
  return { a: first(gaps.a), b: first(gaps.b), volts: first(gaps.volts), ohms: first(gaps.ohms) };
}

function reordered(gaps: Gaps, order: Int32Array): Gaps {
  return {
    a: order.map((i) => gaps.a[i]!),
    b: order.map((i) => gaps.b[i]!),
    volts: Float64Array.from(order, (i) => gaps.volts[i]!),
    ohms: Float64Array.from(order, (i) => gaps.ohms[i]!),
  };
}

/** Dense potentials with each gap held as a conductance in series with its threshold voltage, or open. */
function withSigns(network: Network, signs: Int8Array): Float64Array {
  const { a, b, volts, ohms } = network.gaps!;
  // Superposition: the source, then each fired gap's own voltage as an injection that a large source stands for.
  const extra = [...signs].flatMap((sign, i) => (sign === 0 ? [] : [[a[i]!, b[i]!, 1 / ohms[i]!] as const]));
  const sum = Float64Array.from(denseVolts(network, 10, 0.5, extra));
  signs.forEach((sign, i) => {
    if (sign === 0) return;
    const alone = { ...network, ports: { plus: a[i]!, minus: b[i]! } };
    const others = extra.filter(([x, y, g]) => !(x === a[i] && y === b[i] && g === 1 / ohms[i]!));
    const own = extra.length - others.length - 1;
    const same = Array.from({ length: own }, () => [a[i]!, b[i]!, 1 / ohms[i]!] as const);
    const { plus, minus } = network.ports!;
    const part = denseVolts(alone, sign * volts[i]!, ohms[i]!, [...others, ...same, [plus, minus, 1 / 0.5]]);
    part.forEach((v, node) => {
      sum[node]! += v;
    });
  });
  return sum;
}

function isConsistent(network: Network, volts: Float64Array, signs: Int8Array): boolean {
  return signs.every((sign, i) => {
    const across = gapVolts(network, volts, i);
    const threshold = network.gaps!.volts[i]!;
    return sign === 0 ? Math.abs(across) <= threshold + 1e-9 : sign * across >= threshold - 1e-9;
  });
}
