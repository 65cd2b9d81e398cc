import { internalImpedance, roundWireDcOhmsPerMetre, skinRatio } from '@postvolt/tables';
import { bignumberDependencies, create } from 'mathjs';
import { describe, expect, it } from 'vitest';

const math = create({ bignumberDependencies: bignumberDependencies! }, { number: 'BigNumber', precision: 90 });
const big = (n: number) => math.bignumber(n);

/**
 * R/R_dc and X/R_dc of a round wire from the Kelvin functions ber and bei, by their power series in 90-digit arithmetic:
 * R = (x/2)·(ber bei′ − bei ber′)/(ber′² + bei′²), X = (x/2)·(ber ber′ + bei bei′)/(ber′² + bei′²). A route of its own:
 * the series cancel some x/√2·log₁₀e·2 digits, which the 90 pay for up to x = 60.
 */
function kelvinRatio(x: number): { re: number; im: number } {
  const half = big(x).div(2);
  const square = half.times(half);
  // Term n of J₀(x·e^(3πi/4)): (i·x²/4)ⁿ/(n!)²; even n make ber, odd n make bei. A derivative brings down 2n/x.
  let [ber, bei, dBer, dBei] = [big(0), big(0), big(0), big(0)];
  let size = big(1);
  for (let n = 0; n < 400; n++) {
    const slope = size.times(2 * n).div(x);
    const sign = n % 4 < 2 ? 1 : -1;
    if (n % 2 === 0) {
      ber = ber.plus(size.times(sign));
      dBer = dBer.plus(slope.times(sign));
    } else {
      bei = bei.plus(size.times(sign));
      dBei = dBei.plus(slope.times(sign));
    }
    size = size.times(square).div((n + 1) ** 2);
  }
  const norm = dBer.times(dBer).plus(dBei.times(dBei));
  const re = half.times(ber.times(dBei).minus(bei.times(dBer))).div(norm);
  const im = half.times(ber.times(dBer).plus(bei.times(dBei))).div(norm);
  return { re: re.toNumber(), im: im.toNumber() };
}

describe('skin effect of a round wire', () => {
  it.each([
    [1, '1.0052'],
    [2, '1.0782'],
    [3, '1.318'],
    [4, '1.678'],
    [5, '2.043'],
    [10, '3.799'],
  ])('at x = %d is the ratio %s of the wire tables of the US Bureau of Standards (from memory)', (x, printed) => {
    // Tolerance: half a unit of the last place printed.
    const halfUnit = 0.5 * 10 ** -(printed.split('.')[1] ?? '').length;
    expect(Math.abs(skinRatio(x).re - Number(printed))).toBeLessThanOrEqual(halfUnit);
  });

  it.each([
    [1000, 100, 1.209341],
    [2500, 100, 1.738814],
    [5000, 100, 2.354579],
    [10_000, 100, 3.209552],
    [10_000, 1, 1.002499],
  ])(
    'of 0.099 in steel at %d Hz, µr %d agrees with 30-digit Bessel functions',
    (frequencyHz, relativePermeability, ratio) => {
      const wire = { radiusM: 0.0012573, resistivityOhmM: 0.18e-6, relativePermeability };
      // Tolerance: half a unit of the last of the six places computed.
      expect(internalImpedance(wire, frequencyHz).re / roundWireDcOhmsPerMetre(wire)).toBeCloseTo(ratio, 6);
    },
  );

  it.each([0.01, 0.3, 1, 2.7, 5, 9, 14, 22, 37, 60])('at x = %d agrees with 90-digit Kelvin series', (x) => {
    const [ours, theirs] = [skinRatio(x), kelvinRatio(x)];
    // Tolerance: some hundred roundings of a double.
    expect(Math.abs(ours.re / theirs.re - 1)).toBeLessThan(2e-14);
    expect(Math.abs(ours.im / theirs.im - 1)).toBeLessThan(2e-14);
  });

  it.each([100, 1000, 10_000])('at x = %d runs into the thin-skin expansion of the texts', (x) => {
    // R/R_dc = κ + 1/4 + 3/(64κ) + ..., κ = x/(2√2), any text on skin effect; the next term is below 1/x².
    const thin = x / (2 * Math.SQRT2) + 0.25 + (3 * Math.SQRT2) / (32 * x);
    expect(Math.abs(skinRatio(x).re - thin)).toBeLessThan(1 / x ** 2);
  });

  it('goes on smoothly where the expansion takes over', () => {
    const [below, above] = [skinRatio(1e4), skinRatio(1e4 * (1 + 1e-9))];
    // The step in x itself is 1e-9, and the expansion is good to 1e-12.
    expect(above.re / below.re - 1).toBeCloseTo(1e-9, 11);
    expect(above.im / below.im - 1).toBeCloseTo(1e-9, 11);
  });

  it('is nothing to a direct current', () => {
    expect(skinRatio(0)).toEqual({ re: 1, im: 0 });
  });

  it.each([Number.NaN, -1, Number.POSITIVE_INFINITY])('refuses x = %d', (x) => {
    expect(() => skinRatio(x)).toThrow(RangeError);
  });

  it('names what it refuses', () => {
    const wire = { radiusM: 1e-3, resistivityOhmM: 1e-7, relativePermeability: 1 };
    expect(() => internalImpedance({ ...wire, radiusM: -1 }, 50)).toThrow('radiusM: found -1');
    expect(() => internalImpedance({ ...wire, resistivityOhmM: 0 }, 50)).toThrow('resistivityOhmM: found 0');
    expect(() => internalImpedance({ ...wire, relativePermeability: Number.NaN }, 50)).toThrow(
      'relativePermeability: found NaN',
    );
    expect(() => internalImpedance(wire, -50)).toThrow('frequencyHz: found -50');
  });
});
