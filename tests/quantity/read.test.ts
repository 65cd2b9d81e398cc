import { type KindName, readQuantity, readRanged, readShare } from '@postvolt/core';
import { describe, expect, it } from 'vitest';

/** SI value of a text; fails the test where it is refused. */
function si(text: string, kind: KindName, limits = {}): number {
  const read = readQuantity(text, kind, limits);
  if (!read.ok) throw new Error(`${text}: ${JSON.stringify(read.fault)}`);
  return read.value;
}

describe('quantities as people write them', () => {
  // Exact factors: international foot 0.3048 m, mile 1609.344 m, yard 0.9144 m (US NIST SP 811, appendix B).
  const good: [string, KindName, number][] = [
    ['1320 ft', 'length', 402.336],
    ['1,320 ft', 'length', 402.336],
    ['1320 feet', 'length', 402.336],
    ['1320ft.', 'length', 402.336],
    ['5 ft 6 in', 'length', 1.6764],
    ['5 ft. 6 in.', 'length', 1.6764],
    ['5\'6"', 'length', 1.6764],
    ['5′ 6″', 'length', 1.6764],
    ['5’ 6”', 'length', 1.6764],
    ['5\' 6 1/2"', 'length', 1.6891],
    ['66"', 'length', 1.6764],
    ['30 in', 'length', 0.762],
    ['5/8 in', 'length', 0.015875],
    ['1-1/2 in', 'length', 0.0381],
    ['1½ in', 'length', 0.0381],
    ['½"', 'length', 0.0127],
    ['0.8 mi', 'length', 1287.4752],
    ['1 mi 300 ft', 'length', 1700.784],
    ['440 yards', 'length', 402.336],
    ['400 metres', 'length', 400],
    ['2.5 mm', 'length', 0.0025],
    ['40 µm', 'length', 4e-5],
    ['40 μm', 'length', 4e-5],

    ['400\u00a0m', 'length', 400],
    ['1.2e3 m', 'length', 1200],
    ['9.2 kV', 'voltage', 9200],
    ['9.2kV', 'voltage', 9200],
    ['9.2 kv', 'voltage', 9200],
    ['3000 volts', 'voltage', 3000],
    ['35 ohm', 'resistance', 35],
    ['35 ohms', 'resistance', 35],
    ['35 Ω', 'resistance', 35],
    ['35 \u2126', 'resistance', 35],
    ['20 kΩ', 'resistance', 20_000],
    ['20 kOhm', 'resistance', 20_000],
    ['20 kilohms', 'resistance', 20_000],
    ['10 MΩ', 'resistance', 1e7],
    ['3 mΩ', 'resistance', 0.003],
    ['100 Ω·m', 'resistivity', 100],
    ['100 ohm m', 'resistivity', 100],
    ['100 ohm-m', 'resistivity', 100],
    ['100 ohm-metres', 'resistivity', 100],
    ['100 Ωm', 'resistivity', 100],
    ['10 ohm cm', 'resistivity', 0.1],
    ['0.18 µΩ·m', 'resistivity', 1.8e-7],
    ['0.2 µS/m', 'conductancePerLength', 2e-7],
    ['0.2 uS per m', 'conductancePerLength', 2e-7],
    ['36 ohm/km', 'resistancePerLength', 0.036],
    ['57.936384 Ω/mi', 'resistancePerLength', 0.036],
    ['120 us', 'time', 1.2e-4],
    ['120 µs', 'time', 1.2e-4],
    ['1.2 s', 'time', 1.2],
    ['5 kHz', 'frequency', 5000],
    ['6 J', 'energy', 6],
    ['-4 °C', 'temperature', -4],
    ['−4 °C', 'temperature', -4],
    ['50 °F', 'temperature', 10],
    ['14 F', 'temperature', -10],
    ['20 years', 'years', 20],
    ['900 lbf', 'force', 4003.39945373445],
  ];
  it.each(good)('%s', (text, kind, value) => {
    expect(si(text, kind)).toBeCloseTo(value, value === 0 ? 12 : 12 - Math.ceil(Math.log10(Math.abs(value))));
  });

  it('reads a wire gauge only where a diameter stands', () => {
    // Steel Wire Gauge 12½: 0.099 in; AWG 12: 0.0808 in (ASTM B258, table 1).
    expect(si('12.5 ga', 'length', { gauge: true })).toBeCloseTo(0.0025146, 10);
    expect(si('12½ ga', 'length', { gauge: true })).toBeCloseTo(0.0025146, 10);
    expect(si('12 AWG', 'length', { gauge: true }) / 0.0254).toBeCloseTo(0.0808, 4);
    expect(readQuantity('12.5 ga', 'length')).toMatchObject({ ok: false, fault: { code: 'wrong-unit' } });
  });
});

