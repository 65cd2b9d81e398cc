import { defineConfig } from 'vitest/config';
import ordinary from '../vitest.config.js';

// The engine's own tests with a fifth of the random networks; without the slow ones that cover nothing that these do not.
export default defineConfig({
  ...ordinary,
  test: {
    ...ordinary.test,
    include: ['tests/engine/*.test.ts'],
    exclude: ['tests/engine/{guide,million,peers}.test.ts'],
    env: { POSTVOLT_SHARE_OF_RUNS: '0.2' },
  },
});
