import {
  analyse,
  type Change,
  Circuit,
  checkNetwork,
  drivingPoints,
  EARTH,
  EngineError,
  type EngineIssue,
  Factor,
  gradient,
  type Network,
  NetworkBuilder,
  Scan,
  SourceCurve,
  scanAll,
  touchNodes,
  touchPairs,
  whatIf,
} from '@postvolt/core/engine';
import { describe, expect, test } from 'vitest';

const good: Network = {
  nodeCount: 3,
  branchFrom: Int32Array.of(0, 1),
  branchTo: Int32Array.of(1, 2),
  branchSiemens: Float64Array.of(1, 0),
  leakSiemens: Float64Array.of(0.1, 0, 0.2),
  ports: { plus: 0, minus: EARTH },
  pairs: { a: Int32Array.of(0), b: Int32Array.of(2) },
  gaps: { a: Int32Array.of(0), b: Int32Array.of(EARTH), volts: Float64Array.of(5), ohms: Float64Array.of(1) },
};
const source = SourceCurve.ideal(10);

function issueOf(action: () => unknown): EngineIssue {
  try {
    action();
  } catch (error) {
    if (error instanceof EngineError) return error.issue;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('illegal data', () => {
  test('a network with an open switch, a pair and a gap is legal', () => {
    expect(() => checkNetwork(good)).not.toThrow();
    expect(new Circuit(good, source).solve().volts).toHaveLength(3);
  });

  test.each<[string, Partial<Network>, string, string]>([
    ['no node', { nodeCount: 0 }, 'nodeCount', '0'],
    ['half a node', { nodeCount: 2.5 }, 'nodeCount', '2.5'],
    ['branch ends that do not match', { branchTo: Int32Array.of(1) }, 'branchTo.length', '1'],
    ['too few conductances', { branchSiemens: Float64Array.of(1) }, 'branchSiemens.length', '1'],
    ['too many leaks', { leakSiemens: new Float64Array(4) }, 'leakSiemens.length', '4'],
    ['a branch from a node that is not there', { branchFrom: Int32Array.of(0, 3) }, 'branchFrom[1]', '3'],
    ['a branch to earth', { branchTo: Int32Array.of(1, -1) }, 'branchTo[1]', '-1'],
    ['a branch from a node to itself', { branchTo: Int32Array.of(1, 1) }, 'branchTo[1]', '1'],
    ['a negative conductance', { branchSiemens: Float64Array.of(1, -1) }, 'branchSiemens[1]', '-1'],
    ['a conductance that is no number', { branchSiemens: Float64Array.of(Number.NaN, 1) }, 'branchSiemens[0]', 'NaN'],
    ['an infinite leak', { leakSiemens: Float64Array.of(0, Infinity, 0) }, 'leakSiemens[1]', 'Infinity'],
    ['a port that is no node', { ports: { plus: 7, minus: 0 } }, 'ports.plus', '7'],
    ['plus at earth', { ports: { plus: EARTH, minus: 0 } }, 'ports.plus', '-1'],
    ['minus that is no node', { ports: { plus: 0, minus: -2 } }, 'ports.minus', '-2'],
    ['both ports at one node', { ports: { plus: 1, minus: 1 } }, 'ports.minus', '1'],
    ['pairs that do not match', { pairs: { a: Int32Array.of(0), b: Int32Array.of() } }, 'pairs.b.length', '0'],
    ['a pair with earth', { pairs: { a: Int32Array.of(0), b: Int32Array.of(EARTH) } }, 'pairs.b[0]', '-1'],
    ['a pair of one node', { pairs: { a: Int32Array.of(2), b: Int32Array.of(2) } }, 'pairs.b[0]', '2'],
    ['a gap from earth', { gaps: { ...good.gaps!, a: Int32Array.of(EARTH) } }, 'gaps.a[0]', '-1'],
    ['a gap to a node that is not there', { gaps: { ...good.gaps!, b: Int32Array.of(3) } }, 'gaps.b[0]', '3'],
    ['gaps that do not match', { gaps: { ...good.gaps!, b: Int32Array.of() } }, 'gaps.b.length', '0'],
    ['too few gap voltages', { gaps: { ...good.gaps!, volts: new Float64Array(0) } }, 'gaps.volts.length', '0'],
    ['too few gap resistances', { gaps: { ...good.gaps!, ohms: new Float64Array(0) } }, 'gaps.ohms.length', '0'],
    ['a negative gap voltage', { gaps: { ...good.gaps!, volts: Float64Array.of(-1) } }, 'gaps.volts[0]', '-1'],
    ['a gap without resistance', { gaps: { ...good.gaps!, ohms: Float64Array.of(0) } }, 'gaps.ohms[0]', '0'],
  ])('%s is refused by name', (_, change, path, found) => {
    expect(issueOf(() => analyse({ ...good, ...change }))).toMatchObject({ code: 'data', path, found });
  });

  test('says what was expected, in a sentence', () => {
    expect(() => analyse({ ...good, branchSiemens: Float64Array.of(1, -1) })).toThrow(
      'branchSiemens[1]: found -1, expected a finite conductance, 0 S or more',
    );
  });

  test('a circuit without ports is refused', () => {
    expect(issueOf(() => new Circuit({ ...good, ports: undefined }, source))).toMatchObject({
      code: 'data',
      path: 'ports',
    });
  });

  test('changes out of range are refused, and leave the circuit as it was', () => {
    const circuit = new Circuit(good, source);
    const before = circuit.solve().amps;
    expect(issueOf(() => circuit.setBranchSiemens(2, 1))).toMatchObject({ path: 'branchSiemens', found: '2' });
    expect(issueOf(() => circuit.setLeakSiemens(-1, 1))).toMatchObject({ path: 'leakSiemens', found: '-1' });
    expect(issueOf(() => circuit.setLeakSiemens(1, -1))).toMatchObject({ path: 'leakSiemens[1]', found: '-1' });
    expect(issueOf(() => circuit.setBranchSiemens(0, Infinity))).toMatchObject({ path: 'branchSiemens[0]' });
    expect(circuit.solve().amps).toBe(before);
  });

  test('questions about what is not there are refused', async () => {
    const circuit = new Circuit(good, source);
    expect(issueOf(() => gradient(circuit, 3)).path).toBe('observed');
    expect(issueOf(() => new Scan(circuit, [0, 3])).path).toBe('observed[1]');
    expect(issueOf(() => touchNodes(circuit, -1)).path).toBe('ohms[0]');
    expect(issueOf(() => touchNodes(circuit, new Float64Array(2))).path).toBe('ohms.length');
    expect(issueOf(() => touchPairs(new Circuit({ ...good, pairs: undefined }, source), 1)).path).toBe('pairs');
    expect(issueOf(() => whatIf(circuit, [{ kind: 'branch', branch: 2, siemens: 1 }]))).toMatchObject({
      path: 'change.branch',
      expected: 'a branch number, 0 to 1',
    });
    expect(issueOf(() => whatIf(circuit, [{ kind: 'branch', branch: 0, siemens: Infinity }])).path).toBe(
      'change.siemens',
    );
    expect(issueOf(() => whatIf(circuit, [{ kind: 'branch', branch: 0, siemens: -1 }])).path).toBe('change.siemens');
    expect(issueOf(() => whatIf(circuit, [{ kind: 'leak', node: EARTH, siemens: 1 }])).path).toBe('change.node');
    expect(issueOf(() => whatIf(circuit, [{ kind: 'add', a: 0, b: 3, siemens: 1 }]))).toMatchObject({
      path: 'change.b',
      expected: 'a node number, 0 to 2, or EARTH (-1)',
    });
    expect(issueOf(() => whatIf(circuit, [{ kind: 'add', a: 0, b: 0, siemens: 1 }])).path).toBe('change.b');
    expect(issueOf(() => whatIf(circuit, [], [0, 3])).path).toBe('at[1]');
    const odd = { kind: 'ad', a: 0, b: 1, siemens: 1 } as unknown as Change;
    expect(issueOf(() => whatIf(circuit, [odd]))).toMatchObject({ path: 'change.kind', found: 'ad' });
    const scan = new Scan(circuit, [0]);
    const into = new Float64Array(1);
    expect(issueOf(() => scan.leak(3, 1, into))).toMatchObject({ path: 'node', expected: 'a number from 0 to 2' });
    expect(issueOf(() => scan.leak(0, -1, into)).path).toBe('siemens');
    expect(issueOf(() => scan.branch(2, 1, into)).path).toBe('branch');
    expect(issueOf(() => scan.pair(1, 1, into)).path).toBe('pair');
    const twice = [1, 2].map((siemens) => ({ kind: 'leak', node: 1, siemens }) as const);
    expect(issueOf(() => whatIf(circuit, twice))).toMatchObject({ path: 'changes', found: 'leak 1 twice' });
    const again = [1, 2].map((siemens) => ({ kind: 'branch', branch: 0, siemens }) as const);
    expect(issueOf(() => whatIf(circuit, again))).toMatchObject({ path: 'changes', found: 'branch 0 twice' });
    await expect(scanAll(new Scan(circuit, [0]), 'leak', new Float64Array(1))).rejects.toThrow(EngineError);
  });
});

describe('no solution', () => {
  function fence(): NetworkBuilder {
    const builder = new NetworkBuilder();
    builder.node(0.1);
    builder.node();
    builder.branch(0, 1, 1);
    return builder.ports(0);
  }

  test('a part that nothing joins to earth or the source is named', () => {
    const builder = fence();
    const [a, b, c] = [builder.node(), builder.node(), builder.node()];
    builder.branch(a, b, 1);
    builder.branch(b, c, 1);
    expect(issueOf(() => new Circuit(builder.build(), source).solve())).toEqual({
      code: 'floating',
      path: 'node 2',
      found: '3 nodes without any conductance to earth or to the source',
      expected: 'a leak of more than 0 S at one of them or a branch of more than 0 S to the rest',
      node: 2,
      nodeCount: 3,
    });
  });

  test('so is a part behind open switches, in a loop or not, and closing one cures it', () => {
    const builder = fence();
    const [a, b] = [builder.node(), builder.node()];
    builder.branch(a, b, 1);
    const gate = builder.branch(1, a, 0);
    builder.branch(0, b, 0);
    const circuit = new Circuit(builder.build(), source);
    expect(circuit.trySolve()).toMatchObject({ ok: false, issue: { code: 'floating', node: a, nodeCount: 2 } });
    circuit.setBranchSiemens(gate, 1e-3);
    expect(circuit.trySolve()).toMatchObject({ ok: true });
    circuit.setBranchSiemens(gate, 0);
    expect(circuit.trySolve()).toMatchObject({ ok: false });
    circuit.setLeakSiemens(a, 1e-9);
    const outcome = circuit.trySolve();
    expect(outcome.ok && outcome.value.volts[b]).toBe(0);
  });

  test('a single lonely node is named', () => {
    const builder = fence();
    const lonely = builder.node();
    expect(issueOf(() => new Circuit(builder.build(), source).solve())).toMatchObject({
      code: 'floating',
      node: lonely,
      found: '1 node without any conductance to earth or to the source',
    });
  });

  test('a source with no way to earth on either side is named', () => {
    const builder = new NetworkBuilder();
    const [plus, minus] = [builder.node(), builder.node()];
    builder.branch(plus, minus, 1);
    expect(issueOf(() => new Circuit(builder.ports(plus, minus).build(), source).solve())).toEqual({
      code: 'no-earth',
      path: 'node 0',
      found: '2 nodes without any conductance to earth',
      expected: 'a leak of more than 0 S at one of them',
      node: 0,
      nodeCount: 2,
    });
  });

  test('where both are true, the floating part is named', () => {
    const builder = new NetworkBuilder();
    const [plus, minus, other] = [builder.node(), builder.node(), builder.node()];
    expect(issueOf(() => new Circuit(builder.ports(plus, minus).build(), source).solve())).toMatchObject({
      code: 'floating',
      node: other,
    });
  });

  test('a hot side without leaks is no trouble', () => {
    const builder = new NetworkBuilder();
    const [plus, minus] = [builder.node(), builder.node(0.1)];
    expect(new Circuit(builder.ports(plus, minus).build(), source).solve().volts).toEqual(Float64Array.of(10, 0));
    const driving = drivingPoints(new Circuit(builder.build(), SourceCurve.thevenin(10, 5)));
    // Seen from the hot side: through the source to the rods.
    expect(driving.nodeOhms[plus]).toBeCloseTo(15, 12);
  });

  test('values beyond double precision are said to be so', () => {
    const builder = new NetworkBuilder();
    const [a, b] = [builder.node(), builder.node(1e200)];
    builder.branch(a, b, 1e200);
    for (const given of [source, SourceCurve.thevenin(10, 5)]) {
      expect(issueOf(() => new Circuit(builder.ports(a).build(), given).solve())).toMatchObject({
        code: 'range',
        path: 'network',
      });
    }
  });

  test('a bare factor says whether it is grounded', () => {
    const floating = {
      ...good,
      ports: undefined,
      pairs: undefined,
      gaps: undefined,
      leakSiemens: Float64Array.of(1, 0, 0),
    };
    const factor = new Factor(analyse(floating));
    expect(factor.refactor(floating.branchSiemens, floating.leakSiemens)).toBe(false);
    expect(factor.refactor(Float64Array.of(1, 1), floating.leakSiemens)).toBe(true);
    expect(factor.refactor(Float64Array.of(1, 0), Float64Array.of(1, 0, 1))).toBe(true);
  });
});

describe('building in code', () => {
  test('leaks at a node add up, parts are numbered as they come', () => {
    const builder = new NetworkBuilder();
    expect([builder.node(0.5), builder.node()]).toEqual([0, 1]);
    builder.leak(0, 0.25).leak(1, 1);
    expect([builder.branch(0, 1, 2), builder.branch(1, 0, 3)]).toEqual([0, 1]);
    expect([builder.pair(0, 1), builder.gap(0, EARTH, 5, 6), builder.gap(1, 0, 7, 8)]).toEqual([0, 0, 1]);
    expect(builder.build()).toEqual({
      nodeCount: 2,
      branchFrom: Int32Array.of(0, 1),
      branchTo: Int32Array.of(1, 0),
      branchSiemens: Float64Array.of(2, 3),
      leakSiemens: Float64Array.of(0.75, 1),
      ports: undefined,
      pairs: { a: Int32Array.of(0), b: Int32Array.of(1) },
      gaps: {
        a: Int32Array.of(0, 1),
        b: Int32Array.of(EARTH, 0),
        volts: Float64Array.of(5, 7),
        ohms: Float64Array.of(6, 8),
      },
    });
    expect(builder.ports(1).build().ports).toEqual({ plus: 1, minus: EARTH });
  });

  test('a leak at a node that is not there, and an illegal network, are refused', () => {
    const builder = new NetworkBuilder();
    expect(issueOf(() => builder.leak(0, 1)).path).toBe('leak');
    expect(issueOf(() => builder.build()).path).toBe('nodeCount');
    builder.node(-1);
    expect(issueOf(() => builder.build())).toMatchObject({ path: 'leakSiemens[0]', found: '-1' });
  });
});
