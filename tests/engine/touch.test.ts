import { Circuit, EARTH, NetworkBuilder, SourceCurve, touchNodes, touchPairs } from '@postvolt/core/engine';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { curvePoints, networks, runs, siemens } from './arbitrary.js';
import { denseVolts } from './dense.js';

describe('touching every node', () => {
  test('is what solving again with that load at the node gives, whatever segment the source is driven to', () => {
    let crossed = 0;
    fc.assert(
      fc.property(networks({ decades: 18, twoTerminals: false }), curvePoints, siemens(18), (network, points, ohms) => {
        const source = new SourceCurve(points);
        const circuit = new Circuit(network, source);
        const segment = circuit.solve().segment;
        const touches = touchNodes(circuit, ohms);
        for (let node = 0; node < network.nodeCount; node++) {
          const loaded = new Circuit(network, source);
          loaded.setLeakSiemens(node, network.leakSiemens[node]! + 1 / ohms);
          const exact = loaded.solve();
          // Positive terms only on both ways, a few roundings a node.
          expect(Math.abs(touches.volts[node]! - exact.volts[node]!)).toBeLessThanOrEqual(1e-11 * exact.volts[node]!);
          expect(Math.abs(touches.terminalVolts[node]! / exact.terminalVolts - 1)).toBeLessThanOrEqual(1e-11);
          expect(touches.volts[node]).toBe(ohms * touches.amps[node]!);
          if (touches.segment[node] !== segment) crossed++;
        }
      }),
    );
    // The generator must reach what the test is about.
    expect(crossed).toBeGreaterThan(runs(50) / 2);
  });

  test('agrees with a dense solve of the loaded network, with one load a node', () => {
    fc.assert(
      fc.property(
        networks({ decades: 4 }),
        fc.array(siemens(4), { minLength: 14, maxLength: 14 }),
        (network, loads) => {
          const circuit = new Circuit(network, SourceCurve.thevenin(9000, 300));
          const ohms = Float64Array.from(loads.slice(0, network.nodeCount));
          const touches = touchNodes(circuit, ohms);
          ohms.forEach((load, node) => {
            const exact = denseVolts(network, 9000, 300, [[node, EARTH, 1 / load]])[node]!;
            // Four decades cost the dense solve some six digits.
            expect(Math.abs(touches.volts[node]! - exact)).toBeLessThanOrEqual(1e-9 * 9000);
          });
        },
      ),
      { numRuns: runs(60) },
    );
  });

  test('with a dead short takes the node to earth and gives the short-circuit amps there', () => {
    const builder = new NetworkBuilder();
    const [a, b] = [builder.node(), builder.node(1e-3)];
    builder.branch(a, b, 1 / 100);
    const touches = touchNodes(new Circuit(builder.ports(a).build(), SourceCurve.thevenin(8000, 300)), 0);
    expect(touches.volts).toEqual(Float64Array.of(0, 0));
    expect(touches.amps[b]).toBeCloseTo(8000 / 400, 12);
    expect(touches.amps[a]).toBeCloseTo(8000 / 300, 10);
  });

  test('starves on dry ground: the share of the volts is R_a/(R_a + R_th)', () => {
    const builder = new NetworkBuilder();
    const [hot, rods] = [builder.node(), builder.node(1 / 50)];
    const circuit = new Circuit(builder.ports(hot, rods).build(), SourceCurve.thevenin(6000, 250));
    // Thévenin: 6000 V behind 250 Ω of source and 50 Ω of rods.
    for (const load of [500, 5000, 50_000]) {
      expect(touchNodes(circuit, load).volts[hot]).toBeCloseTo((6000 * load) / (load + 300), 8);
    }
  });
});

