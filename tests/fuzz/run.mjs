// `npm run fuzz [RUNS] [SEED]`: the fuzz tests at a million runs, or as many as asked.
import { programOf, run, setUp } from '../../packages/tools/setup.mjs';

const [runs = '1000000', seed = String(Date.now() % 2 ** 31)] = process.argv.slice(2);
await setUp();
console.log(`${runs} runs, seed ${seed}`);
run(programOf('vitest'), ['run', '--config', 'tests/vitest.config.ts', 'tests/fuzz'], {
  env: { ...process.env, FUZZ_RUNS: runs, FUZZ_SEED: seed },
});
