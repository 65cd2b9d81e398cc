// Builds every package: type declarations with tsc, one bundle per entry with rolldown.
// A package's entries are the targets of its `exports`; its dependencies stay outside, devDependencies are inlined.
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { root, run } from './setup.mjs';

/** In the order in which they depend on each other. */
export const packages = ['tables', 'core', 'scenarios', 'report', 'cli'];

const manifest = (dir) => JSON.parse(readFileSync(join(dir, 'package.json'), 'utf8'));

function filesBelow(dir) {
  return readdirSync(dir, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

function stampOf() {
  const hash = createHash('sha256');
  const files = packages.flatMap((name) => {
    const dir = join(root, 'packages', name);
    return [join(dir, 'package.json'), join(dir, 'tsconfig.json'), ...filesBelow(join(dir, 'src'))];
  });
  for (const file of [
    ...files,
    join(root, 'tsconfig.base.json'),
    join(root, 'pnpm-lock.yaml'),
    join(root, 'packages/tools/build.mjs'),
  ]) {
    hash.update(file).update('\0').update(readFileSync(file));
  }
  return hash.digest('hex');
}

/** `{ './yaml': 'dist/yaml.js' }` as `{ yaml: '<package>/src/yaml.ts' }`. */
function entriesOf(dir, pkg) {
  const targets = [
    ...Object.values(pkg.exports).map((target) => target.default ?? target),
    ...Object.values(pkg.bin ?? {}),
  ].filter((target) => target.endsWith('.js'));
  return Object.fromEntries(
    [...new Set(targets)].map((target) => {
      const name = target.replace(/^(\.\/)?dist\//, '').replace(/\.js$/, '');
      return [name, join(dir, 'src', `${name}.ts`)];
    }),
  );
}

async function bundle(name) {
  const { rolldown } = await import('rolldown');
  const dir = join(root, 'packages', name);
  const pkg = manifest(dir);
  const outside = new Set([...Object.keys(pkg.dependencies ?? {}), ...Object.keys(pkg.peerDependencies ?? {})]);
  const input = entriesOf(dir, pkg);
  const build = await rolldown({
    input,
    cwd: dir,
    platform: name === 'cli' ? 'node' : 'neutral',
    resolve: { mainFields: ['module', 'main'] },
    external: (id) =>
      id.startsWith('node:') ||
      outside.has(
        id
          .split('/')
          .slice(0, id.startsWith('@') ? 2 : 1)
          .join('/'),
      ),
    treeshake: {
      moduleSideEffects: (id) =>
        !/mathjs|decimal|complex|fraction|seedrandom|typed-function|javascript-natural-sort|escape-latex|tiny-emitter/.test(
          id,
        ),
    },
    onLog(level, log, next) {
      if (level === 'warn') throw new Error(`${name}: ${log.message}`);
      next(level, log);
    },
  });
  await build.write({
    dir: join(dir, 'dist'),
    format: 'esm',
    entryFileNames: '[name].js',
    chunkFileNames: 'shared/[name]-[hash].js',
    comments: { legal: true },
  });
  await build.close();
}

export async function build() {
  const stampFile = join(root, 'node_modules', '.postvolt-built');
  const stamp = stampOf();
  const complete = packages.every((name) => existsSync(join(root, 'packages', name, 'dist')));
  if (complete && existsSync(stampFile) && readFileSync(stampFile, 'utf8') === stamp) return;
  console.log('Building the packages ...');
  const tsc = createRequire(import.meta.url).resolve('typescript/bin/tsc', { paths: [root] });
  run(process.execPath, [tsc, '-b', 'packages']);
  for (const name of packages) {
    rmSync(join(root, 'packages', name, 'dist', 'shared'), { recursive: true, force: true });
    await bundle(name);
  }
  writeFileSync(stampFile, stamp);
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) await build();
