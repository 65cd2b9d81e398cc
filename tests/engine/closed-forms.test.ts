import { analyse, Circuit, EARTH, Factor, NetworkBuilder, SelectedInverse, SourceCurve } from '@postvolt/core/engine';
import { describe, expect, test } from 'vitest';

// Answers that can be written down. A ladder passes through a few roundings a section; 1e-12 leaves room for thousands.
const DIGITS = 1e-12;

/** A source of 1 V at node 0 and n sections of series R and shunt G; `endShunt` is what the last node has to earth. */
function ladder(n: number, seriesOhms: number, shuntSiemens: number, firstShunt: number, endShunt: number): Circuit {
  const builder = new NetworkBuilder();
  builder.node(firstShunt);
  for (let k = 1; k <= n; k++) {
    builder.node(k < n ? shuntSiemens : endShunt);
    builder.branch(k - 1, k, 1 / seriesOhms);
  }
  return new Circuit(builder.ports(0).build(), SourceCurve.ideal(1));
}

describe('a ladder of n sections (telegraph equation in differences: cosh γ = 1 + RG/2)', () => {
  const cases = [
    { n: 1, R: 1, G: 1 },
    { n: 40, R: 0.5, G: 1e-3 },
    { n: 400, R: 35, G: 2e-7 },
    { n: 25, R: 3, G: 2 },
    // The field of 1600 m of wire at 70 Ω/km over leaks of 0.1 µS/m, ten metres a section.
    { n: 160, R: 0.7, G: 1e-6 },
  ];
  const gamma = (R: number, G: number) => Math.acosh(1 + (R * G) / 2);

  test.each(cases)('half a shunt at both ends: cosh (N−k)γ / cosh Nγ  ($n, $R Ω, $G S)', ({ n, R, G }) => {
    const { volts } = ladder(n, R, G, G / 2, G / 2).solve();
    const g = gamma(R, G);
    // acosh near 1 keeps only half the digits of its argument's distance from 1: log1p form instead.
    const exactG = Math.log1p((R * G) / 2 + Math.sqrt(R * G * (1 + (R * G) / 4)));
    expect(g).toBeCloseTo(exactG, 6);
    for (let k = 0; k <= n; k++) {
      const exact = Math.cosh((n - k) * exactG) / Math.cosh(n * exactG);
      expect(Math.abs(volts[k]! / exact - 1)).toBeLessThanOrEqual(DIGITS);
    }
  });

  test.each(cases)('a whole shunt at the end: cosh (N−k+½)γ / cosh (N+½)γ  ($n, $R Ω, $G S)', ({ n, R, G }) => {
    const { volts } = ladder(n, R, G, 0, G).solve();
    const g = Math.log1p((R * G) / 2 + Math.sqrt(R * G * (1 + (R * G) / 4)));
    for (let k = 0; k <= n; k++) {
      const exact = Math.cosh((n - k + 0.5) * g) / Math.cosh((n + 0.5) * g);
      expect(Math.abs(volts[k]! / exact - 1)).toBeLessThanOrEqual(DIGITS);
    }
  });

  test.each([0, 1e-5, 0.3, 1e4])('an end shunt of %s S', (endShunt) => {
    const { n, R, G } = { n: 60, R: 2, G: 1e-3 };
    const { volts } = ladder(n, R, G, 0, endShunt).solve();
    const g = Math.log1p((R * G) / 2 + Math.sqrt(R * G * (1 + (R * G) / 4)));
    const b = ((endShunt - G / 2) * R) / Math.sinh(g);
    const form = (sections: number) => Math.cosh(sections * g) + b * Math.sinh(sections * g);
    // With a great end shunt the form itself subtracts: 1e-10 of it is what double precision leaves.
    for (let k = 0; k < n; k++) expect(Math.abs(volts[k]! / (form(n - k) / form(n)) - 1)).toBeLessThanOrEqual(1e-10);
  });

  test('of 1 Ω series and 1 Ω shunt, series first, has the golden ratio as input resistance', () => {
    // It falls towards the limit by the square of the golden ratio squared a section: 40 sections are exact in double precision.
    const { inputSiemens } = ladder(40, 1, 1, 0, 1).solve();
    expect(1 / inputSiemens).toBeCloseTo((1 + Math.sqrt(5)) / 2, 14);
  });

  test('approaches the leaky line V₀ cosh γ(ℓ−x) / cosh γℓ, γ = √(R′G′), as the square of the section', () => {
    const [length, perMetreR, perMetreG] = [4000, 0.07, 2e-7];
    const root = Math.sqrt(perMetreR * perMetreG);
    const worst = (sections: number) => {
      const dx = length / sections;
      const { volts } = ladder(sections, perMetreR * dx, perMetreG * dx, 0, (perMetreG * dx) / 2).solve();
      return Math.abs(volts[sections]! - 1 / Math.cosh(root * length));
    };
    expect(worst(200)).toBeLessThan(1e-6);
    expect(worst(100) / worst(200)).toBeCloseTo(4, 2);
  });
});

