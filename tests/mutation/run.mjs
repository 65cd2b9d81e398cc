// `pnpm mutation ROOM`: changes a room's code in every small way that its own tests ought to notice, and counts what
// they miss. A change takes some two seconds of one core; no part of CI. `--share 0.1` takes a tenth of the code, the
// same tenth every time. Further arguments go to Stryker, e.g. `pnpm mutation plan --mutate packages/core/src/plan/ties.ts`.
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { root, run, setUp } from '../../packages/tools/setup.mjs';
import { rooms } from './rooms.mjs';

const [room = '', ...rest] = process.argv.slice(2);
if (!Object.hasOwn(rooms, room)) {
  console.error(`Name a room: ${Object.keys(rooms).join(', ')}.`);
  process.exit(2);
}
await setUp();
const shareAt = rest.indexOf('--share');
const share = shareAt < 0 ? 1 : Number(rest.splice(shareAt, 2)[1]);
const asked = rest.includes('--mutate')
  ? rest
  : ['--mutate', share < 1 ? sample(rooms[room].code) : `${rooms[room].code}/**/*.ts`, ...rest];
const manifest = createRequire(import.meta.url).resolve('@stryker-mutator/core/package.json', { paths: [root] });
run(join(dirname(manifest), 'bin', 'stryker.js'), ['run', 'tests/mutation/stryker.config.json', ...asked], {
  env: { ...process.env, POSTVOLT_ROOM: room },
});

/** Stretches of twelve lines, spread evenly over all of a folder's code, as Stryker's `file:from-to`. */
function sample(folder) {
  const length = 12;
  const stretches = readdirSync(join(root, folder), { recursive: true })
    .filter((file) => file.endsWith('.ts'))
    .sort()
    .flatMap((file) => {
      const lines = readFileSync(join(root, folder, file), 'utf8').split('\n').length;
      return Array.from({ length: Math.ceil(lines / length) }, (_, n) => {
        const last = Math.min(lines, (n + 1) * length);
        return `${folder}/${file}:${n * length + 1}-${last}`;
      });
    });
  return stretches.filter((_, n) => Math.floor((n + 1) * share) > Math.floor(n * share)).join(',');
}
