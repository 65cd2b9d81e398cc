import {
  type Change,
  Circuit,
  EARTH,
  EngineError,
  Factor,
  type Network,
  NetworkBuilder,
  Scan,
  SelectedInverse,
  SourceCurve,
  scanAll,
  whatIf,
} from '@postvolt/core/engine';
import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { curvePoints, networks, runs, siemens } from './arbitrary.js';

// An update keeps nine digits of the volts or factors again (so it says); the solve it is held against has twelve and more.
const NINE_DIGITS = 1e-9;

/** The network with the changes made, to be solved anew. */
function changed(network: Network, changes: readonly Change[]): Network {
  const branchSiemens = [...network.branchSiemens];
  const leakSiemens = network.leakSiemens.slice();
  const from = [...network.branchFrom];
  const to = [...network.branchTo];
  for (const change of changes) {
    if (change.kind === 'branch') branchSiemens[change.branch] = change.siemens;
    else if (change.kind === 'leak') leakSiemens[change.node] = change.siemens;
  }
  for (const change of changes) {
    if (change.kind !== 'add') continue;
    if (change.b === EARTH) leakSiemens[change.a]! += change.siemens;
    else {
      from.push(change.a);
      to.push(change.b);
      branchSiemens.push(change.siemens);
    }
  }
  return {
    ...network,
    branchFrom: Int32Array.from(from),
    branchTo: Int32Array.from(to),
    branchSiemens: Float64Array.from(branchSiemens),
    leakSiemens,
  };
}

/** Random changes, each of its own branch or leak; some open a branch, some take a leak away. */
const changesFor = (network: Network, decades: number): fc.Arbitrary<Change[]> => {
  const n = network.nodeCount;
  const value = fc.oneof({ weight: 4, arbitrary: siemens(decades) }, { weight: 1, arbitrary: fc.constant(0) });
  const node = fc.nat(n - 1);
  return fc.uniqueArray(
    fc.oneof(
      ...(network.branchFrom.length > 0
        ? [
            fc.record({
              kind: fc.constant('branch' as const),
              branch: fc.nat(network.branchFrom.length - 1),
              siemens: value,
            }),
          ]
        : []),
      fc.record({ kind: fc.constant('leak' as const), node, siemens: value }),
      fc.record({ a: node, step: fc.nat(n - 1), siemens: value }).map(({ a, step, siemens: g }) => ({
        kind: 'add' as const,
        a,
        b: step === 0 ? EARTH : (a + step) % n,
        siemens: g,
      })),
    ),
    { minLength: 1, maxLength: 4, selector: (change) => JSON.stringify({ ...change, siemens: 0 }) },
  );
};

const cases = (decades: number) =>
  networks({ decades, withPairs: true }).chain((network) =>
    fc.record({ network: fc.constant(network), changes: changesFor(network, decades) }),
  );

