// `npm run accuracy`: runs the checks against the outside and writes docs/accuracy.md from what they measured.
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { programOf, root, setUp, status } from './setup.mjs';

await setUp();

const records = join(root, 'out', 'accuracy');

rmSync(records, { recursive: true, force: true });
mkdirSync(records, { recursive: true });
const code = status(programOf('vitest'), ['run', '--config', 'tests/vitest.config.ts', 'tests/against-'], {
  env: { ...process.env, POSTVOLT_ACCURACY: 'write', POSTVOLT_TESTS: 'long' },
});
if (code !== 0) {
  console.error('docs/accuracy.md was left as it was: a check failed.');
  process.exit(1);
}

/** A table cell of Markdown. */
const cell = (text) => text.replaceAll('|', '\\|').replace(/\s+/g, ' ').trim();
const row = (cells) => `| ${cells.map(cell).join(' | ')} |`;
const table = (heads, rows) => [row(heads), `|${heads.map(() => '---').join('|')}|`, ...rows.map(row)].join('\n');
const anchor = (title) =>
  title
    .toLowerCase()
    .replace(/[^\p{L}\p{N} _-]/gu, '')
    .replaceAll(' ', '-');

const sources = readdirSync(records)
  .sort()
  .map((file) => JSON.parse(readFileSync(join(records, file), 'utf8')));
const count = sources.reduce((sum, { rows }) => sum + rows.length, 0);

const parts = [
  `# Accuracy

<!-- Written by npm run accuracy from a run of tests/against-*; do not edit. -->

What is proven, and what is not. The checks below hold Postvolt's numbers against things outside it: published formulas and
tables, standards, another circuit simulator, and arithmetic done a second way. They prove that a plan's network is solved
as the laws of circuits say, and that the formulas for wire, rods and feet are those of their sources, evaluated rightly.
They do not prove that a pulse on a real fence behaves like the resistive network (line capacitance is left out, which
makes long clean fences read high here), nor that the table's leaks by growth and dirty insulators are those of your fence:
such values are estimates, carry their ranges, and are best fitted to readings taken on the spot. Rules of thumb are
compared as plausibility only. Nothing here replaces a meter.

Every tolerance was fixed, with its reason, before the comparison was run; where one was not, its reason says so. "From
memory" means that the printed text did not lie open when the number was written down.`,
  `${count} checks against ${sources.length} sources:\n\n${table(
    ['Source', 'Checks', 'Their values'],
    sources.map(({ title, origin, rows }) => [`[${title}](#${anchor(title)})`, String(rows.length), origin]),
  )}`,
  ...sources.map(
    ({ title, about, basis, rows }) =>
      `## ${title}\n\n${cell(about)} ${basis}\n\n${table(
        ['What', 'Theirs', 'Ours', 'Difference', 'Tolerance', 'Why that tolerance'],
        rows.map(({ quantity, theirs, ours, difference, tolerance, reason }) => [
          ...[quantity, theirs, ours],
          ...[difference, tolerance, reason],
        ]),
      )}`,
  ),
];
writeFileSync(join(root, 'docs', 'accuracy.md'), `${parts.join('\n\n')}\n`);
console.log(`docs/accuracy.md: ${count} checks against ${sources.length} sources.`);
