import { renderReport } from '@postvolt/report';
import { standardTables } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { escapeText } from '../../packages/report/src/markup/escape.js';
import { demoFarm, everything, hostile, hostilePlan, long, onePaddock, placed } from './plans.js';

const fences = { onePaddock, demoFarm, everything, placed, hostilePlan, long };

describe.each(Object.entries(fences))('the report of %s', (_name, fence) => {
  const html = renderReport(fence);
  const { result } = fence;

  test('says the answer first, and the sentence of each condition', () => {
    const body = html.slice(html.indexOf('<main>'));
    const verdict = body.indexOf(escapeText(result.sentence));
    expect(verdict).toBeGreaterThan(0);
    expect(verdict).toBeLessThan(body.indexOf('<table'));
    for (const { verdict } of result.conditions) expect(body).toContain(escapeText(verdict.sentence));
  });

  test('holds every caution, marks those that the plan touches, and says who decides', () => {
    for (const { text } of standardTables.cautions) expect(html).toContain(escapeText(text));
    expect(html.split('This plan').length - 1).toBe(result.cautions.length);
    expect(html).toContain('Local codes and a licensed electrician decide');
    expect(html).toContain('long clean fence');
  });

  test('reaches for nothing outside itself', () => {
    expect(html).not.toMatch(/<(link|iframe|object|embed|base|img|audio|video)\b/);
    expect(html).not.toMatch(/@import|url\(/);
    const addresses = [...html.matchAll(/(?:src|href|action)="([^"]*)"/g)].map(([, address]) => address!);
    for (const address of addresses) expect(address).toMatch(/^#/);
    expect(html.match(/<script/g)!.length).toBe(1);
    expect(html).toContain("default-src 'none'");
  });

  test('has ids once each, and every link on the page leads to one', () => {
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id!);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, id] of html.matchAll(/href="#([^"]*)"/g)) expect(ids).toContain(id);
    for (const [, both] of html.matchAll(/aria-labelledby="([^"]*)"/g))
      for (const id of both!.split(' ')) expect(ids).toContain(id);
  });

  test('has tables with captions and heads with scope', () => {
    const tables = html.match(/<table[\s\S]*?<\/table>/g)!;
    expect(tables.length).toBeGreaterThan(4 * result.conditions.length);
    for (const table of tables) {
      expect(table).toMatch(/<caption>[^<]+<\/caption>/);
      expect(table).not.toMatch(/<th\b(?![^>]* scope="(col|row)")/);
      for (const row of table.match(/<tbody>[\s\S]*<\/tbody>/)![0].match(/<tr[\s\S]*?<\/tr>/g)!)
        expect(row.match(/<th /g)!.length).toBe(1);
    }
  });

  test('shows no figure that is no number', () => {
    expect(html.replace(/<script[\s\S]*<\/script>/, '')).not.toMatch(/\b(NaN|undefined|Infinity)\b/);
  });
});

describe('what a study adds', () => {
  const html = renderReport({
    ...onePaddock,
    extras: [
      {
        title: hostile[0],
        lead: hostile[1],
        figures: [{ caption: hostile[2], draw: ({ id }) => `<svg id="${id}"></svg>` }],
        tables: [
          {
            caption: hostile[0],
            columns: [{ head: hostile[1] }, { head: 'kV', numeric: true }],
            rows: [[hostile[2], '3']],
          },
        ],
      },
    ],
    planWarnings: [
      {
        code: 'x',
        severity: 'warning',
        path: ['runs', hostile[0]],
        found: hostile[1],
        expected: 'y',
        hint: hostile[2],
        at: null,
      },
    ],
    made: hostile[0],
  });

  test('stands in the page with its own heading, figures and tables, escaped', () => {
    expect(html).toContain('<h2 id="study-0">');
    expect(html).toContain('<svg id="study-0-figure-0-wide"></svg>');
    expect(html).toContain('<svg id="study-0-figure-0-narrow"></svg>');
    for (const text of hostile.slice(0, 3)) {
      expect(html).not.toContain(text.includes('<') ? text : '\u0000');
      expect(html).toContain(escapeText(text));
    }
    expect(html.match(/<script/g)!.length).toBe(1);
  });
});

test('thousands of posts stay a page that a phone can load', () => {
  // A megabyte a condition and the figures over them all (an aim of ours, no source).
  expect(renderReport(long).length).toBeLessThan(1e6);
  expect(renderReport(demoFarm).length).toBeLessThan(1.2e6);
});
