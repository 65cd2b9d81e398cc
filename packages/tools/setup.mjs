// Installs what the workspace needs on a machine that has only Node and npm, and builds it.
// Uses Node built-ins alone, since nothing is installed yet when it runs. A second run does nothing.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const stampFile = join(root, 'node_modules', '.postvolt-installed');

/** Runs a Node program or a command with its output shown; ends this process with its exit code if it fails. */
export function run(command, args, options = {}) {
  const result = spawnSync(command, args, { cwd: root, stdio: 'inherit', ...options });
  if (result.error) {
    console.error(`Could not run ${command}: ${result.error.message}`);
    process.exit(1);
  }
  if (result.status !== 0) process.exit(result.status ?? 1);
}

function installStamp() {
  const hash = createHash('sha256').update(process.version.split('.')[0]);
  for (const file of ['pnpm-lock.yaml', 'pnpm-workspace.yaml', 'package.json'])
    hash.update(readFileSync(join(root, file)));
  return hash.digest('hex');
}

export function install() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`Postvolt needs Node 20.19 or later; this is ${process.version}.`);
    process.exit(2);
  }
  const stamp = installStamp();
  if (existsSync(stampFile) && readFileSync(stampFile, 'utf8') === stamp) return;
  const { packageManager } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  console.log(`Installing packages with ${packageManager} (first run only) ...`);
  // A shell is needed for npx on Windows, where it is a .cmd file; every argument here is fixed text.
  run('npx', ['--yes', packageManager, 'install', '--frozen-lockfile', '--reporter=append-only', '--loglevel=warn'], {
    shell: process.platform === 'win32',
  });
  mkdirSync(dirname(stampFile), { recursive: true });
  writeFileSync(stampFile, stamp);
}

/** Installs and builds where something changed since the last time. */
export async function setUp() {
  install();
  const { build } = await import('./build.mjs');
  await build();
}
