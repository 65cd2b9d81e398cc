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

const plan = join(out, 'demo-farm.yaml');
writeFileSync(plan, scenario('demo farm').plan);

const postvolt = join(root, 'packages', 'cli', 'bin', 'postvolt.js');
solve([]);
solve(['--csv', '--output', join(out, 'demo-farm.csv')], 'ignore');
console.log(`
The plan: ${file('demo-farm.yaml')}. Every post in every condition: ${file('demo-farm.csv')}.
Change the plan and ask again:  npx postvolt solve ${file('demo-farm.yaml')}`);

function solve(words, stdout = 'inherit') {
  const code = status(postvolt, ['solve', plan, ...words], {
    stdio: ['ignore', stdout, 'inherit'],
    cwd: process.cwd(),
  });
  if (code !== 0 && code !== fallsShort) process.exit(code);
}
