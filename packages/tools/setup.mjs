// Installs what the workspace needs on a machine that has only Node and npm, and builds it.
// Uses Node built-ins alone, since nothing is installed yet when it runs. A second run does nothing.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const stampFile = join(root, 'node_modules', '.postvolt-installed');

/** Runs a Node program with its output shown; returns its exit code, 1 where a signal ended it. */
export function status(program, args, options = {}) {
  return finish(program, spawnSync(process.execPath, [program, ...args], { cwd: root, stdio: 'inherit', ...options }));
}

/** As `status`, but ends this process with the program's exit code where it is not 0. */
export function run(program, args, options = {}) {
  const code = status(program, args, options);
  if (code !== 0) process.exit(code);
}

/** Runs a workspace command such as pnpm through npx. Fixed words only: a shell reads them, since npx is a .cmd on Windows. */
export function npx(words, options = {}) {
  const line = ['npx', '--yes', ...words].join(' ');
  return finish('npx', spawnSync(line, { cwd: root, stdio: 'inherit', shell: true, ...options }));
}

function finish(name, result) {
  if (result.error) console.error(`Could not run ${name}: ${result.error.message}`);
  else if (result.signal) console.error(`${name} was ended by ${result.signal}.`);
  return result.status ?? 1;
}

/** File of a program that an installed package declares, as `programOf('vitest')` or `programOf('typescript', 'tsc')`. */
export function programOf(name, bin = name) {
  const require = createRequire(join(root, 'package.json'));
  const folder = require.resolve
    .paths(name)
    .map((path) => join(path, name))
    .find((path) => existsSync(join(path, 'package.json')));
  if (!folder) throw new Error(`${name} is not installed`);
  const declared = readManifest(folder).bin;
  return join(folder, typeof declared === 'string' ? declared : declared[bin]);
}

export const readManifest = (folder) => JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));

/** `pnpm@...` as the workspace pins it. */
export const pnpm = () => readManifest(root).packageManager;

const packageFolders = () =>
  readdirSync(join(root, 'packages'), { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(join(root, 'packages', entry.name, 'package.json')))
    .map((entry) => join(root, 'packages', entry.name))
    .sort();

/** Changes with whatever decides what is installed, the kind of machine included, since some packages are native. */
function installStamp() {
  const hash = createHash('sha256').update(`${process.version.split('.')[0]} ${process.platform} ${process.arch}`);
  const manifests = packageFolders().map((folder) => join(folder, 'package.json'));
  for (const file of ['pnpm-lock.yaml', 'pnpm-workspace.yaml', 'package.json'].map((name) => join(root, name)))
    hash.update('\0').update(readFileSync(file));
  for (const file of manifests) hash.update('\0').update(readFileSync(file));
  return hash.digest('hex');
}

/** True where every package that has dependencies has a folder of them. */
const installed = () =>
  packageFolders().every((folder) => {
    const { dependencies = {}, devDependencies = {} } = readManifest(folder);
    const any = Object.keys({ ...dependencies, ...devDependencies }).length > 0;
    return !any || existsSync(join(folder, 'node_modules'));
  });

export function install() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`Postvolt needs Node 20.19 or later; this is ${process.version}.`);
    process.exit(2);
  }
  const stamp = installStamp();
  if (existsSync(stampFile) && readFileSync(stampFile, 'utf8') === stamp && installed()) return;
  // Gone before the install begins: half an install must not pass for a whole one.
  rmSync(stampFile, { force: true });
  console.log(`Installing packages with ${pnpm()} (only when they changed) ...`);
  // CI keeps pnpm from asking questions that nobody may be there to answer.
  const code = npx([pnpm(), 'install', '--frozen-lockfile', '--reporter=append-only', '--loglevel=error'], {
    env: { ...process.env, CI: 'true' },
  });
  if (code !== 0) {
    console.error('The packages could not be installed; the lines above say why. Is the machine online?');
    process.exit(code);
  }
  writeFileSync(stampFile, stamp);
}

/** Installs and builds where something changed since the last time. */
export async function setUp() {
  install();
  const { build } = await import('./build.mjs');
  await build();
}

/** True where the module of this address is the program that Node was started with. */
export const isProgram = (address) =>
  process.argv[1] !== undefined && address === pathToFileURL(realpathSync(process.argv[1])).href;
