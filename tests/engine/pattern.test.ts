import { type Analysis, analyse, EARTH, type Network } from '@postvolt/core/engine';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { networks, renumbered, runs } from './arbitrary.js';

/** A network of nothing but its graph. */
function graph(nodeCount: number, edges: readonly (readonly [number, number])[], ports?: Network['ports']): Network {
  return {
    nodeCount,
    branchFrom: Int32Array.from(edges, ([a]) => a),
    branchTo: Int32Array.from(edges, ([, b]) => b),
    branchSiemens: new Float64Array(edges.length).fill(1),
    leakSiemens: new Float64Array(nodeCount).fill(1),
    ports,
  };
}

const path = (n: number) => Array.from({ length: n - 1 }, (_, i) => [i, i + 1] as const);
const rows = ({ start, row }: Analysis, k: number) => [...row.subarray(start[k], start[k + 1])];

/** Eliminates the given order symbolically, with sets: column k are the later neighbours that node k has by then. */
function bySets(network: Network, order: Int32Array): number[][] {
  const joined = Array.from({ length: network.nodeCount }, () => new Set<number>());
  const join = (a: number, b: number) => {
    joined[a]!.add(b);
    joined[b]!.add(a);
  };
  network.branchFrom.forEach((a, e) => {
    join(a, network.branchTo[e]!);
  });
  for (const { a, b } of [network.pairs, network.gaps].filter((list) => list !== undefined)) {
    a.forEach((from, i) => {
      if (b[i] !== EARTH) join(from, b[i]!);
    });
  }
  const { ports } = network;
  if (ports && ports.minus !== EARTH) join(ports.plus, ports.minus);
  const position = new Map([...order].map((node, k) => [node, k]));
  return [...order].map((node) => {
    const neighbours = [...joined[node]!];
    for (const a of neighbours) {
      joined[a]!.delete(node);
      for (const b of neighbours) if (a !== b) joined[a]!.add(b);
    }
    return neighbours.map((other) => position.get(other)!).sort((a, b) => a - b);
  });
}

function expectPattern(network: Network): void {
  const analysis = analyse(network);
  const { order, position, portCount } = analysis;
  expect([...order].sort((a, b) => a - b)).toEqual(Array.from(order, (_, i) => i));
  order.forEach((node, k) => {
    expect(position[node]).toBe(k);
  });
  const { plus, minus } = network.ports!;
  const terminals = minus === EARTH ? [plus] : [plus, minus];
  expect([...order].slice(-portCount)).toEqual(terminals);
  expect(order.map((_, k) => k).every((k) => rows(analysis, k).every((row) => row > k))).toBe(true);
  expect(Array.from(order, (_, k) => rows(analysis, k))).toEqual(bySets(network, order));
  expect(analysis.widest).toBe(Math.max(...Array.from(order, (_, k) => rows(analysis, k).length)));
}

