import { defineConfig, mergeConfig } from 'vitest/config';
import tests from '../vitest.config.js';

const { test: _, ...shared } = tests as Record<string, unknown>;

/** Long scorings, run by hand: `npx vitest run --config tests/scoring/vitest.config.ts`. */
export default mergeConfig(defineConfig(shared), defineConfig({ test: { include: ['tests/scoring/*.score.ts'] } }));
