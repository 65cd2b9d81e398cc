import { readFileSync } from 'node:fs';
import { documentSchema, rangeFigures } from '@postvolt/core';
import { scenarios } from '@postvolt/scenarios';
import * as tables from '@postvolt/tables';
import { describe, expect, test } from 'vitest';

const load = async (name: string) => import(new URL(`../../packages/tools/pages/${name}.mjs`, import.meta.url).href);
const { planFormatPage } = (await load('plan-format')) as {
  planFormatPage: (input: { schema: Record<string, unknown>; plans: readonly string[] }) => string;
};
const { tablesPage } = (await load('tables')) as { tablesPage: (input: Record<string, unknown>) => string };

const schema = documentSchema('plan');
const pages: Readonly<Record<string, string>> = {
  'plan-format.md': planFormatPage({ schema, plans: scenarios.map(({ plan }) => plan) }),
  'tables.md': tablesPage({ tables, rangeFigures }),
};
const committed = (name: string) => readFileSync(new URL(`../../docs/${name}`, import.meta.url), 'utf8');

describe.each(Object.keys(pages))('docs/%s', (name) => {
  test('is what the sources say today; npm run docs:pages writes it anew', () => {
    expect(committed(name) === pages[name]).toBe(true);
  });
  test('points at headings that exist', () => {
    const headings = (page: string) =>
      new Set(
        [...page.matchAll(/^#+ (.+)$/gm)].map((match) =>
          match[1]!
            .toLowerCase()
            .replace(/[^\p{L}\p{N} _-]/gu, '')
            .replaceAll(' ', '-'),
        ),
      );
    const dead = [...pages[name]!.matchAll(/\]\(([\w-]+\.md)?#([^)]+)\)/g)].filter(
      ([, file, anchor]) => !headings(pages[file ?? name] ?? '').has(anchor!),
    );
    expect(dead.map(([link]) => link)).toEqual([]);
  });
});

/** Every field of a schema, however deep. */
function fieldsOf(value: unknown): { name: string; description: string | undefined }[] {
  if (Array.isArray(value)) return value.flatMap(fieldsOf);
  if (typeof value !== 'object' || value === null) return [];
  const { properties, ...rest } = value as Record<string, unknown>;
  const entries = Object.entries((properties ?? {}) as Record<string, { description?: string }>);
  // The three values of a range are told once, at the head of the page.
  const own = entries
    .filter(([name]) => !(['low', 'typical', 'high'].includes(name) && entries.length === 3))
    .map(([name, { description }]) => ({ name, description }));
  return [...own, ...entries.flatMap(([, field]) => fieldsOf(field)), ...fieldsOf(Object.values(rest))];
}

test('every field of the plan is on the page, in words', () => {
  const fields = fieldsOf(schema);
  expect(fields.length).toBeGreaterThan(150);
  const page = pages['plan-format.md']!;
  expect(fields.filter(({ name }) => !page.includes(`| \`${name}\``)).map(({ name }) => name)).toEqual([]);
  expect(fields.filter(({ description }) => !description).map(({ name }) => name)).toEqual([]);
});

test('every row and every source of the tables is on the page', () => {
  const page = pages['tables.md']!;
  const cells = [...tables.cellsOf(tables.standardTables)].map(([, cell]) => cell);
  expect(cells.length).toBeGreaterThan(300);
  expect(cells.filter(({ source }) => !page.includes(`. ${source}\n`)).map(({ source }) => source)).toEqual([]);
  const ids = Object.values(tables.standardTables).flatMap((rows) =>
    Array.isArray(rows) ? rows.map(({ id }: { id: string }) => id) : [],
  );
  const named = new Set([...page.matchAll(/^### (.+)$/gm)].map((match) => match[1]!.toLowerCase()));
  expect(ids.filter((id) => !named.has(id.toLowerCase()))).toEqual([]);
});
