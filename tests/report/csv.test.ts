import { toCsv } from '@postvolt/report';
import { csvLines } from '@postvolt/report/text';
import papaparse from 'papaparse';
import { describe, expect, test } from 'vitest';
import { everything, hostile, hostilePlan } from './plans.js';

// RFC 4180, read back by an independent parser.
const read = (text: string) => papaparse.parse<string[]>(text, { delimiter: ',', newline: '\r\n' });

describe('CSV', () => {
  test('is a head and a record for every strand, post and condition, all as long as the head', () => {
    const text = toCsv(everything.result);
    const { data, errors } = read(text);
    expect(errors).toEqual([]);
    const [heads, ...records] = data.slice(0, -1);
    // The last line ends in CRLF too, which the parser reads as an empty record.
    expect(data.at(-1)).toEqual(['']);
    const strands = everything.result.conditions.flatMap(({ posts }) => posts.flatMap((post) => post.strands));
    expect(records.length).toBe(strands.length);
    expect(new Set(records.map((record) => record.length))).toEqual(new Set([heads!.length]));
    strands.forEach((strand, i) => {
      const record = Object.fromEntries(heads!.map((head, column) => [head, records[i]![column]!]));
      expect(record).toMatchObject({
        run: strand.run,
        postNumber: String(strand.post),
        strand: strand.strand,
        node: strand.node,
      });
      // Five figures are written, negative ones as numbers.
      expect(Number(record['voltsToEarth'])).toBe(Number(strand.voltsToEarth.toPrecision(5)));
      expect(Number(record['leakAmps'])).toBe(Number(strand.leakAmps.toPrecision(5)));
      expect(record['spanAmps']).toBe(strand.spanAmps === null ? '' : String(Number(strand.spanAmps.toPrecision(5))));
    });
    expect(records.some((record) => record.some((field) => /^-\d/.test(field)))).toBe(true);
  });

  test('quotes and doubles what has to be, and leads formulas with an apostrophe', () => {
    const { data, errors } = read(toCsv(hostilePlan.result));
    expect(errors).toEqual([]);
    const fields = new Set(data.flat());
    expect(fields).toContain(hostile[1]);
    expect(fields).toContain(hostile[2]);
    expect(fields).toContain(`'${hostile[3]}`);
    // What spreadsheets take for a formula (OWASP, CSV Injection): a first = + - @, tab or return.
    for (const field of fields) if (Number.isNaN(Number(field))) expect(field).not.toMatch(/^[=+\-@\t\r]/);
  });

  test('comes in lines for fences too long for one text', () => {
    const lines = [...csvLines(everything.result)];
    expect(lines.every((line) => line.endsWith('\r\n'))).toBe(true);
    expect(lines.join('')).toBe(toCsv(everything.result));
  });
});
