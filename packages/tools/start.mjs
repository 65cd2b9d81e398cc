// `npm start`: sets the workspace up, then solves the demo farm through the built command line.
// Whatever it writes goes into out/, which git ignores.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { root, setUp, status } from './setup.mjs';

/** Exit code of `postvolt solve` where the target falls short: an answer, not a failure. */
const fallsShort = 3;

await setUp();
const { scenario } = await import('../scenarios/dist/index.js');
const out = join(root, 'out');
mkdirSync(out, { recursive: true });
const file = (name) => relative(process.cwd(), join(out, name)) || name;

writeFileSync(join(out, 'demo-farm.yaml'), scenario('demo farm').plan);

const postvolt = join(root, 'packages', 'cli', 'bin', 'postvolt.js');
ask('solve');
console.log('');
// Says the verdict once more, below the long answer, and every post goes into a table and onto a page.
ask('solve', '--csv', '--output', file('demo-farm.csv'));
const written = status(postvolt, ['report', file('demo-farm.yaml'), '--output', file('demo-farm.html')], {
  cwd: process.cwd(),
  stdio: ['inherit', 'ignore', 'inherit'],
});
if (written !== 0) process.exit(written);
console.log(`
The plan is in ${file('demo-farm.yaml')}, written anew each time. Copy it, change the copy, and ask again:

  npx postvolt solve my-farm.yaml

The report, a page to read and to print, is in ${file('demo-farm.html')}`);

function ask(command, ...words) {
  const code = status(postvolt, [command, file('demo-farm.yaml'), ...words], { cwd: process.cwd() });
  if (code !== 0 && code !== fallsShort) process.exit(code);
}
