import { defineConfig, mergeConfig } from 'vitest/config';
import ordinary from '../vitest.config.js';

// The engine's own tests with a fifth of the random networks; without the slow ones that cover nothing that these do not.
export default mergeConfig(
  ordinary,
  defineConfig({
    test: {
      exclude: ['tests/engine/million.test.ts', 'tests/engine/peers.test.ts'],
      env: { POSTVOLT_SHARE_OF_RUNS: '0.2' },
    },
  }),
);