describe('what if', () => {
  test.each([6, 18])('a few values change, over %i decades: the same as solving the changed network', (decades) => {
    let updated = 0;
    let unsolvable = 0;
    fc.assert(
      fc.property(cases(decades), curvePoints, ({ network, changes }, points) => {
        const source = new SourceCurve(points);
        const circuit = new Circuit(network, source);
        const before = circuit.solve().volts.slice();
        const exact = new Circuit(changed(network, changes), source).trySolve();
        if (!exact.ok) {
          unsolvable++;
          expect(() => whatIf(circuit, changes)).toThrow(EngineError);
          return;
        }
        const state = whatIf(circuit, changes);
        if (!state.refactored) updated++;
        state.volts.forEach((v, i) => {
          expect(Math.abs(v - exact.value.volts[i]!)).toBeLessThanOrEqual(NINE_DIGITS * source.volts[0]!);
        });
        expect(Math.abs(state.terminalVolts - exact.value.terminalVolts)).toBeLessThanOrEqual(
          NINE_DIGITS * source.volts[0]!,
        );
        const at = [network.nodeCount - 1, 0];
        expect([...whatIf(circuit, changes, at).volts]).toEqual(at.map((node) => state.volts[node]));
        // Nothing of it stays.
        expect(circuit.solve().volts).toEqual(before);
      }),
    );
    expect(updated).toBeGreaterThan(runs(50) / 2);
    expect(unsolvable).toBeGreaterThan(0);
  });

  test('a broken span leaves what lies behind it dead', () => {
    const builder = new NetworkBuilder();
    const posts = [0, 1, 2, 3, 4].map(() => builder.node(1e-8));
    const spans = posts.slice(1).map((post, i) => builder.branch(posts[i]!, post, 3));
    const circuit = new Circuit(builder.ports(posts[0]!).build(), SourceCurve.thevenin(8000, 400));
    const { volts, refactored } = whatIf(circuit, [{ kind: 'branch', branch: spans[1]!, siemens: 0 }]);
    // The span carries a 1e-8th of its conductance: an update would be left with no digit behind it.
    expect(refactored).toBe(true);
    expect([...volts.subarray(2)]).toEqual([0, 0, 0]);
    expect(volts[1]).toBeGreaterThan(7999);
  });

  test('nothing changes: nothing changes', () => {
    fc.assert(
      fc.property(networks({ decades: 18 }), curvePoints, (network, points) => {
        const circuit = new Circuit(network, new SourceCurve(points));
        const { volts, amps, terminalVolts, segment } = circuit.solve();
        const state = whatIf(circuit, []);
        expect(state).toMatchObject({ amps, terminalVolts, segment, refactored: false });
        state.volts.forEach((v, i) => {
          expect(Math.abs(v - volts[i]!)).toBeLessThanOrEqual(1e-13 * terminalVolts);
        });
      }),
    );
  });
});

/** Networks and changes, found by going through 200,000 at random, at which an update that trusts itself too much goes wrong. */
const treacherous: {
  readonly name: string;
  readonly branches: [a: number, b: number, siemens: number][];
  readonly leaks: number[];
  readonly plus: number;
  readonly sourceOhms: number;
  readonly changes: Change[];
}[] = [
  {
    name: 'nearly the whole load is taken away from a source of many ohms',
    branches: [[1, 0, 951510.5908072839]],
    leaks: [608085306.6266208, 0],
    plus: 1,
    sourceOhms: 632.4121049484964,
    changes: [{ kind: 'leak', node: 0, siemens: 0 }],
  },
  {
    name: 'two faults at places that are nearly one',
    branches: [
      [1, 0, 1.8479275298218603e-7],
      [2, 0, 1747059.720004126],
      [0, 1, 3.261288284186068e-5],
    ],
    leaks: [9.121638042864441e-7, 0.0012601892770620054, 0],
    plus: 1,
    sourceOhms: 0.006495272309341757,
    changes: [
      { kind: 'leak', node: 0, siemens: 2710659.3525002925 },
      { kind: 'branch', branch: 0, siemens: 50.34281050823189 },
      { kind: 'leak', node: 2, siemens: 112722.12234791782 },
    ],
  },
  {
    name: 'changes of sizes that are many decades apart',
    branches: [
      [1, 0, 0.006314752917584251],
      [2, 0, 5.705376672860561e-5],
      [3, 1, 87726.99049110206],
      [4, 2, 10.897834532444255],
      [5, 1, 5.379869796004203e-6],
      [6, 3, 8.612258586366226e-6],
      [4, 1, 1013.004615203411],
    ],
    leaks: [
      0.023596996974570635, 25.22164932059949, 0, 0.0006081891862325169, 3485.449593499824, 0, 293092.52374764415,
    ],
    plus: 0,
    sourceOhms: 0.004812834527185182,
    changes: [
      { kind: 'leak', node: 6, siemens: 4.238328208919742e-6 },
      { kind: 'branch', branch: 1, siemens: 0 },
    ],
  },
  {
    name: 'a stout branch between nodes that hang on by little',
    branches: [
      [1, 0, 3.164206754146098e-8],
      [2, 1, 20449943.53094843],
      [3, 1, 5.030200347218144e-7],
      [4, 0, 4392.1678402650205],
      [5, 1, 64672.77770844787],
      [6, 1, 20708923.34983468],
      [7, 4, 1.0185394722073612e-7],
      [3, 0, 11.573726004460937],
      [3, 6, 0.0004587901816974221],
      [1, 5, 3.920632058136515],
    ],
    leaks: [1.1188864490754443e-7, 7.386617903740583e-8, 0, 1.0582977707478769e-8, 0, 0, 0, 0],
    plus: 7,
    sourceOhms: 0.11860830609612882,
    changes: [{ kind: 'branch', branch: 5, siemens: 0 }],
  },
  {
    name: 'a stout branch in the way of the only load',
    branches: [
      [1, 0, 2.7637467045534444e-8],
      [2, 1, 3569646.565441568],
      [3, 1, 8.522470376962401e-8],
      [4, 2, 18062393.13858953],
      [5, 4, 3.0898532553466366e-7],
      [1, 0, 8631.778412006679],
      [2, 1, 0.5753220012635532],
      [3, 4, 56690.06746578484],
      [2, 0, 0.9164268741191228],
      [4, 5, 0.0025605020954182173],
    ],
    leaks: [0.0001495436806970682, 0.0005066459068237196, 0, 17049336.947542112, 0, 0],
    plus: 0,
    sourceOhms: 286.0718221980835,
    changes: [{ kind: 'branch', branch: 3, siemens: 0 }],
  },
];

