// `npm test`: sets the workspace up, then runs every test; further arguments go to vitest.
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { root, run, setUp } from './setup.mjs';

await setUp();
const vitest = join(
  createRequire(import.meta.url).resolve('vitest/package.json', { paths: [root] }),
  '..',
  'vitest.mjs',
);
run(process.execPath, [vitest, 'run', '--config', 'tests/vitest.config.ts', ...process.argv.slice(2)]);
