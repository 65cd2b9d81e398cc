import { cellsOf, standardTables } from '@postvolt/tables';
import { erf } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { drawValue } from '../../packages/core/src/network/draw-value.js';
import { chanceOf } from '../../packages/core/src/studies/spread/chance.js';
import { latinHypercube } from '../../packages/core/src/studies/spread/hypercube.js';
import { influenceOf, ranksOf, shareNoise } from '../../packages/core/src/studies/spread/influences.js';
import { LogHistogram } from '../../packages/core/src/studies/spread/log-histogram.js';
import { normalQuantile } from '../../packages/core/src/studies/spread/normal-quantile.js';
import { Random } from '../../packages/core/src/studies/spread/random.js';

/** Share of a standard normal below z. */
const below = (z: number) => (1 + erf(z / Math.SQRT2)) / 2;

describe('random numbers', () => {
  test('follow the published code of xoshiro128** 1.1 (Blackman and Vigna 2018), worked by hand from the state 1, 2, 3, 4', () => {
    const random = new Random([1, 2, 3, 4]);
    expect([random.word(), random.word(), random.word()]).toEqual([11520, 0, 5927040]);
  });

  test('fill 0 to 1 evenly and keep out of its ends', () => {
    const random = new Random('even');
    const counts = new Array<number>(100).fill(0);
    for (let i = 0; i < 100_000; i++) counts[Math.floor(random.next() * 100)]!++;
    const chiSquare = counts.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    // 99 degrees of freedom: 0.01 % of even generators lie above 161 (tables of chi-square).
    expect(chiSquare).toBeLessThan(161);
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(100_000);
  });

  test('of seeds that differ in one letter have nothing to do with each other', () => {
    const [a, b] = [new Random('1|soil|loam'), new Random('1|soil|loan')];
    const n = 20_000;
    let product = 0;
    for (let i = 0; i < n; i++) product += (a.next() - 0.5) * (b.next() - 0.5);
    // The mean product of independent pairs has a spread of 1/12 / √n; five of them are one seed in two million.
    expect(Math.abs(product / n)).toBeLessThan(5 / 12 / Math.sqrt(n));
  });

  test('make permutations: every number once', () => {
    const order = new Random('order').permutation(1000);
    expect([...order].sort((a, b) => a - b)).toEqual(Array.from({ length: 1000 }, (_, i) => i));
    expect([...order]).not.toEqual([...order].sort((a, b) => a - b));
  });
});

describe('the normal’s quantile', () => {
  // Tables of the normal distribution in any textbook of statistics.
  test.each([
    [0.5, 0],
    [0.9, 1.2815516],
    [0.95, 1.6448536],
    [0.975, 1.959964],
    [0.99, 2.3263479],
    [0.999, 3.0902323],
  ])('%f', (p, z) => {
    expect(normalQuantile(p)).toBeCloseTo(z, 6);
    expect(normalQuantile(1 - p)).toBeCloseTo(-z, 6);
  });

  test('is undone by mathjs’s erf', () => {
    for (let p = 1e-7; p < 1; p += 0.000917) {
      // erf near −1 leaves 1e-16 of itself to a share of 1e-7 and more.
      expect(Math.abs(below(normalQuantile(p)) / p - 1)).toBeLessThan(1e-8);
    }
  });
});

describe('a drawn value', () => {
  const aged = { low: 0.3e-6, typical: 2e-6, high: 10e-6 };
  test('has low, typical and high as its 5th, 50th and 95th percentile', () => {
    const at = (share: number) => drawValue(aged, normalQuantile(share));
    expect(at(0.05)).toBeCloseTo(aged.low, 16);
    expect(at(0.5)).toBeCloseTo(aged.typical, 16);
    expect(at(0.95)).toBeCloseTo(aged.high, 16);
  });

  test('is the typical one where there is no range, and never less than zero where the range begins there', () => {
    expect(drawValue({ low: 5, typical: 5, high: 5 }, 3)).toBe(5);
    expect(drawValue({ low: 0, typical: 50, high: 500 }, -3)).toBe(0);
    expect(drawValue({ low: 0, typical: 50, high: 500 }, -1)).toBeGreaterThan(0);
    expect(drawValue({ low: 0, typical: 0, high: 500 }, normalQuantile(0.95))).toBeCloseTo(500, 9);
  });

  test('of every cell of the tables rises with z and stays finite six deviations out', () => {
    let cells = 0;
    for (const [, cell] of cellsOf(standardTables)) {
      if (cell.low === cell.high) continue;
      cells++;
      const values = Array.from({ length: 25 }, (_, i) => drawValue(cell, i / 2 - 6));
      expect(values.every(Number.isFinite)).toBe(true);
      expect(values).toEqual([...values].sort((a, b) => a - b));
      expect(values[0]).toBeGreaterThanOrEqual(0);
      expect(values[0]).toBeLessThan(values.at(-1)!);
    }
    expect(cells).toBeGreaterThan(200);
  });
});

describe('the hypercube', () => {
  const draws = 500;
  const seventh = latinHypercube(draws, 7);
  const columns = ['film|north', 'soil|loam'].map(seventh);

  test('draws once from each part of equal chance', () => {
    for (const { rank, z } of columns) {
      const parts = Array.from(z, (value) => Math.floor(below(value) * draws + 1e-6 * (value < 0 ? 1 : -1)));
      expect([...parts].sort((a, b) => a - b)).toEqual(Array.from({ length: draws }, (_, i) => i));
      expect(parts).toEqual([...rank]);
    }
  });

  test('leaves a value’s draws alone when another value comes or goes, and changes them with the seed', () => {
    expect(latinHypercube(draws, 7)('soil|loam')).toEqual(columns[1]);
    expect(latinHypercube(draws, 8)('soil|loam')).not.toEqual(columns[1]);
    expect(seventh('soil|loam')).toBe(seventh('soil|loam'));
  });
});

