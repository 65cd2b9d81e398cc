// Everything that has to hold before a change is taken in, each part whatever the others say.
// Further arguments name the parts to run: lint types docs packages tests.
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { ensureChromium } from './chromium.mjs';
import { checkPackages } from './packages.mjs';
import { programOf, root, setUp, status } from './setup.mjs';

const report = join(root, 'out', 'check', 'tests.json');

const parts = {
  lint: () => status(programOf('@biomejs/biome', 'biome'), ['check', '--error-on-warnings', '.']),
  types: () => status(programOf('typescript', 'tsc'), ['-b', 'packages', 'tests']),
  docs: () => status(programOf('typedoc'), ['--options', 'docs/typedoc.json']),
  packages: checkPackages,
  tests() {
    rmSync(report, { force: true });
    mkdirSync(join(root, 'out', 'check'), { recursive: true });
    const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
    // Everything at its full length; `npm test` runs the short form.
    const env = { ...process.env, POSTVOLT_TESTS: 'long' };
    return status(programOf('vitest'), ['run', '--config', 'tests/vitest.config.ts', ...reporters], { env });
  },
};

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !Object.hasOwn(parts, name));
if (unknown.length > 0) {
  console.error(`No such part: ${unknown.join(', ')}. The parts are ${Object.keys(parts).join(', ')}.`);
  process.exit(2);
}

await setUp();
const names = asked.length > 0 ? asked : Object.keys(parts);
if (names.includes('tests')) ensureChromium();

const failed = [];
for (const name of names) {
  console.log(`\n--- ${name}`);
  if ((await parts[name]()) !== 0) failed.push(name);
}

// The last line counts tests, and each other part as one.
const others = names.filter((name) => name !== 'tests');
let passes = others.length - failed.filter((name) => name !== 'tests').length;
let failures = others.length - passes;
if (names.includes('tests')) {
  const tests = countTests();
  passes += tests.passed;
  failures += failed.includes('tests') ? Math.max(1, tests.failed) : tests.failed;
}
console.log(failed.length === 0 ? '' : `\nFailed: ${failed.join(', ')}`);
console.log(`${passes} passed, ${failures} failed`);
process.exitCode = failed.length === 0 ? 0 : 1;

function countTests() {
  try {
    const { numPassedTests, numFailedTests } = JSON.parse(readFileSync(report, 'utf8'));
    return { passed: numPassedTests, failed: numFailedTests };
  } catch {
    return { passed: 0, failed: 0 };
  }
}
