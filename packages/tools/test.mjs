// `npm test`: sets the workspace up, then runs every test; further arguments go to vitest.
import { programOf, run, setUp } from './setup.mjs';

await setUp();
run(programOf('vitest'), ['run', '--config', 'tests/vitest.config.ts', ...process.argv.slice(2)]);