describe('updates that would lose their digits', () => {
  test.each(treacherous)('$name', ({ branches, leaks, plus, sourceOhms, changes }) => {
    const builder = new NetworkBuilder();
    for (const leak of leaks) builder.node(leak);
    for (const [a, b, siemens] of branches) builder.branch(a, b, siemens);
    const network = builder.ports(plus).build();
    const source = SourceCurve.thevenin(1, sourceOhms);
    const exact = new Circuit(changed(network, changes), source).solve();
    const circuit = new Circuit(network, source);
    const volts = new Float64Array(leaks.length);
    const scan = new Scan(circuit, Int32Array.from(leaks.keys()));
    const expectNineDigits = (found: Float64Array) =>
      found.forEach((v, i) => {
        expect(Math.abs(v - exact.volts[i]!)).toBeLessThanOrEqual(NINE_DIGITS);
      });
    expectNineDigits(whatIf(circuit, changes).volts);
    const [change] = changes;
    if (changes.length > 1 || change?.kind !== 'branch') return;
    scan.branch(change.branch, change.siemens, volts);
    expectNineDigits(volts);
  });
});

describe('a scan', () => {
  test('answers for every leak, branch and pair as what-if does', () => {
    fc.assert(
      fc.property(networks({ decades: 6, withPairs: true }), curvePoints, siemens(8), (network, points, g) => {
        const source = new SourceCurve(points);
        const circuit = new Circuit(network, source);
        const observed = [0, network.nodeCount - 1];
        const scan = new Scan(circuit, observed);
        const volts = new Float64Array(2);
        const slack = NINE_DIGITS * source.volts[0]!;
        const compare = (amps: number, change: Change) => {
          const exact = whatIf(circuit, [change], observed);
          // Amps are of the size of the volts times the input conductance.
          expect(Math.abs(amps - exact.amps)).toBeLessThanOrEqual(
            NINE_DIGITS * (exact.amps + circuit.solve().amps) + 1e-300,
          );
          exact.volts.forEach((v, i) => {
            expect(Math.abs(volts[i]! - v)).toBeLessThanOrEqual(slack);
          });
        };
        for (let node = 0; node < network.nodeCount; node++) {
          compare(scan.leak(node, g, volts), { kind: 'leak', node, siemens: network.leakSiemens[node]! + g });
        }
        for (let branch = 0; branch < network.branchFrom.length; branch++) {
          compare(scan.branch(branch, g, volts), { kind: 'branch', branch, siemens: g });
        }
        const { a, b } = network.pairs!;
        for (let pair = 0; pair < a.length; pair++) {
          compare(scan.pair(pair, g, volts), { kind: 'add', a: a[pair]!, b: b[pair]!, siemens: g });
        }
      }),
      { numRuns: runs(60) },
    );
  });

  test('opens every branch in turn, over eighteen decades', () => {
    let floating = 0;
    fc.assert(
      fc.property(networks({ decades: 18 }), curvePoints, (network, points) => {
        const source = new SourceCurve(points);
        const scan = new Scan(new Circuit(network, source), [0]);
        const volts = new Float64Array(1);
        for (let branch = 0; branch < network.branchFrom.length; branch++) {
          const exact = new Circuit(changed(network, [{ kind: 'branch', branch, siemens: 0 }]), source).trySolve();
          if (exact.ok) {
            scan.branch(branch, 0, volts);
            expect(Math.abs(volts[0]! - exact.value.volts[0]!)).toBeLessThanOrEqual(NINE_DIGITS * source.volts[0]!);
          } else {
            floating++;
            expect(() => scan.branch(branch, 0, volts)).toThrow(EngineError);
          }
        }
      }),
    );
    expect(floating).toBeGreaterThan(0);
  });

  test('with a dead short takes the place to zero', () => {
    const builder = new NetworkBuilder();
    const [hot, far, rods] = [builder.node(1e-5), builder.node(1e-5), builder.node(0.02)];
    builder.branch(hot, far, 1);
    builder.pair(far, rods);
    const scan = new Scan(new Circuit(builder.ports(hot, rods).build(), SourceCurve.thevenin(8000, 400)), [far, rods]);
    const volts = new Float64Array(2);
    expect(scan.pair(0, Infinity, volts)).toBeGreaterThan(19);
    expect(volts[0]! - volts[1]!).toBeCloseTo(0, 9);
    scan.leak(far, Infinity, volts);
    expect(volts[0]).toBeCloseTo(0, 9);
  });

  test('with a dead short at the source leaves nothing, whatever the source', () => {
    const builder = new NetworkBuilder();
    const [hot, far, rods] = [builder.node(1e-5), builder.node(1e-5), builder.node(0.02)];
    const terminals = builder.branch(hot, rods, 1e-3);
    builder.branch(hot, far, 1);
    builder.pair(rods, hot);
    const network = builder.ports(hot, rods).build();
    const volts = new Float64Array(3);
    // By definition: the short-circuit current of 8 kV behind 400 ohms is 20 A, that of an ideal source has no end.
    for (const [source, amps] of [
      [SourceCurve.thevenin(8000, 400), 20],
      [SourceCurve.ideal(8000), Infinity],
    ] as const) {
      const scan = new Scan(new Circuit(network, source), [hot, far, rods]);
      volts.fill(7);
      expect(scan.pair(0, Infinity, volts)).toBe(amps);
      expect([...volts]).toEqual([0, 0, 0]);
      volts.fill(7);
      expect(scan.branch(terminals, Infinity, volts)).toBe(amps);
      expect([...volts]).toEqual([0, 0, 0]);
    }
    const toEarth = new Circuit({ ...network, ports: { plus: hot, minus: EARTH } }, SourceCurve.ideal(8000));
    expect(new Scan(toEarth, [hot, far, rods]).leak(hot, Infinity, volts)).toBe(Infinity);
    expect([...volts]).toEqual([0, 0, 0]);
  });

  test('and what-if factor nothing again where the digits are kept', () => {
    // A ring of fifty posts: any span may go, and every post is still fed from the other side.
    const builder = new NetworkBuilder();
    const posts = Array.from({ length: 50 }, () => builder.node(1e-4));
    for (const post of posts) builder.branch(post, (post + 1) % posts.length, 1);
    const circuit = new Circuit(builder.ports(0).build(), SourceCurve.thevenin(8000, 400));
    const scan = new Scan(circuit, [25]);
    const refactor = vi.spyOn(Factor.prototype, 'refactor');
    const compute = vi.spyOn(SelectedInverse.prototype, 'compute');
    const volts = new Float64Array(1);
    const present = circuit.solve().volts[25]!;
    for (const span of posts) {
      scan.branch(span, 0, volts);
      expect(volts[0]).toBeLessThan(present);
      const state = whatIf(circuit, [{ kind: 'branch', branch: span, siemens: 0 }], [25]);
      expect(state.refactored).toBe(false);
      expect(Math.abs(state.volts[0]! - volts[0]!)).toBeLessThanOrEqual(NINE_DIGITS * 8000);
    }
    expect(refactor).not.toHaveBeenCalled();
    expect(compute).not.toHaveBeenCalled();
    // Nor does one thing more need the ohms by which the rounding of what is taken away is judged.
    const fresh = new Circuit(circuit.network, circuit.source);
    expect(whatIf(fresh, [{ kind: 'add', a: 25, b: EARTH, siemens: 0.01 }]).refactored).toBe(false);
    expect(compute).not.toHaveBeenCalled();
    for (const spy of [refactor, compute]) spy.mockRestore();
  });

  test('refuses a branch that is given no number', () => {
    const builder = new NetworkBuilder();
    const [a, b] = [builder.node(1e-5), builder.node(1e-5)];
    const branch = builder.branch(a, b, 1);
    const scan = new Scan(new Circuit(builder.ports(a).build(), SourceCurve.ideal(8000)), [b]);
    expect(() => scan.branch(branch, Number.NaN, new Float64Array(1))).toThrow(EngineError);
  });
});