describe('quantities that are refused', () => {
  const bad: [unknown, KindName, string][] = [
    ['1320', 'length', 'missing-unit'],
    [1320, 'length', 'missing-unit'],
    ['5 ft 6', 'length', 'missing-unit'],
    [Number.NaN, 'length', 'bad-quantity'],
    [Number.POSITIVE_INFINITY, 'length', 'bad-quantity'],
    ['NaN ft', 'length', 'bad-quantity'],
    ['Infinity ft', 'length', 'bad-quantity'],
    ['1e999 ft', 'length', 'out-of-range'],
    ['1/0 in', 'length', 'out-of-range'],
    ['', 'length', 'bad-quantity'],
    ['   ', 'length', 'bad-quantity'],
    ['ft', 'length', 'bad-quantity'],
    ['1,5 m', 'length', 'bad-quantity'],
    ['1,32 ft', 'length', 'bad-quantity'],
    ['1,3200 ft', 'length', 'bad-quantity'],
    ['1.2.3 ft', 'length', 'bad-quantity'],
    ['5 in 6 ft', 'length', 'bad-quantity'],
    ['5 ft -6 in', 'length', 'bad-quantity'],
    ['5 ft 14 in', 'length', 'bad-quantity'],
    ['-5 ft', 'length', 'out-of-range'],
    ['1e9 mi', 'length', 'out-of-range'],
    ['5 kV', 'length', 'wrong-unit'],
    ['5 ft', 'voltage', 'wrong-unit'],
    ['5 parsnips', 'length', 'wrong-unit'],
    ['2 ohm/m', 'resistivity', 'wrong-unit'],
    ['12 ga', 'length', 'wrong-unit'],
    ['1 m^2', 'length', 'wrong-unit'],
    [null, 'length', 'bad-quantity'],
    [undefined, 'length', 'bad-quantity'],
    [true, 'length', 'bad-quantity'],
    [['5 ft'], 'length', 'bad-quantity'],
    ['x'.repeat(100_000), 'length', 'bad-quantity'],
    [`${'1'.repeat(100_000)} ft`, 'length', 'bad-quantity'],
    ['constructor', 'length', 'bad-quantity'],
    ['5 constructor', 'length', 'wrong-unit'],
    ['5 __proto__', 'length', 'wrong-unit'],
    ['process.exit(1)', 'length', 'bad-quantity'],
    ['5 (ft)(', 'length', 'wrong-unit'],
  ];
  it.each(bad)('%j as %s', (value, kind, code) => {
    const read = readQuantity(value, kind);
    expect(read).toMatchObject({ ok: false, fault: { code } });
    if (!read.ok) expect(read.fault.expected).not.toBe('');
  });

  it('shows how to write a bare number', () => {
    const read = readQuantity(1320, 'length');
    expect(read).toMatchObject({ fault: { found: '1320', hint: 'Write the unit: 1320 ft or 1320 m.' } });
  });

  it('says bounds in the unit that was written', () => {
    expect(readQuantity('-5 ft', 'length')).toMatchObject({ fault: { expected: 'a length of at least 0 ft' } });
    expect(readQuantity('20 ft', 'length', { most: 3.048 })).toMatchObject({
      fault: { expected: 'a length of at most 10 ft' },
    });
    expect(readQuantity('0 m', 'length', { above: 0 })).toMatchObject({ fault: { expected: 'a length above 0 m' } });
  });
});

describe('ranges', () => {
  const twenty = { low: 10_000, typical: 20_000, high: 40_000 };
  it.each([
    '20 kohm (10 to 40)',
    '20 kΩ (10–40)',
    '20 kΩ (10 - 40)',
    '20 (10 to 40) kΩ',
    '20 kΩ (10 kΩ to 0.04 MΩ)',
    '20 kΩ (10..40)',
  ])('%s', (text) => {
    expect(readRanged(text, 'resistance')).toEqual({ ok: true, value: twenty });
  });

  it('reads a map of three quantities', () => {
    const value = { low: '10 kohm', typical: '20 kohm', high: '40 kohm' };
    expect(readRanged(value, 'resistance')).toEqual({ ok: true, value: twenty });
  });

  it('gives a single value no width', () => {
    expect(readRanged('2 ohm', 'resistance')).toEqual({ ok: true, value: { low: 2, typical: 2, high: 2 } });
  });

  it.each([
    '20 kohm (40 to 10)',
    '20 kohm (25 to 40)',
    '20 kohm (10)',
    '20 (10 to 40)',
    '20 kohm (10 to 40',
    '(10 to 40) kohm',
  ])('refuses %s', (text) => {
    expect(readRanged(text, 'resistance').ok).toBe(false);
  });
});

describe('shares', () => {
  it.each([
    ['15 %', 0.15],
    ['15%', 0.15],
    ['0.15', 0.15],
    [0.15, 0.15],
    [0, 0],
    ['100 %', 1],
  ])('%s', (value, share) => {
    expect(readShare(value)).toEqual({ ok: true, value: share });
  });
  it.each([15, '15', '150 %', -0.1, 'much', Number.NaN, null, {}])('refuses %j', (value) => {
    expect(readShare(value).ok).toBe(false);
  });
});