describe('the histogram in equal ratios', () => {
  test.each([
    ['log-normal', (random: Random) => 4000 * Math.exp(0.7 * normalQuantile(random.next()))],
    ['even', (random: Random) => 9000 * random.next()],
    ['narrow', (random: Random) => 5000 + 20 * random.next()],
  ])('finds the quantiles of a sample within the width of a bin: %s', (name, draw) => {
    const random = new Random(name);
    const values = Array.from({ length: 5000 }, () => Math.min(9000, draw(random)));
    const histogram = new LogHistogram(3, 9000, values.length);
    for (const value of values) histogram.add(Float64Array.of(value, -value, value / 2));
    const sorted = [...values].sort((a, b) => a - b);
    const shares = [0.1, 0.5, 0.9];
    const [first, second, third] = [0, 1, 2].map((row) => histogram.quantiles(row, shares)) as [
      number[],
      number[],
      number[],
    ];
    shares.forEach((share, q) => {
      const exact = sorted[Math.round(share * values.length) - 1]!;
      expect(Math.abs(first[q]! / exact - 1)).toBeLessThanOrEqual(histogram.binWidth);
      expect(third[q]! / first[q]!).toBeCloseTo(0.5, 12);
    });
    // What lies a thousandth below the top or under zero is told as "next to nothing".
    expect(Math.max(...second)).toBeLessThan(9000 / 900);
    expect(histogram.binWidth).toBe(1 / 128);
  });

  test('makes its bins wider before it takes more memory than a browser has', () => {
    expect(new LogHistogram(150_000, 9000, 1000).binWidth).toBe(1 / 64);
  });
});

describe('what matters most', () => {
  test('Ishigami’s function has its published first-order shares 0.3139, 0.4424 and 0 (Saltelli and others 2008, a = 7, b = 0.1)', () => {
    const draws = 20_000;
    const columns = ['x1', 'x2', 'x3'].map(latinHypercube(draws, 3));
    const at = (column: number, d: number) => Math.PI * (2 * below(columns[column]!.z[d]!) - 1);
    const outcome = Float64Array.from(
      { length: draws },
      (_, d) => Math.sin(at(0, d)) + 7 * Math.sin(at(1, d)) ** 2 + 0.1 * at(2, d) ** 4 * Math.sin(at(0, d)),
    );
    const ranks = ranksOf(outcome);
    const shares = columns.map((column) => influenceOf(column, outcome, ranks).varianceShare);
    // Parts of 1/32 of the range blur a sine by less than 1 %; chance moves a share by some √(1/draws).
    const tolerance = 0.01 * 0.45 + 2 / Math.sqrt(draws);
    expect(Math.abs(shares[0]! - 0.3139)).toBeLessThan(tolerance);
    expect(Math.abs(shares[1]! - 0.4424)).toBeLessThan(tolerance);
    expect(shares[2]!).toBeLessThan(shareNoise(draws));
  });

  test('a sum of normals divides its variance by the squares of the weights; rank correlation gives the direction', () => {
    const draws = 4000;
    const [a, b, idle] = ['a', 'b', 'idle'].map(latinHypercube(draws, 5));
    const outcome = Float64Array.from({ length: draws }, (_, d) => 2 * a!.z[d]! - b!.z[d]!);
    const ranks = ranksOf(outcome);
    const [first, second, none] = [a, b, idle].map((column) => influenceOf(column!, outcome, ranks));
    // Standard error of a share of 0.2 to 0.8 is about 1/√draws.
    expect(Math.abs(first!.varianceShare - 0.8)).toBeLessThan(3 / Math.sqrt(draws));
    expect(Math.abs(second!.varianceShare - 0.2)).toBeLessThan(3 / Math.sqrt(draws));
    expect(none!.varianceShare).toBeLessThan(shareNoise(draws));
    // Spearman's rho of a bivariate normal is 6/π · asin(r/2) (K. Pearson 1907), r² the shares above.
    expect(Math.abs(first!.rankCorrelation - (6 / Math.PI) * Math.asin(Math.sqrt(0.8) / 2))).toBeLessThan(0.05);
    expect(Math.abs(second!.rankCorrelation + (6 / Math.PI) * Math.asin(Math.sqrt(0.2) / 2))).toBeLessThan(0.05);
    // The middle of the upper tenth of a normal stands 1.645 above zero; b adds nothing there.
    expect(Math.abs(first!.highVolts - 2 * 1.645)).toBeLessThan(0.25);
    expect(Math.abs(first!.lowVolts + 2 * 1.645)).toBeLessThan(0.25);
  });

  test('nothing matters where nothing changes', () => {
    const column = latinHypercube(100, 1)('a');
    const outcome = new Float64Array(100).fill(3000);
    expect(influenceOf(column, outcome, ranksOf(outcome))).toMatchObject({ varianceShare: 0, rankCorrelation: 0 });
  });
});

test.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])('the interval of %i in %i is that of Newcombe 1998, table I, score method', (hits, draws, low, high) => {
  const chance = chanceOf(hits, draws);
  expect(chance.share).toBe(hits / draws);
  expect(chance.low).toBeCloseTo(low, 4);
  expect(chance.high).toBeCloseTo(high, 4);
});