describe('scanning all', () => {
  function longFence(posts: number): Circuit {
    const builder = new NetworkBuilder();
    for (let i = 0; i < posts; i++) {
      builder.node(1e-5);
      if (i > 0) builder.branch(i - 1, i, 1);
    }
    return new Circuit(builder.ports(0).build(), SourceCurve.thevenin(8000, 400));
  }

  test('fills a table, one row a place', async () => {
    const scan = new Scan(longFence(20), [19, 5]);
    const progress: number[] = [];
    const each = Float64Array.from({ length: 20 }, (_, i) => 1e-3 * (i + 1));
    const table = await scanAll(scan, 'leak', each, { onProgress: (done) => progress.push(done) });
    const volts = new Float64Array(2);
    for (let node = 0; node < 20; node++) {
      expect(table.amps[node]).toBe(scan.leak(node, each[node]!, volts));
      expect(table.volts.slice(2 * node, 2 * node + 2)).toEqual(volts);
    }
    expect(progress.at(-1)).toBe(1);
    expect((await scanAll(scan, 'branch', 0.5)).amps).toHaveLength(19);
    expect((await scanAll(scan, 'pair', 0.5)).amps).toHaveLength(0);
  });

  test('reports its progress and stops where it is aborted', async () => {
    // A clock on which every look is a stretch later, so that the pause does not hang on the machine's speed.
    let now = 0;
    const clock = vi.spyOn(Date, 'now').mockImplementation(() => {
      now += 1000;
      return now;
    });
    const scan = new Scan(longFence(2000), [1999]);
    const controller = new AbortController();
    const progress: number[] = [];
    const onProgress = (done: number) => {
      progress.push(done);
      controller.abort(new Error('enough'));
    };
    await expect(scanAll(scan, 'branch', 0, { signal: controller.signal, onProgress })).rejects.toThrow('enough');
    expect(progress).toHaveLength(1);
    expect(progress[0]).toBeGreaterThan(0);
    expect(progress[0]).toBeLessThan(1);
    await expect(scanAll(scan, 'leak', 1e-3, { signal: controller.signal })).rejects.toThrow('enough');
    clock.mockRestore();
  });
});

