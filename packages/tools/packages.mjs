// Packs every published package as it would be published, and has the tarballs looked over.
import { mkdirSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { packages } from './build.mjs';
import { npx, pnpm, programOf, readManifest, root, status } from './setup.mjs';

/** Packs into out/packed; returns the tarballs by package folder. Throws where packing fails. */
export function packAll() {
  const folder = join(root, 'out', 'packed');
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  const chosen = packages.map((name) => `--filter=./packages/${name}`);
  const code = npx([pnpm(), ...chosen, 'pack', '--pack-destination', 'out/packed'], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  if (code !== 0) throw new Error('the packages could not be packed');
  const files = readdirSync(folder);
  return packages.map((name) => {
    const manifest = readManifest(join(root, 'packages', name));
    const stem = manifest.name.replace('@', '').replace('/', '-');
    const file = files.find((found) => found === `${stem}-${manifest.version}.tgz`);
    if (!file) throw new Error(`${manifest.name} was not packed`);
    return { name, manifest, file: join(folder, file) };
  });
}

/** publint on every tarball, the type resolution of every importable one; 0 where all pass. */
export function checkPackages() {
  const codes = packAll().flatMap(({ manifest, file }) => {
    const importable = Object.keys(manifest.exports).some((entry) => entry !== './package.json');
    return [status(programOf('publint'), ['run', file, '--strict']), importable ? checkTypesOf(file) : 0];
  });
  return codes.find((code) => code !== 0) ?? 0;
}

/** Says something only where something is wrong. ESM only on purpose, so require() need not resolve. */
function checkTypesOf(file) {
  const attw = (...words) =>
    status(programOf('@arethetypeswrong/cli', 'attw'), [file, '--profile', 'esm-only', ...words]);
  return attw('--quiet') === 0 ? 0 : attw('--format', 'ascii');
}
