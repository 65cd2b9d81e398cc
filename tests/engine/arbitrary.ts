import { EARTH, type Network, type NodePairs, type SparkGaps } from '@postvolt/core/engine';
import fc from 'fast-check';
import { runs } from '../support/length.js';

export { runs };

// Fixed, so that a failure is the same on every machine; fast-check prints how to replay it.
fc.configureGlobal({ seed: 20_240_607, numRuns: runs(150) });

/** What kinds of random network are wanted. */
interface Kind {
  /** Conductances are spread over this many decades, half above and half below 1 S. */
  readonly decades: number;
  readonly mostNodes?: number;
  /** Whether minus may be a node; otherwise it is remote earth. */
  readonly twoTerminals?: boolean;
  readonly withPairs?: boolean;
  readonly withGaps?: boolean;
}

const unit = fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true });

/** A conductance, or a factor, spread evenly over so many decades around 1. */
export function siemens(decades: number): fc.Arbitrary<number> {
  return unit.map((u) => 10 ** ((u - 0.5) * decades));
}

/**
 * A random network with a source that has one solution: trees, loops, parallel branches, open switches, grounded and
 * leakless nodes, parts that only earth joins to the rest.
 */
export function networks(kind: Kind): fc.Arbitrary<Network & { ports: { plus: number; minus: number } }> {
  const { decades, mostNodes = 14, twoTerminals = true, withPairs = false, withGaps = false } = kind;
  const value = siemens(decades);
  const node = fc.record({ parent: unit, branch: value, leak: value, leaky: fc.boolean(), apart: unit });
  const extra = fc.record({ a: unit, b: unit, siemens: value, open: unit });
  const pair = fc.record({ a: unit, b: unit, volts: unit, ohms: value });
  return fc
    .record({
      nodes: fc.array(node, { minLength: 2, maxLength: mostNodes }),
      extras: fc.array(extra, { maxLength: 2 * mostNodes }),
      pairs: fc.array(pair, { minLength: 1, maxLength: 6 }),
      plus: unit,
      minus: unit,
      toEarth: fc.boolean(),
    })
    .map(({ nodes, extras, pairs, plus, minus, toEarth }) => {
      const n = nodes.length;
      const pick = (u: number, below: number) => Math.floor(u * below);
      // A node of those other than one.
      const other = (u: number, than: number) => (than + 1 + pick(u, n - 1)) % n;
      const from: number[] = [];
      const to: number[] = [];
      const branches: number[] = [];
      const leaks = nodes.map(({ leak, leaky, apart }, i) => (i === 0 || leaky || apart < 0.1 ? leak : 0));
      nodes.forEach(({ parent, branch, apart }, i) => {
        if (i === 0 || apart < 0.1) return;
        from.push(i);
        to.push(pick(parent, i));
        branches.push(branch);
      });
      for (const { a, b, siemens: g, open } of extras) {
        const end = pick(a, n);
        from.push(end);
        to.push(other(b, end));
        branches.push(open < 0.2 ? 0 : g);
      }
      const ends = pairs.map(({ a, b }) => ({ a: pick(a, n), b: other(b, pick(a, n)) }));
      const nodePairs: NodePairs = {
        a: Int32Array.from(ends, (end) => end.a),
        b: Int32Array.from(ends, (end) => end.b),
      };
      const gaps: SparkGaps = {
        a: nodePairs.a,
        b: nodePairs.b.map((b, i) => (i % 3 === 0 ? EARTH : b)),
        volts: Float64Array.from(pairs, ({ volts }) => 10 * volts),
        ohms: Float64Array.from(pairs, ({ ohms }) => ohms),
      };
      return {
        nodeCount: n,
        branchFrom: Int32Array.from(from),
        branchTo: Int32Array.from(to),
        branchSiemens: Float64Array.from(branches),
        leakSiemens: Float64Array.from(leaks),
        ports: { plus: pick(plus, n), minus: twoTerminals && !toEarth ? other(minus, pick(plus, n)) : EARTH },
        pairs: withPairs ? nodePairs : undefined,
        gaps: withGaps ? gaps : undefined,
      };
    });
}

/** The points of a falling curve: a few steps in amps and in volts. */
export const curvePoints: fc.Arbitrary<[number, number][]> = fc
  .array(fc.record({ amps: siemens(6), volts: siemens(2) }), { minLength: 1, maxLength: 5 })
  .map((steps) => {
    let volts = steps.reduce((sum, step) => sum + step.volts, 0);
    let amps = 0;
    const points: [number, number][] = [[0, volts]];
    for (const step of steps.slice(1)) {
      amps += step.amps;
      volts -= step.volts;
      points.push([amps, volts]);
    }
    return points;
  });

/** The same network with its nodes numbered and its branches listed in another order; `node[i]` is the new number of node i. */
export function renumbered(network: Network, seed: number): { network: Network; node: Int32Array; branch: Int32Array } {
  const node = permutation(network.nodeCount, seed);
  const branch = permutation(network.branchFrom.length, seed + 1);
  const scatter = (values: Float64Array, place: Int32Array) => {
    const moved = new Float64Array(values.length);
    values.forEach((value, i) => {
      moved[place[i]!] = value;
    });
    return moved;
  };
  const branchFrom = new Int32Array(branch.length);
  const branchTo = new Int32Array(branch.length);
  branch.forEach((place, e) => {
    branchFrom[place] = node[network.branchFrom[e]!]!;
    branchTo[place] = node[network.branchTo[e]!]!;
  });
  const renamed = (number: number) => (number === EARTH ? EARTH : node[number]!);
  const { ports, pairs, gaps } = network;
  return {
    node,
    branch,
    network: {
      nodeCount: network.nodeCount,
      branchFrom,
      branchTo,
      branchSiemens: scatter(network.branchSiemens, branch),
      leakSiemens: scatter(network.leakSiemens, node),
      ports: ports && { plus: renamed(ports.plus), minus: renamed(ports.minus) },
      pairs: pairs && { a: pairs.a.map(renamed), b: pairs.b.map(renamed) },
      gaps: gaps && { ...gaps, a: gaps.a.map(renamed), b: gaps.b.map(renamed) },
    },
  };
}

/** A random order of the numbers below `count`. */
export function permutation(count: number, seed: number): Int32Array {
  let state = seed >>> 0;
  const order = Int32Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i--) {
    // Linear congruence modulo 2³² with the constants of "Numerical Formulas"; its high bits are the good ones.
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const j = Math.floor((state / 2 ** 32) * (i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}