describe('the analysis of any network', () => {
  test('is an order of all nodes, terminals last, with the pattern that this order leaves', () => {
    fc.assert(fc.property(networks({ decades: 1, mostNodes: 24, withPairs: true, withGaps: true }), expectPattern), {
      numRuns: runs(300),
    });
  });

  // Runs that end on each other, at a few nodes of many neighbours which lose them again one by one.
  test('is so of paddocks round a few corners', () => {
    const arm = fc.record({ from: fc.nat(), to: fc.nat(), posts: fc.nat(3), closed: fc.boolean() });
    const paddocks = fc
      .record({
        arms: fc.array(arm, { minLength: 1, maxLength: 9 }),
        corners: fc.integer({ min: 1, max: 4 }),
        seed: fc.nat(),
      })
      .map(({ arms, corners, seed }) => {
        let n = 1;
        const edges: [number, number][] = [];
        for (const { from, to, posts, closed } of arms) {
          let last = from % Math.min(n, corners);
          const end = to % n;
          for (let post = 0; post < posts; post++) {
            edges.push([last, n]);
            last = n++;
          }
          if (closed && last !== end) edges.push([last, end]);
        }
        const minus = seed % 3 === 0 && n > 1 ? (seed + 1) % n : EARTH;
        return renumbered(graph(n, edges, { plus: seed % n, minus }), seed).network;
      });
    fc.assert(fc.property(paddocks, expectPattern), { numRuns: runs(2000) });
  });

  test('gives every branch one slot, where its ends meet', () => {
    fc.assert(
      fc.property(networks({ decades: 1, withPairs: true, withGaps: true }), (network) => {
        const { slotBranch, parallelBranch, parallelSlot, position, start, row, gapSlot } = analyse(network);
        const meets = (slot: number, a: number, b: number) => {
          const early = Math.min(position[a]!, position[b]!);
          expect(slot).toBeGreaterThanOrEqual(start[early]!);
          expect(slot).toBeLessThan(start[early + 1]!);
          expect(row[slot]).toBe(Math.max(position[a]!, position[b]!));
        };
        const slotOf = new Map<number, number>();
        slotBranch.forEach((branch, slot) => {
          if (branch >= 0) slotOf.set(branch, slot);
        });
        parallelBranch.forEach((branch, i) => {
          expect(slotOf.has(branch)).toBe(false);
          slotOf.set(branch, parallelSlot[i]!);
        });
        expect(slotOf.size).toBe(network.branchFrom.length);
        for (const [branch, slot] of slotOf) meets(slot, network.branchFrom[branch]!, network.branchTo[branch]!);
        network.gaps!.a.forEach((a, i) => {
          if (network.gaps!.b[i] === EARTH) expect(gapSlot[i]).toBe(-1);
          else meets(gapSlot[i]!, a, network.gaps!.b[i]!);
        });
      }),
    );
  });

  test('covers the columns with runs that are what they say', () => {
    fc.assert(
      fc.property(networks({ decades: 1, mostNodes: 30, withPairs: true }), (network) => {
        const analysis = analyse(network);
        const { runs, nodeCount, portCount } = analysis;
        let next = 0;
        for (let r = 0; r < runs.length; r += 3) {
          const [first, end, kind] = [runs[r]!, runs[r + 1]!, runs[r + 2]!];
          expect(first).toBe(next);
          expect(end).toBeGreaterThan(first);
          next = end;
          for (let k = first; k < end; k++) {
            const width = rows(analysis, k).length;
            if (kind === 1) expect(width).toBe(1);
            else if (kind === 2 || kind === 3) expect(width).toBe(2);
            else expect(width === 0 || width > 2).toBe(true);
            if (kind !== 4 && k + 1 < end) {
              const expected = { 1: [k + 1], 2: [k + 1, rows(analysis, first)[1]], 3: [k + 1, k + 2] }[kind];
              expect(rows(analysis, k)).toEqual(expected);
            }
          }
        }
        expect(next).toBe(nodeCount - portCount);
      }),
      { numRuns: runs(300) },
    );
  });
});

