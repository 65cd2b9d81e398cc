import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vitest/config';
import { isLong } from './support/length.js';

const root = fileURLToPath(new URL('..', import.meta.url));
const source = (path: string) => fileURLToPath(new URL(`../packages/${path}`, import.meta.url));

/** Plans are imported as their text, here as in the bundles. */
const yamlAsText: Plugin = {
  name: 'yaml-as-text',
  transform: (code, id) => (id.endsWith('.yaml') ? `export default ${JSON.stringify(code)};` : null),
};

export default defineConfig({
  root,
  plugins: [yamlAsText],
  test: {
    include: ['tests/**/*.test.ts'],
    // Packing and installing the packages takes as long as all the rest of its kind: in the long form only.
    exclude: isLong ? [] : ['tests/packaging/installed.test.ts'],
    // A snapshot that is missing is a failure, not an occasion to write it; `-u` writes.
    update: 'none',
    // Test files share the modules that they load; a worker a core.
    isolate: false,
    maxWorkers: '100%',
    testTimeout: 60_000,
    hookTimeout: 60_000,
    setupFiles: ['tests/silent-console.ts'],
  },
  resolve: {
    // Tests read the sources; packaging tests import the built files by path.
    alias: [
      { find: /^@postvolt\/(tables|core|scenarios|report)$/, replacement: source('$1/src/index.ts') },
      { find: /^@postvolt\/(tables|core|scenarios|report)\/([a-z-]+)$/, replacement: source('$1/src/$2.ts') },
    ],
  },
});
