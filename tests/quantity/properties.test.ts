import { type KindName, kinds, readQuantity, readRanged, readRangedNumber, readShare } from '@postvolt/core';
import fc from 'fast-check';
import { unit } from 'mathjs';
import { describe, expect, it } from 'vitest';

const kindNames = Object.keys(kinds) as KindName[];
const positive = fc.double({ min: 1e-6, max: 1e6, noNaN: true });
const close = (a: number, b: number) => Math.abs(a - b) <= 1e-12 * Math.abs(b);

describe('readers of quantities', () => {
  // The whole of mathjs, as a user of it would call it, is the peer: our spelling rules must not change a value.
  it('agree with mathjs on every unit that a kind names', () => {
    for (const name of kindNames) {
      const kind = kinds[name];
      for (const spelt of kind.units) {
        fc.assert(
          fc.property(fc.double({ min: 0.01, max: 100, noNaN: true }), (value) => {
            const read = readQuantity(`${value} ${spelt}`, name, { most: Number.POSITIVE_INFINITY });
            expect(read.ok && close(read.value, unit(value, spelt).toNumber(kind.si))).toBe(true);
          }),
          { numRuns: 20 },
        );
      }
    }
  });

  it('read feet and inches as their sum', () => {
    fc.assert(
      fc.property(
        fc.nat(5000),
        fc.nat(11),
        fc.constantFrom([' ft ', ' in'], ["'", '"'], ['′ ', '″'], [' feet, ', ' inches'], ['ft', 'in']),
        (feet, inches, [a, b]) => {
          const read = readQuantity(`${feet}${a}${inches}${b}`.replace(',', ''), 'length');
          expect(read.ok && close(read.value || 1, (feet * 12 + inches) * 0.0254 || 1)).toBe(true);
        },
      ),
    );
  });

  it('take thousands commas and fractions for what they are', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1000, max: 3_000_000 }), (feet) => {
        expect(readQuantity(`${feet.toLocaleString('en-US')} ft`, 'length')).toEqual(
          readQuantity(`${feet} ft`, 'length'),
        );
      }),
    );
    fc.assert(
      fc.property(fc.nat(20), fc.integer({ min: 1, max: 15 }), (whole, sixteenths) => {
        const read = readQuantity(`${whole} ${sixteenths}/16 in`, 'length');
        expect(read.ok && close(read.value, (whole + sixteenths / 16) * 0.0254)).toBe(true);
      }),
    );
  });

  it('keep a range in order, whatever its unit', () => {
    fc.assert(
      fc.property(fc.tuple(positive, positive, positive), (values) => {
        const [low, typical, high] = [...values].sort((a, b) => a - b);
        const read = readRanged(`${typical} kohm (${low} to ${high})`, 'resistance');
        expect(
          read.ok &&
            [read.value.low, read.value.typical, read.value.high].every((v, i) =>
              close(v, [low, typical, high][i]! * 1000),
            ),
        ).toBe(true);
      }),
    );
  });

  it('answer anything at all with a value or a fault, and never throw', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 60 }),
      fc
        .array(
          fc.constantFrom(
            '1',
            '5',
            '.',
            ',',
            ' ',
            '-',
            '−',
            '/',
            '(',
            ')',
            'to',
            'ft',
            'in',
            "'",
            '"',
            '½',
            'Ω',
            'µ',
            'm',
            'k',
            '·',
            '^',
            '*',
            '%',
            'e',
            '°C',
            'ga',
            '\u00a0',
          ),
          { maxLength: 14 },
        )
        .map((parts) => parts.join('')),
    );
    fc.assert(
      fc.property(fc.oneof(text, fc.anything()), fc.constantFrom(...kindNames), (value, kind) => {
        for (const read of [readQuantity(value, kind), readShare(value)]) {
          if (read.ok) expect(Number.isFinite(read.value)).toBe(true);
          else expect(read.fault.expected).not.toBe('');
        }
        for (const read of [readRanged(value, kind), readRangedNumber(value)]) {
          if (read.ok) expect(read.value.low <= read.value.typical && read.value.typical <= read.value.high).toBe(true);
          else expect(read.fault.found.length).toBeLessThan(70);
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('stay within the bounds of the kind', () => {
    fc.assert(
      fc.property(fc.constantFrom(...kindNames), fc.double({ noNaN: true, noDefaultInfinity: true }), (name, value) => {
        const kind = kinds[name];
        const read = readQuantity(`${value} ${kind.units[0]}`, name);
        if (read.ok) {
          expect(read.value).toBeGreaterThanOrEqual(kind.least);
          expect(read.value).toBeLessThanOrEqual(kind.most);
        }
      }),
      { numRuns: 500 },
    );
  });
});