describe('a circuit', () => {
  test('changed and solved again is the same as one made of the changed network', () => {
    fc.assert(
      fc.property(cases(18), curvePoints, curvePoints, ({ network, changes }, points, otherPoints) => {
        const kept = changes.filter((change) => change.kind !== 'add');
        const circuit = new Circuit(network, new SourceCurve(points));
        circuit.solve();
        for (const change of kept) {
          if (change.kind === 'branch') circuit.setBranchSiemens(change.branch, change.siemens);
          else circuit.setLeakSiemens(change.node, change.siemens);
        }
        const source = new SourceCurve(otherPoints);
        circuit.setSource(source);
        expect(circuit.trySolve()).toEqual(new Circuit(changed(network, kept), source).trySolve());
      }),
    );
  });

  test('keeps its own values: those given to it are neither written nor watched', () => {
    const builder = new NetworkBuilder();
    builder.node(0.5);
    const network = builder.ports(0).build();
    const circuit = new Circuit(network, SourceCurve.ideal(10));
    circuit.setLeakSiemens(0, 2);
    expect(network.leakSiemens[0]).toBe(0.5);
    network.leakSiemens[0] = 7;
    expect(circuit.solve().amps).toBe(20);
    circuit.network.leakSiemens[0] = 3;
    circuit.valuesChanged();
    expect(circuit.solve().amps).toBe(30);
  });

  test('factors after a change of values alone, and does nothing twice', () => {
    const builder = new NetworkBuilder();
    builder.node(0.5);
    builder.node(0.25);
    const span = builder.branch(0, 1, 2);
    const circuit = new Circuit(builder.ports(0).build(), SourceCurve.ideal(10));
    const factored = vi.spyOn(Factor.prototype, 'refactor');
    const spread = vi.spyOn(Factor.prototype, 'spread');
    const inverted = vi.spyOn(SelectedInverse.prototype, 'compute');
    const done = () => {
      const counts = [factored, spread, inverted].map((spy) => spy.mock.calls.length);
      for (const spy of [factored, spread, inverted]) spy.mockClear();
      return counts;
    };
    circuit.solve();
    expect(done()).toEqual([1, 1, 0]);
    circuit.solve();
    circuit.trySolve();
    expect(done()).toEqual([0, 0, 0]);
    for (let i = 0; i < 2; i++) circuit.share();
    for (let i = 0; i < 2; i++) circuit.tiedInverse();
    expect(done()).toEqual([0, 1, 1]);
    circuit.setSource(SourceCurve.ideal(20));
    circuit.share();
    circuit.tiedInverse();
    expect(done()).toEqual([0, 1, 0]);
    circuit.setBranchSiemens(span, 3);
    circuit.tiedInverse();
    circuit.share();
    expect(done()).toEqual([1, 2, 1]);
    for (const spy of [factored, spread, inverted]) spy.mockRestore();
  });

  test('forks into one that changes alone', () => {
    fc.assert(
      fc.property(networks({ decades: 18 }), curvePoints, (network, points) => {
        const circuit = new Circuit(network, new SourceCurve(points));
        const before = { ...circuit.solve(), volts: circuit.solve().volts.slice() };
        const fork = circuit.fork();
        expect(fork.solve()).toEqual(before);
        fork.setLeakSiemens(0, 5);
        fork.solve();
        expect(circuit.solve()).toEqual(before);
        expect(fork.analysis).toBe(circuit.analysis);
      }),
      { numRuns: runs(30) },
    );
  });

  test('says volts a terminal volt', () => {
    fc.assert(
      fc.property(networks({ decades: 18 }), curvePoints, (network, points) => {
        const circuit = new Circuit(network, new SourceCurve(points));
        const { volts, terminalVolts } = circuit.solve();
        circuit.share().forEach((share, i) => {
          expect(Math.abs(share * terminalVolts - volts[i]!)).toBeLessThanOrEqual(1e-13 * terminalVolts);
        });
        circuit.setLeakSiemens(0, 1e9);
        expect(circuit.share()[network.ports.plus]).toBe(circuit.factor.plusShare);
      }),
    );
  });
});
