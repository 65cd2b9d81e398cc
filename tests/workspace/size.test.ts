// What a page loads, measured on the built packages.
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';

interface Size {
  readonly name: string;
  readonly most: number | null;
  readonly minified: number;
  readonly gzipped: number;
}
const { measureAll } = (await import(new URL('../../packages/tools/size.mjs', import.meta.url).href)) as {
  measureAll: () => Promise<Size[]>;
};
const sizes = await measureAll();
const page = readFileSync(new URL('../../docs/size.md', import.meta.url), 'utf8');

test('core with the tables, and the engine, have a ceiling', () => {
  const held = sizes.filter(({ most }) => most !== null).map(({ name }) => name);
  expect(held).toEqual(['core and tables', 'engine alone']);
});

test.each(sizes)('$name stays under its ceiling and near what docs/size.md says', ({ name, most, gzipped }) => {
  // Nothing at all would be under any ceiling.
  expect(gzipped).toBeGreaterThan(1000);
  if (most !== null) expect(gzipped).toBeLessThan(most);
  const said = page.split('\n').find((line) => line.startsWith(`| ${name} |`));
  const kB = Number(/\| ([\d.]+) kB \|[^|]*\|$/.exec(said ?? '')?.[1]);
  // A tenth: small changes need not write the page anew, and a page further off would mislead.
  expect(Math.abs(gzipped / 1000 / kB - 1)).toBeLessThan(0.1);
});
