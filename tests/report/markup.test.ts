import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cutText, textWidth, wrapText } from '../../packages/report/src/look/text-width.js';
import { decimals, el } from '../../packages/report/src/markup/element.js';
import { parseXml } from './parse-xml.js';

/** What XML 1.0 can carry of a text (its production Char), without the marks that turn text round. */
const carried = (text: string) =>
  Array.from(text, (symbol) => {
    const code = symbol.codePointAt(0)!;
    const legal =
      code === 9 ||
      code === 10 ||
      code === 13 ||
      (code >= 32 && code < 0xd800) ||
      (code > 0xdfff && code < 0xfffe) ||
      code > 0xffff;
    if ((code >= 0x202a && code <= 0x202e) || (code >= 0x2066 && code <= 0x2069)) return '';
    return legal ? symbol : '\ufffd';
  }).join('');

/** The same cases in every run, whatever other files set. */
const seed = 20_261_126;

const anyText = fc.string({ unit: 'binary' });

describe('markup', () => {
  test('any text comes back from an XML parser as it went in, in an element and in an attribute', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        const { attributes, text: inner } = parseXml(el('t', { a: text }, text).text);
        expect(attributes['a']).toBe(carried(text));
        // A parser reads the ends of lines in text as one line feed (XML 1.0, 2.11).
        expect(inner).toBe(carried(text).replace(/\r\n?/g, '\n'));
      }),
      { seed, numRuns: 2000 },
    );
  });

  test('hostile text stays text', () => {
    expect(el('p', { title: '"><script>' }, '</p><script>alert(1)</script>').text).toBe(
      '<p title="&quot;&gt;&lt;script&gt;">&lt;/p&gt;&lt;script&gt;alert(1)&lt;/script&gt;</p>',
    );
  });

  test('coordinates keep two decimals and are numbers', () => {
    expect([1 / 3, -0.001, 12, 1e-9].map(decimals)).toEqual(['0.33', '0', '12', '0']);
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY]) expect(() => decimals(value)).toThrow(/coordinate/);
  });
});

describe('text in figures', () => {
  test('is never wider than it may be, and whole where it fits', () => {
    fc.assert(
      fc.property(anyText, fc.integer({ min: 30, max: 400 }), (text, width) => {
        const line = text.replace(/\s+/gu, ' ').trim();
        const cut = cutText(text, width, 12);
        if (textWidth(line, 12) <= width) expect(cut).toBe(line);
        else expect(textWidth(cut, 12)).toBeLessThanOrEqual(width);
        const lines = wrapText(text, width, 12, 2);
        expect(lines.length).toBeLessThanOrEqual(2);
        for (const part of lines) expect(textWidth(part, 12)).toBeLessThanOrEqual(width);
      }),
      { seed, numRuns: 100 },
    );
  });
});
