// `pnpm mutation`: changes the engine's code in every small way that the tests ought to notice, and counts what they miss.
// Takes an hour and a half on two cores; no part of CI. Further arguments go to Stryker, e.g. `--mutate packages/core/src/engine/mesh.ts`.
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { root, run, setUp } from '../../packages/tools/setup.mjs';

await setUp();
const manifest = createRequire(import.meta.url).resolve('@stryker-mutator/core/package.json', { paths: [root] });
run(process.execPath, [
  join(dirname(manifest), 'bin', 'stryker.js'),
  'run',
  'tests/mutation/stryker.config.json',
  ...process.argv.slice(2),
]);
