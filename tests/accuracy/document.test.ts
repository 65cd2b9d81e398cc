import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { root } from '../workspace/files.js';

// Each file of checks sees to its own part of the document; here no part may be left over.
test('docs/accuracy.md has a part for every source of tests/against-*, and no other', () => {
  const files = readdirSync(join(root, 'tests')).filter((name) => /^against-.*\.test\.ts$/.test(name));
  const document = readFileSync(join(root, 'docs', 'accuracy.md'), 'utf8');
  expect(document.match(/^## .+$/gm)).toHaveLength(files.length);
  expect(document).toContain(`against ${files.length} sources`);
});
