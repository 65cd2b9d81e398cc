import {
  formatAmps,
  formatLeakPerLength,
  formatLength,
  formatNumber,
  formatOhms,
  formatOhmsPerLength,
  formatPercent,
  formatSeconds,
  formatSignedVolts,
  formatTemperature,
  formatVolts,
  formatVoltsBeside,
  readQuantity,
  readShare,
} from '@postvolt/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const ft = 0.3048;

describe('quantities as they are printed', () => {
  it.each([
    [formatVolts(9234), '9.2 kV'],
    [formatVolts(3000), '3 kV'],
    [formatVolts(2960), '3 kV'],
    [formatVolts(12_340), '12.3 kV'],
    [formatVolts(999.9), '1 kV'],
    [formatVolts(994), '990 V'],
    [formatVolts(843), '840 V'],
    [formatVolts(12.4), '12 V'],
    [formatVolts(3.4), '3 V'],
    [formatVolts(0.2), '0 V'],
    [formatVolts(-2500), '−2.5 kV'],
    [formatAmps(1.234), '1.2 A'],
    [formatAmps(0.0354), '35 mA'],
    [formatAmps(8.71e-6), '8.7 µA'],
    [formatAmps(0), '0 A'],
    [formatOhms(18.7), '19 Ω'],
    [formatOhms(15_400), '15 kΩ'],
    [formatOhms(999), '1 kΩ'],
    [formatOhms(Number.POSITIVE_INFINITY), 'unlimited Ω'],
    [formatSeconds(1.2e-4), '120 µs'],
    [formatSeconds(1.25), '1.3 s'],
    [formatPercent(93.4), '93 %'],
    [formatPercent(5.86), '5.9 %'],
    [formatPercent(0.04), 'under 0.1 %'],
    [formatPercent(0), '0 %'],
    [formatPercent(100), '100 %'],
    [formatLength(402.336, 'imperial'), '1,320 ft'],
    [formatLength(1609.344, 'imperial'), '1 mi'],
    [formatLength(9656.064, 'imperial'), '6 mi'],
    [formatLength(36 * 0.0254, 'imperial'), '36 in'],
    [formatLength(4 * ft, 'imperial'), '4 ft'],
    [formatLength(0.015875, 'imperial'), '0.625 in'],
    [formatLength(0, 'imperial'), '0 ft'],
    [formatLength(402.336, 'metric'), '402 m'],
    [formatLength(1609.344, 'metric'), '1.61 km'],
    [formatLength(0.914, 'metric'), '91.4 cm'],
    [formatLength(0.0025146, 'metric'), '2.51 mm'],
    [formatLength(1000, 'metric'), '1 km'],
    [formatLeakPerLength(2e-7, 'metric'), '200 nS/m'],
    [formatLeakPerLength(2e-7, 'imperial'), '320 µS/mi'],
    [formatOhmsPerLength(0.036, 'metric'), '36 Ω/km'],
    [formatOhmsPerLength(0.036, 'imperial'), '58 Ω/mi'],
    [formatTemperature(10, 'metric'), '10 °C'],
    [formatTemperature(10, 'imperial'), '50 °F'],
    [formatTemperature(-20, 'imperial'), '−4 °F'],
    [formatNumber(1234567, 3), '1,230,000'],
    [formatNumber(0.00012345, 2), '0.00012'],
    [formatNumber(Number.NaN, 2), 'unknown'],
  ])('%s', (printed, expected) => {
    expect(printed).toBe(expected);
  });

  // Three digits are kept, so what is printed lies within half a unit of the third digit: 0.5 %.
  it('reads back what it printed, to the digits that it printed', () => {
    const length = fc.double({ min: 1e-3, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(length, fc.constantFrom('imperial' as const, 'metric' as const), (metres, units) => {
        const read = readQuantity(formatLength(metres, units), 'length');
        expect(read.ok && Math.abs(read.value / metres - 1)).toBeLessThanOrEqual(0.005 + 1e-12);
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e12, noNaN: true }), (ohms) => {
        const read = readQuantity(formatOhms(ohms), 'resistance');
        expect(read.ok && Math.abs(read.value / ohms - 1)).toBeLessThanOrEqual(0.05 + 1e-12);
      }),
    );
    fc.assert(
      fc.property(fc.double({ min: 1000, max: 5e4, noNaN: true }), (volts) => {
        const read = readQuantity(formatVolts(volts), 'voltage');
        expect(read.ok && Math.abs(read.value - volts)).toBeLessThanOrEqual(50 + 1e-9);
      }),
    );
  });
});

describe('volts beside a target', () => {
  it('have the digits that tell them from it, and no more', () => {
    expect(formatVoltsBeside(1996, 2000)).toBe('1.996 kV');
    expect(formatVoltsBeside(1960, 2000)).toBe('1.96 kV');
    expect(formatVoltsBeside(1999.96, 2000)).toBe('1.99996 kV');
    // Where the usual words differ already, they stand; so they do at the target itself.
    expect(formatVoltsBeside(1900, 2000)).toBe('1.9 kV');
    expect(formatVoltsBeside(2000, 2000)).toBe('2 kV');
    expect(formatVoltsBeside(3100, 3000)).toBe(formatVolts(3100));
    // Nine digits at the most.
    expect(formatVoltsBeside(2000 - 1e-9, 2000)).toBe('2 kV');
  });

  it('as differences have their sign', () => {
    expect(formatSignedVolts(1200)).toBe('+1.2 kV');
    expect(formatSignedVolts(-300)).toBe('−300 V');
    expect(formatSignedVolts(0)).toBe('+0 V');
  });
});

describe('shares', () => {
  it('are read as percent or bare, from 0 to the most', () => {
    const value = (text: unknown, most?: number) => {
      const read = readShare(text, most);
      return read.ok ? read.value : `${read.fault.code}: ${read.fault.hint}`;
    };
    expect(value('15 %')).toBe(0.15);
    expect(value(0.15)).toBe(0.15);
    expect(value(0)).toBe(0);
    expect(value(1)).toBe(1);
    expect(value('100 %')).toBe(1);
    expect(value('150 %', 2)).toBe(1.5);
    // Over the most as a bare number it was meant as percent, as long as that fits.
    expect(value(15)).toBe('out-of-range: Did you mean 15 %?');
    expect(value(100)).toBe('out-of-range: Did you mean 100 %?');
    expect(value(101)).toBe('out-of-range: ');
    expect(value('101 %')).toBe('out-of-range: ');
    expect(value(-1)).toBe('out-of-range: ');
    expect(value('15 ft')).toMatch(/^bad-quantity/);
    expect(value(null)).toMatch(/^bad-quantity/);
  });
});