// The shapes that fences have must come out as the few long runs that the fast loops work, whatever the numbering.
describe('the order of', () => {
  const shuffles = [0, 1, 2, 3];
  const shuffled = (network: Network, seed: number) => (seed === 0 ? network : renumbered(network, seed).network);

  test.each(shuffles)('a ladder is one run from its end to the source (numbering %i)', (seed) => {
    const network = shuffled(graph(500, path(500), { plus: 0, minus: EARTH }), seed);
    expect([...analyse(network).runs]).toEqual([0, 499, 1]);
  });

  test.each(shuffles)('a tree has no fill (numbering %i)', (seed) => {
    const edges = Array.from({ length: 999 }, (_, i) => [i + 1, Math.floor((i * 37) % (i + 1))] as const);
    const { row, widest } = analyse(shuffled(graph(1000, edges, { plus: 500, minus: EARTH }), seed));
    expect([row.length, widest]).toEqual([999, 1]);
  });

  test.each(shuffles)('two strands with a cross leak at every post is a few long bands (numbering %i)', (seed) => {
    const posts = 300;
    const edges = [
      ...path(posts).flatMap(([a, b]) => [[2 * a, 2 * b] as const, [2 * a + 1, 2 * b + 1] as const]),
      ...Array.from({ length: posts }, (_, i) => [2 * i, 2 * i + 1] as const),
    ];
    for (const post of [0, posts - 1, 120]) {
      const ports = { plus: 2 * post, minus: 2 * post + 1 };
      const { runs, widest } = analyse(shuffled(graph(2 * posts, edges, ports), seed));
      expect(widest).toBe(2);
      expect(runs.length / 3).toBeLessThanOrEqual(6);
    }
  });

  test.each(shuffles)('so does one whose pairs are declared beside the cross leaks (numbering %i)', (seed) => {
    const posts = 100;
    const edges = [
      ...path(posts).flatMap(([a, b]) => [[2 * a, 2 * b] as const, [2 * a + 1, 2 * b + 1] as const]),
      ...Array.from({ length: posts }, (_, i) => [2 * i, 2 * i + 1] as const),
    ];
    const even = Int32Array.from({ length: posts }, (_, i) => 2 * i);
    const network = {
      ...graph(2 * posts, edges, { plus: 0, minus: 1 }),
      pairs: { a: even, b: even.map((i) => i + 1) },
    };
    const { runs, row } = analyse(shuffled(network, seed));
    expect(runs.length / 3).toBeLessThanOrEqual(2);
    expect(row.length).toBeLessThanOrEqual(4 * posts);
  });

  test.each(shuffles)('a chain between two junctions takes two slots a post (numbering %i)', (seed) => {
    // Two posts joined by four runs of fifty.
    const edges = [0, 1, 2, 3].flatMap((run) => {
      const first = 2 + 50 * run;
      return [
        [0, first] as const,
        ...path(50).map(([a, b]) => [first + a, first + b] as const),
        [first + 49, 1] as const,
      ];
    });
    const { row, runs } = analyse(shuffled(graph(202, edges, { plus: 0, minus: 1 }), seed));
    expect(row.length).toBe(401);
    expect(runs.length / 3).toBeLessThanOrEqual(60);
  });

  test.each(shuffles)('a hub with a thousand spokes, tied in a ring or not, stays thin (numbering %i)', (seed) => {
    const spokes = Array.from({ length: 1000 }, (_, i) => [0, i + 1] as const);
    const rim = Array.from({ length: 1000 }, (_, i) => [i + 1, ((i + 1) % 1000) + 1] as const);
    expect(analyse(shuffled(graph(1001, spokes), seed)).widest).toBe(1);
    expect(analyse(shuffled(graph(1001, [...spokes, ...rim]), seed)).widest).toBe(3);
  });

  test.each(shuffles)('a chain of doubled branches is a strand with parallels (numbering %i)', (seed) => {
    const edges = path(200).flatMap((edge) => [edge, edge, edge]);
    const { row, parallelBranch } = analyse(shuffled(graph(200, edges, { plus: 0, minus: EARTH }), seed));
    expect(row.length).toBe(199);
    expect(parallelBranch.length).toBe(398);
  });

  test('a square mesh fills like n log n, not like the band n√n', () => {
    const side = 30;
    const at = (x: number, y: number) => y * side + x;
    const edges = Array.from({ length: side * side }, (_, i) => [i % side, Math.floor(i / side)] as const).flatMap(
      ([x, y]) => [
        ...(x + 1 < side ? [[at(x, y), at(x + 1, y)] as const] : []),
        ...(y + 1 < side ? [[at(x, y), at(x, y + 1)] as const] : []),
      ],
    );
    const n = side * side;
    // Nested dissection takes 31/4 n log₂ n in the limit (A. George 1973); least degree does no worse at this size.
    expect(analyse(graph(n, edges)).row.length).toBeLessThan((31 / 4) * n * Math.log2(n) * 0.25);
    expect(analyse(graph(n, edges)).row.length).toBeLessThan(n ** 1.5);
  });

  test('parts apart, lonely nodes, no branch at all', () => {
    expect(analyse(graph(3, [])).row.length).toBe(0);
    expect(analyse(graph(1, [])).order).toEqual(Int32Array.of(0));
    const { order, runs } = analyse(graph(5, [[0, 1]], { plus: 3, minus: 2 }));
    expect([...order].slice(3)).toEqual([3, 2]);
    expect(runs[runs.length - 2]).toBe(3);
  });
});