/** Resistance between two nodes of a network of equal branches of 1 S; node 0 is tied to earth by 1 S, which plays no part. */
function between(edges: readonly (readonly [number, number])[], a: number, b: number): number {
  const builder = new NetworkBuilder();
  const count = Math.max(...edges.flat()) + 1;
  for (let i = 0; i < count; i++) builder.node(i === 0 ? 1 : 0);
  for (const [from, to] of edges) builder.branch(from, to, 1);
  builder.pair(a, b);
  const network = builder.build();
  const factor = new Factor(analyse(network));
  factor.refactor(network.branchSiemens, network.leakSiemens);
  const inverse = new SelectedInverse(factor);
  inverse.compute();
  return inverse.pairOhms(Int32Array.of(a), Int32Array.of(b), new Float64Array(1))[0]!;
}

describe('resistance between corners of equal resistors (any text on circuits)', () => {
  const cube = [0, 1, 2, 3, 4, 5, 6, 7].flatMap((i) =>
    [1, 2, 4].filter((bit) => !(i & bit)).map((bit) => [i, i | bit] as const),
  );

  test.each([
    ['along an edge of a cube', cube, 1, 7 / 12],
    ['across a face of a cube', cube, 3, 3 / 4],
    ['across a cube', cube, 7, 5 / 6],
    [
      'of a triangle',
      [
        [0, 1],
        [1, 2],
        [2, 0],
      ] as const,
      1,
      2 / 3,
    ],
    ['of a complete graph of seven', complete(7), 6, 2 / 7],
    [
      'of a balanced bridge',
      [
        [0, 1],
        [0, 2],
        [1, 2],
        [1, 3],
        [2, 3],
      ] as const,
      3,
      1,
    ],
    ['of a ring of nine, four apart', ring(9), 4, (4 * 5) / 9],
  ])('%s', (_, edges, to, ohms) => {
    expect(between(edges, 0, to)).toBeCloseTo(ohms, 14);
  });
});

function complete(n: number): [number, number][] {
  return Array.from({ length: n }, (_, i) => Array.from({ length: i }, (_, j): [number, number] => [j, i])).flat();
}

function ring(n: number): [number, number][] {
  return Array.from({ length: n }, (_, i) => [i, (i + 1) % n]);
}

describe('a source at a fence that does not leak', () => {
  test('keeps its open-circuit volts everywhere and gives no current', () => {
    const builder = new NetworkBuilder();
    const ground = builder.node(1 / 30);
    const hot = [builder.node(), builder.node(), builder.node()];
    builder.branch(hot[0]!, hot[1]!, 2);
    builder.branch(hot[1]!, hot[2]!, 2);
    const network = builder.ports(hot[0]!, ground).build();
    for (const source of [
      SourceCurve.ideal(7300),
      new SourceCurve([
        [0, 7300],
        [8, 4000],
        [20, 2000],
      ]),
    ]) {
      const { volts, amps, terminalVolts } = new Circuit(network, source).solve();
      expect(amps).toBe(0);
      expect(terminalVolts).toBe(7300);
      for (const node of hot) expect(volts[node]).toBe(7300);
      expect(volts[ground]).toBe(0);
    }
  });

  test('stands between its leaks as they divide the volts, when both sides leak', () => {
    const builder = new NetworkBuilder();
    const [plus, minus] = [builder.node(1 / 900), builder.node(1 / 100)];
    const network = builder.ports(plus, minus).build();
    const { volts, amps } = new Circuit(network, SourceCurve.thevenin(6000, 500)).solve();
    // 6000 V over 500 + 900 + 100 Ω.
    expect(amps).toBeCloseTo(4, 12);
    expect(volts[plus]).toBeCloseTo(3600, 9);
    expect(volts[minus]).toBeCloseTo(-400, 9);
  });

  test('between one node and earth needs no second node', () => {
    const network = new NetworkBuilder();
    const plus = network.node(0.01);
    const { volts, amps } = new Circuit(network.ports(plus, EARTH).build(), SourceCurve.thevenin(300, 50)).solve();
    expect(amps).toBeCloseTo(2, 12);
    expect(volts[plus]).toBeCloseTo(200, 10);
  });
});
