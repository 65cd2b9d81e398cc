import { EngineError, SourceCurve } from '@postvolt/core/engine';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { curvePoints, siemens } from './arbitrary.js';

const meet = (curve: SourceCurve, load: number, offset = 0) =>
  curve.meet(load, offset, { volts: 0, amps: 0, segment: 0 });

/** Where a falling curve meets a rising load line, by halving; independent of segments. */
function byHalving(points: readonly [number, number][], load: number, offset: number): number {
  const voltsAt = (amps: number) => {
    let i = 0;
    while (i < points.length - 2 && amps > points[i + 1]![0]) i++;
    const [a, b] = [points[i]!, points[Math.min(i + 1, points.length - 1)]!];
    return points.length === 1 ? a[1] : a[1] + ((b[1] - a[1]) * (amps - a[0])) / (b[0] - a[0]);
  };
  // Above open circuit the amps lie between −offset and 0, below it between 0 and what the load would draw there.
  let [low, high] = [Math.min(0, -offset) - 1, Math.max(0, load * points[0]![1] - offset) + 1];
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (load * voltsAt(middle) - offset > middle) low = middle;
    else high = middle;
  }
  return voltsAt((low + high) / 2);
}

describe('a source curve', () => {
  const points: [number, number][] = [
    [0, 9800],
    [14, 7000],
    [42, 4200],
  ];
  const curve = new SourceCurve(points);

  test('through its own points gives them back', () => {
    expect(meet(curve, 14 / 7000)).toMatchObject({ volts: expect.closeTo(7000, 9), amps: expect.closeTo(14, 12) });
    expect(meet(curve, 42 / 4200)).toMatchObject({ volts: expect.closeTo(4200, 9), amps: expect.closeTo(42, 12) });
    expect(meet(curve, 0)).toEqual({ volts: 9800, amps: 0, segment: 0 });
  });

  test('goes on to short circuit with its last slope', () => {
    expect(curve.ohms).toEqual(Float64Array.of(200, 100));
    expect(meet(curve, 1e12)).toMatchObject({ volts: expect.closeTo(0, 6), amps: expect.closeTo(84, 6), segment: 1 });
  });

  test('changes segment at the knee, and is the same from both sides there', () => {
    const knee = 14 / 7000;
    expect(meet(curve, knee * (1 - 1e-9)).segment).toBe(0);
    expect(meet(curve, knee * (1 + 1e-9)).segment).toBe(1);
    expect(meet(curve, knee * (1 + 1e-9)).volts).toBeCloseTo(7000, 4);
  });

  test('gives at a voltage the amps that lie on it', () => {
    expect(curve.ampsAt(8400)).toBeCloseTo(7, 12);
    expect(curve.ampsAt(7000)).toBeCloseTo(14, 12);
    expect(curve.ampsAt(5600)).toBeCloseTo(28, 12);
    expect(curve.ampsAt(0)).toBeCloseTo(84, 12);
    expect(curve.ampsAt(10_000)).toBeCloseTo(-1, 12);
  });

  test('of one point is an ideal source, of two a Thévenin source', () => {
    expect(meet(SourceCurve.ideal(5000), 0.1)).toEqual({ volts: 5000, amps: 500, segment: 0 });
    expect(SourceCurve.thevenin(6000, 300)).toEqual(
      new SourceCurve([
        [0, 6000],
        [20, 0],
      ]),
    );
    expect(meet(SourceCurve.thevenin(6000, 300), 1 / 300)).toMatchObject({
      volts: expect.closeTo(3000, 10),
      amps: expect.closeTo(10, 13),
    });
  });

  test('meets any load line where halving finds it', () => {
    fc.assert(
      fc.property(curvePoints, siemens(8), fc.double({ min: -3, max: 3, noNaN: true }), (random, load, offset) => {
        const met = meet(new SourceCurve(random), load, offset);
        const volts = byHalving(random, load, offset);
        // Halving carries the rounding of a difference of points: 1e-9 of the largest number on its way.
        const scale = random[0]![1] + Math.abs(offset) * (1 / load + Math.max(...new SourceCurve(random).ohms));
        expect(Math.abs(met.volts - volts)).toBeLessThanOrEqual(1e-9 * scale);
        expect(met.amps).toBe(load * met.volts - offset);
      }),
    );
  });

  test.each([
    ['no point', [], 'source', 'no point'],
    ['a first point under load', [[1, 5000]], 'source[0]', '1 A'],
    [
      'points that stand still in amps',
      [
        [0, 5000],
        [0, 4000],
      ],
      'source[1]',
      '0 A',
    ],
    [
      'points that do not fall',
      [
        [0, 5000],
        [1, 4000],
        [2, 4000],
      ],
      'source[2]',
      '4000 V',
    ],
    ['an open-circuit voltage of zero', [[0, 0]], 'source[0]', '0 V'],
    [
      'a negative voltage',
      [
        [0, 5],
        [1, -1],
      ],
      'source[1]',
      '-1 V',
    ],
    ['a voltage without end', [[0, Infinity]], 'source[0]', 'Infinity V'],
    [
      'a current that is no number',
      [
        [0, 5],
        [Number.NaN, 4],
      ],
      'source[1]',
      'NaN A',
    ],
  ] as const)('is refused with %s', (_, given, path, found) => {
    const make = () => new SourceCurve(given);
    expect(make).toThrow(EngineError);
    expect(make).toThrow(expect.objectContaining({ issue: expect.objectContaining({ code: 'data', path, found }) }));
  });

  test('is refused with a resistance that is not positive', () => {
    for (const ohms of [0, -5, Number.NaN, Infinity])
      expect(() => SourceCurve.thevenin(5000, ohms)).toThrow(EngineError);
  });

  test('meets a load with an offset on the segment where the two lines cross, on either side of a knee', () => {
    const source = new SourceCurve([
      [0, 9000],
      [10, 6000],
      [40, 1500],
    ]);
    // At the knee the load draws 12 A without its offset; −6 A and +6 A of it put the crossing on either side.
    for (const [offsetAmps, segment] of [
      [6, 0],
      [-6, 1],
    ] as const) {
      const point = source.meet(0.002, offsetAmps, { volts: 0, amps: 0, segment: 0 });
      expect(point.segment).toBe(segment);
      expect(point.amps).toBeCloseTo(0.002 * point.volts - offsetAmps, 12);
      expect(source.ampsAt(point.volts) / point.amps).toBeCloseTo(1, 12);
    }
  });
});
