import { readFileSync } from 'node:fs';
import { climates, weathers } from '@postvolt/tables';
import { expect, test } from 'vitest';

const page = readFileSync(new URL('../../docs/studies/months.md', import.meta.url), 'utf8');

test('the page on the months lists the weathers and climates as the tables have them', () => {
  const rows = [
    ...weathers.map(({ id, soil, film, groundCover }) => `| ${id} | ${soil} | ${film} | ${groundCover} |`),
    ...climates.map(({ id, koppen, about }) => `| ${id} | ${koppen} | ${about} |`),
  ];
  expect(rows.filter((row) => !page.includes(row))).toEqual([]);
});