describe('touching beside spark gaps', () => {
  test('settles every gap anew: what solving again with the load in place gives', () => {
    let moved = 0;
    fc.assert(
      fc.property(
        networks({ decades: 1, withGaps: true, withPairs: true }),
        curvePoints,
        siemens(1),
        (drawn, points, load) => {
          const source = new SourceCurve(points);

          // Thresholds a little under what stands there without sparks, so that most fire and a touch can put them out.
          const dark = new Circuit({ ...drawn, gaps: undefined }, source).solve().volts;
          const { a: from, b: to } = drawn.gaps!;
          const across = (node: number) => (node === EARTH ? 0 : dark[node]!);
          const volts = Float64Array.from(from, (node, i) => 0.9 * Math.abs(across(node) - across(to[i]!)) + 1e-6);
          const network = { ...drawn, gaps: { ...drawn.gaps!, volts } };
          const slack = 1e-9 * source.volts[0]!;
          const circuit = new Circuit(network, source);
          const before = circuit.solve().gapSign.join();
          const touches = touchNodes(circuit, load);
          for (let node = 0; node < network.nodeCount; node++) {
            const loaded = new Circuit(network, source);
            loaded.setLeakSiemens(node, network.leakSiemens[node]! + 1 / load);
            const { volts, terminalVolts, gapSign } = loaded.solve();
            if (gapSign.join() !== before) moved++;
            expect(Math.abs(touches.volts[node]! - volts[node]!)).toBeLessThanOrEqual(slack);
            expect(Math.abs(touches.terminalVolts[node]! - terminalVolts)).toBeLessThanOrEqual(slack);
          }
          const { a, b } = network.pairs!;
          const between = touchPairs(circuit, load);
          a.forEach((from, i) => {
            const { branchFrom, branchTo, branchSiemens } = network;
            const loaded = new Circuit(
              {
                ...network,
                branchFrom: Int32Array.of(...branchFrom, from),
                branchTo: Int32Array.of(...branchTo, b[i]!),
                branchSiemens: Float64Array.of(...branchSiemens, 1 / load),
              },
              source,
            );
            const { volts } = loaded.solve();
            expect(Math.abs(between.volts[i]! - volts[from]! + volts[b[i]!]!)).toBeLessThanOrEqual(slack);
          });
        },
      ),
      { numRuns: runs(150), seed: 3 },
    );
    // The generator must reach what the test is about.
    expect(moved).toBeGreaterThan(runs(50) / 2);
  });

  test('of one gap: the touch puts it out, and the volts are those of the fence without it', () => {
    const builder = new NetworkBuilder();
    const hot = builder.node(1 / 4000);
    const network = {
      ...builder.ports(hot).build(),
      gaps: { a: Int32Array.of(hot), b: Int32Array.of(EARTH), volts: Float64Array.of(6000), ohms: Float64Array.of(50) },
    };
    const circuit = new Circuit(network, SourceCurve.thevenin(9000, 300));
    // Without the gap 9000 · 4000/4300 = 8372 V would stand there: it fires.
    expect(circuit.solve().gapSign[0]).toBe(1);
    // 500 Ω beside 4000 Ω are 444.4 Ω: 9000 · 444.4/744.4 = 5373 V, under the threshold.
    expect(touchNodes(circuit, 500).volts[hot]).toBeCloseTo((9000 * (4000 / 9)) / (4000 / 9 + 300), 8);
  });
});

describe('touching every pair', () => {
  test('agrees with a dense solve of the loaded network', () => {
    fc.assert(
      fc.property(networks({ decades: 4, withPairs: true }), siemens(6), (network, load) => {
        const { a, b } = network.pairs!;
        const touches = touchPairs(new Circuit(network, SourceCurve.thevenin(9000, 300)), load);
        expect(touches.volts).toHaveLength(a.length);
        a.forEach((from, i) => {
          const volts = denseVolts(network, 9000, 300, [[from, b[i]!, 1 / load]]);
          expect(Math.abs(touches.volts[i]! - volts[from]! + volts[b[i]!]!)).toBeLessThanOrEqual(1e-9 * 9000);
        });
      }),
      { numRuns: runs(80) },
    );
  });

  test('moves the source across a knee as solving again does', () => {
    fc.assert(
      fc.property(networks({ decades: 6, withPairs: true }), curvePoints, siemens(12), (network, points, load) => {
        const source = new SourceCurve(points);
        const touches = touchPairs(new Circuit(network, source), load);
        const { a, b } = network.pairs!;
        a.forEach((from, i) => {
          const loaded = {
            ...network,
            branchFrom: Int32Array.of(...network.branchFrom, from),
            branchTo: Int32Array.of(...network.branchTo, b[i]!),
            branchSiemens: Float64Array.of(...network.branchSiemens, 1 / load),
          };
          const { volts, terminalVolts } = new Circuit(loaded, source).solve();
          // The pair's own resistance is a difference: 1e-16 of the nodes' over six decades.
          const slack = 1e-9 * source.volts[0]!;
          expect(Math.abs(touches.volts[i]! - volts[from]! + volts[b[i]!]!)).toBeLessThanOrEqual(slack);
          expect(Math.abs(touches.terminalVolts[i]! - terminalVolts)).toBeLessThanOrEqual(slack);
        });
      }),
    );
  });

  test('at the terminals of an ideal source finds its volts; a dead short there has no end of amps', () => {
    const builder = new NetworkBuilder();
    const [plus, minus] = [builder.node(1e-6), builder.node(0.02)];
    builder.pair(plus, minus);
    const circuit = new Circuit(builder.ports(plus, minus).build(), SourceCurve.ideal(5000));
    expect(touchPairs(circuit, 1000)).toMatchObject({ volts: Float64Array.of(5000), amps: Float64Array.of(5) });
    const short = touchPairs(circuit, 0);
    expect(short.volts[0]).toBe(0);
    expect(short.amps[0]).toBe(Infinity);
  });
});
