// Builds every package: type declarations with tsc, one bundle per entry with rolldown.
// A package's entries are the targets of its `exports`; its dependencies stay outside, devDependencies are inlined.
// The command line inlines everything: most of a short run would go into finding and loading some two hundred files.
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join, relative, sep } from 'node:path';
import { install, isProgram, programOf, readManifest, root, run } from './setup.mjs';

/** In the order in which they depend on each other. */
export const packages = ['tables', 'core', 'scenarios', 'report', 'cli'];

const stampFile = join(root, 'node_modules', '.postvolt-built');
const folderOf = (name) => join(root, 'packages', name);

function filesBelow(folder) {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

function stampOf() {
  const hash = createHash('sha256');
  const files = packages.flatMap((name) => {
    const folder = folderOf(name);
    return [join(folder, 'package.json'), join(folder, 'tsconfig.json'), ...filesBelow(join(folder, 'src'))];
  });
  const shared = ['tsconfig.base.json', 'packages/tsconfig.json', 'pnpm-lock.yaml', 'packages/tools/build.mjs'];
  for (const file of [...files, ...shared.map((name) => join(root, name))])
    hash.update(relative(root, file).replaceAll(sep, '/')).update('\0').update(readFileSync(file)).update('\0');
  return hash.digest('hex');
}

/** `{ './yaml': 'dist/yaml.js' }` as `{ yaml: '<package>/src/yaml.ts' }`; a program's entry is `src/bin.ts`. */
function entriesOf(folder) {
  const targets = Object.values(readManifest(folder).exports ?? {}).map((target) => target.default ?? target);
  const names = targets
    .filter((target) => target.endsWith('.js'))
    .map((target) => target.replace(/^\.\/dist\//, '').replace(/\.js$/, ''));
  if (existsSync(join(folder, 'src', 'bin.ts'))) names.push('bin', 'main');
  return Object.fromEntries([...new Set(names)].map((name) => [name, join(folder, 'src', `${name}.ts`)]));
}

/** `@scope/name` or `name` of an import such as `@scope/name/file.js`. */
const packageOf = (id) =>
  id
    .split('/')
    .slice(0, id.startsWith('@') ? 2 : 1)
    .join('/');

/** Modules of which something is left after what nobody uses was shaken off. */
const inlined = ({ modules }) => Object.keys(modules).filter((id) => modules[id].renderedLength > 0);

/** The licences of what was inlined, as those licences ask. */
function licencesOf(modules) {
  const folders = new Set();
  for (const id of modules) {
    const match = /^(.*[\\/]node_modules[\\/](?:@[^\\/]+[\\/])?[^\\/]+)[\\/]/.exec(id);
    if (match) folders.add(match[1]);
  }
  return [...folders].sort().map((folder) => {
    const { name, version, license } = readManifest(folder);
    const texts = readdirSync(folder)
      .filter((file) => /^(licen[cs]e|notice)(\.(md|txt))?$/i.test(file))
      .map((file) => readFileSync(join(folder, file), 'utf8').trim());
    if (texts.length === 0) throw new Error(`${name} is inlined but has no licence file`);
    return `${name} ${version} (${license})\n\n${texts.join('\n\n')}\n`;
  });
}

/** Sources of the workspace's packages, by what an import calls them. */
const sources = () =>
  Object.fromEntries(
    packages.flatMap((name) => {
      const scope = readManifest(folderOf(name)).name;
      const entries = Object.entries(entriesOf(folderOf(name)));
      return entries.map(([entry, file]) => [`${entry === 'index' ? scope : `${scope}/${entry}`}$`, file]);
    }),
  );

/** Bundles one package and returns the names of the files that belong in its dist beside the declarations. */
async function bundle(name) {
  const { rolldown } = await import('rolldown');
  const folder = folderOf(name);
  const { dependencies = {}, peerDependencies = {} } = readManifest(folder);
  const outside = new Set(Object.keys({ ...dependencies, ...peerDependencies }));
  const build = await rolldown({
    input: entriesOf(folder),
    cwd: folder,
    platform: name === 'cli' ? 'node' : 'neutral',
    moduleTypes: { '.yaml': 'text' },
    resolve: { mainFields: ['module', 'main'], alias: name === 'cli' ? sources() : {} },
    external: (id) => id.startsWith('node:') || outside.has(packageOf(id)),
    treeshake: {
      // mathjs and what it stands on do not say that they are free of side effects, but they are.
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
  const { output } = await build.write({
    dir: join(folder, 'dist'),
    format: 'esm',
    entryFileNames: '[name].js',
    chunkFileNames: 'shared/[name]-[hash].js',
    comments: { legal: true },
  });
  await build.close();
  const files = output.map((part) => part.fileName);
  const licences = licencesOf(output.flatMap((part) => (part.type === 'chunk' ? inlined(part) : [])));
  if (licences.length > 0) {
    const heading = 'Parts of these packages are included in the files here:\n\n';
    files.push('third-party-licences.txt');
    writeFileSync(join(folder, 'dist', 'third-party-licences.txt'), heading + licences.join(`\n${'-'.repeat(78)}\n\n`));
  }
  return files;
}

/** Removes what an earlier build left and this one did not make, so that it is not published. */
function sweep(name, files) {
  const folder = folderOf(name);
  const keep = new Set(files.map((file) => join(folder, 'dist', file)));
  for (const file of filesBelow(join(folder, 'dist'))) {
    const source = join(folder, 'src', relative(join(folder, 'dist'), file)).replace(/\.d\.ts$/, '.ts');
    const declaration = file.endsWith('.d.ts') && existsSync(source);
    if (!keep.has(file) && !declaration && basename(file) !== '.tsbuildinfo') rmSync(file);
  }
}

/** True where every entry has its bundle; declarations come and go with the bundles. */
const complete = () =>
  packages.every((name) =>
    Object.keys(entriesOf(folderOf(name))).every((entry) => existsSync(join(folderOf(name), 'dist', `${entry}.js`))),
  );

/** Builds all packages where a source changed since the last time. */
export async function build() {
  const stamp = stampOf();
  if (existsSync(stampFile) && readFileSync(stampFile, 'utf8') === stamp && complete()) return;
  rmSync(stampFile, { force: true });
  console.log('Building the packages ...');
  run(programOf('typescript', 'tsc'), ['-b', 'packages']);
  for (const name of packages) sweep(name, await bundle(name));
  writeFileSync(stampFile, stamp);
}

if (isProgram(import.meta.url)) {
  install();
  await build();
}
