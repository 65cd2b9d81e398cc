import {
  analyse,
  Circuit,
  Factor,
  kirchhoffResidual,
  type Network,
  SelectedInverse,
  SourceCurve,
} from '@postvolt/core/engine';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { renumbered, siemens } from './arbitrary.js';
import { denseInverse } from './dense.js';

// Networks with the long runs that fences have, each of which has loops of its own in the engine: strands side by side with
// cross leaks, tees, runs between two junctions, doubled branches. Random graphs hardly ever contain them.

interface Fence {
  readonly arms: { strands: number; posts: number; from: number; to: number }[];
  readonly doubled: number;
  readonly terminals: number;
  readonly seed: number;
  readonly values: number[];
}

const fences: fc.Arbitrary<Fence> = fc.record({
  // The first arm starts at a corner; every further one at some post so far, and may end at another.
  arms: fc.array(
    fc.record({
      strands: fc.integer({ min: 1, max: 3 }),
      posts: fc.integer({ min: 2, max: 7 }),
      from: fc.nat(),
      to: fc.nat(),
    }),
    { minLength: 1, maxLength: 3 },
  ),
  doubled: fc.nat(5),
  terminals: fc.nat(),
  seed: fc.nat(),
  values: fc.array(siemens(4), { minLength: 16, maxLength: 16 }),
});

function build({ arms, doubled, terminals, seed, values }: Fence): Network & { ports: NonNullable<Network['ports']> } {
  let taken = 0;
  const value = () => values[taken++ % values.length]! * (1 + 0.01 * taken);
  const leaks: number[] = [];
  const from: number[] = [];
  const to: number[] = [];
  const branch = (a: number, b: number) => {
    if (a === b) return;
    from.push(a);
    to.push(b);
    if (doubled > 0 && from.length % doubled === 0) {
      from.push(b);
      to.push(a);
    }
  };
  for (const [arm, { strands, posts, from: start, to: end }] of arms.entries()) {
    const first = leaks.length;
    for (let post = 0; post < posts; post++) {
      for (let strand = 0; strand < strands; strand++) {
        const node = leaks.push(value()) - 1;
        if (post > 0) branch(node - strands, node);
        if (strand > 0) branch(node - 1, node);
      }
    }
    if (arm === 0) continue;
    branch(start % first, first);
    if (end % 2 === 0) branch(leaks.length - 1, end % first);
  }
  const n = leaks.length;
  const plus = terminals % 3 === 0 ? 0 : terminals % n;
  const network: Network = {
    nodeCount: n,
    branchFrom: Int32Array.from(from),
    branchTo: Int32Array.from(to),
    branchSiemens: Float64Array.from(from, value),
    leakSiemens: Float64Array.from(leaks),
    ports: { plus, minus: terminals % 2 === 0 ? -1 : (plus + 1) % n },
  };
  const { network: shuffled } = seed % 2 === 0 ? { network } : renumbered(network, seed);
  return { ...shuffled, ports: shuffled.ports! };
}

test('fences have the potentials and the inverse of the dense algebra, in every shape and numbering', () => {
  const kinds = new Map<number, number>();
  fc.assert(
    fc.property(fences, fc.nat(), (fence, pick) => {
      const network = build(fence);
      const n = network.nodeCount;
      const exact = denseInverse(network);
      const analysis = analyse(network);
      for (let r = 0; r < analysis.runs.length; r += 3) {
        const length = analysis.runs[r + 1]! - analysis.runs[r]!;
        if (length > 2) kinds.set(analysis.runs[r + 2]!, (kinds.get(analysis.runs[r + 2]!) ?? 0) + 1);
      }
      const factor = new Factor(analysis);
      expect(factor.refactor(network.branchSiemens, network.leakSiemens)).toBe(true);
      const source = pick % n;
      const volts = new Float64Array(n);
      volts[source] = 1;
      // Two right sides at once: nothing may stay from one solve to the next.
      const twice = volts.map((amps) => 2 * amps);
      factor.solve(volts, volts);
      factor.solve(twice, twice);
      // Four decades over a few dozen nodes cost the dense inverse some six digits. One comparison for all entries is faster.
      let worst = 0;
      const compare = (found: number, right: number, scale: number) => {
        worst = Math.max(worst, Math.abs(found - right) / scale);
      };
      volts.forEach((v, i) => {
        compare(v, exact.get(i, source), exact.get(source, source));
      });
      expect(twice).toEqual(volts.map((v) => 2 * v));
      const inverse = new SelectedInverse(factor);
      inverse.compute();
      inverse.nodeOhms(new Float64Array(n)).forEach((ohms, i) => {
        compare(ohms, exact.get(i, i), exact.get(i, i));
      });
      const { branchFrom, branchTo } = network;
      inverse.pairOhms(branchFrom, branchTo, new Float64Array(branchFrom.length)).forEach((ohms, e) => {
        const [a, b] = [branchFrom[e]!, branchTo[e]!];
        const terms = exact.get(a, a) + exact.get(b, b);
        compare(ohms, terms - exact.get(a, b) - exact.get(b, a), terms);
      });
      expect(worst).toBeLessThanOrEqual(1e-9);
      const solution = new Circuit(network, SourceCurve.thevenin(9000, 300)).solve();
      expect(kirchhoffResidual(network, solution).backward).toBeLessThanOrEqual(1e-13);
    }),
    { numRuns: 120 },
  );
  // The generator must reach every kind of run: strand, chain, band, stars.
  for (const kind of [1, 2, 3, 4]) expect(kinds.get(kind) ?? 0, `long runs of kind ${kind}`).toBeGreaterThan(3);
});
