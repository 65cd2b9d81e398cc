// `npm run size`: bundles what a page would load, minified and gzipped, and writes docs/size.md.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { isProgram, root, setUp } from './setup.mjs';

/** What is bundled: a name, the lines that import it, and its ceiling in bytes gzipped; null where none is set. */
export const bundles = [
  {
    name: 'core and tables',
    lines: ["export * as core from '@postvolt/core'", "export * as tables from '@postvolt/tables'"],
    most: 150_000,
  },
  {
    name: 'core, tables and every study',
    lines: [
      "export * as core from '@postvolt/core'",
      "export * as tables from '@postvolt/tables'",
      "export * as studies from '@postvolt/core/studies'",
    ],
    most: null,
  },
  { name: 'engine alone', lines: ["export * from '@postvolt/core/engine'"], most: 20_000 },
  { name: 'tables alone', lines: ["export * from '@postvolt/tables'"], most: null },
  {
    name: 'one solve: parsePlan and solvePlan',
    lines: ["export { parsePlan, solvePlan } from '@postvolt/core'"],
    most: null,
  },
  {
    name: 'solve a plan of YAML and draw the report',
    lines: [
      "export { solvePlan } from '@postvolt/core'",
      "export { readPlanText } from '@postvolt/core/yaml'",
      "export { renderReport } from '@postvolt/report'",
    ],
    most: null,
  },
];

/** The one file that a page loads for these lines, minified; from the built packages. */
export async function bundleOf(lines) {
  // Imported only now: the script may be what installs it.
  const { rolldown } = await import('rolldown');
  const entry = join(root, 'page-entry.js');
  const build = await rolldown({
    input: entry,
    cwd: root,
    platform: 'browser',
    plugins: [
      {
        name: 'entry',
        resolveId: (id) => (id === entry ? id : null),
        load: (id) => (id === entry ? lines.join('\n') : null),
      },
    ],
    onLog(level, log, next) {
      if (level === 'warn') throw new Error(log.message);
      next(level, log);
    },
  });
  const { output } = await build.generate({ format: 'esm', minify: true, codeSplitting: false });
  await build.close();
  return output[0].code;
}

/** `{ name, most, minified, gzipped }` of every bundle, in bytes. */
export async function measureAll() {
  const sizes = [];
  for (const { name, lines, most } of bundles) {
    const code = await bundleOf(lines);
    sizes.push({ name, most, minified: Buffer.byteLength(code), gzipped: gzipSync(code, { level: 9 }).length });
  }
  return sizes;
}

const kB = (bytes) => `${(bytes / 1000).toFixed(bytes < 100_000 ? 1 : 0)} kB`;

/** Markdown of the page. */
export const sizePage = (sizes) => `# Size

<!-- Written by npm run size from the built packages; do not edit. -->

What a page loads, bundled by rolldown into one file, minified, and gzipped as servers send it; everything below it (zod, the
unit reader, linear algebra) included. 1 kB is 1000 bytes. A test holds the ceilings.

| bundle | minified | gzipped | ceiling |
|---|---:|---:|---:|
${sizes.map(({ name, minified, gzipped, most }) => `| ${name} | ${kB(minified)} | ${kB(gzipped)} | ${most === null ? '' : kB(most)} |`).join('\n')}

YAML stands in an entry of its own, \`@postvolt/core/yaml\`, so that pages and programs that write plans as objects or JSON do
not carry its parser. The studies stand in another, \`@postvolt/core/studies\`. The engine, \`@postvolt/core/engine\`, needs nothing else of Postvolt and no other package.
`;

if (isProgram(import.meta.url)) {
  await setUp();
  const page = sizePage(await measureAll());
  writeFileSync(join(root, 'docs', 'size.md'), page);
  console.log(page);
}
