import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { filesBelow, root, topLevel } from './files.js';

/** All that may stand at the top beside files that begin with a dot; the first four are folders. */
const top = [
  ...['packages', 'examples', 'tests', 'docs'],
  ...['README.md', 'DEVELOPERS.md', 'LICENSE', 'package.json'],
  ...['pnpm-lock.yaml', 'pnpm-workspace.yaml', 'tsconfig.base.json'],
];

test('the top level holds what the contributor guide lists, and nothing else', () => {
  expect(
    topLevel()
      .filter((name) => !name.startsWith('.'))
      .sort(),
  ).toEqual([...top].sort());
});

const files = filesBelow('.');
const textOf = (file: string) => readFileSync(join(root, file), 'utf8');

test('there are files to look at', () => {
  expect(files.length).toBeGreaterThan(50);
  expect(files).toContain('packages/core/src/index.ts');
});

test('no file names a folder of somebody’s machine', () => {
  // Joined here, so that this file does not name them either.
  const folders = ['work', 'home', 'root', 'Users', 'tmp', 'mnt'].map((name) => `/${name}/`);
  const named = files.flatMap((file) => {
    const text = textOf(file);
    return folders
      .filter((folder) => new RegExp(`(?<![\\w.~*-])${folder}[\\w.-]`).test(text))
      .map((f) => `${file}: ${f}`);
  });
  expect(named).toEqual([]);
});

test('no file names a registry’s host', () => {
  // Written with a class, so that this line does not match itself.
  const hosts = /registry[.][\w.-]+[.](?:org|com|net|io|dev)\b|(?:npmjs|yarnpkg|npmmirror)[.](?:org|com)/i;
  expect(['https://registry', 'example', 'org/'].join('.')).toMatch(hosts);
  expect(['npmjs', 'com'].join('.')).toMatch(hosts);
  expect(files.filter((file) => hosts.test(textOf(file)))).toEqual([]);
});

test('every package is at the same version, for Node 20.19 and later, under the same licence', () => {
  const manifests = files
    .filter((file) => /^(packages\/[^/]+\/)?package\.json$/.test(file))
    .map((file) => JSON.parse(textOf(file)));
  expect(manifests.length).toBeGreaterThan(5);
  for (const manifest of manifests) {
    expect(manifest).toMatchObject({ version: manifests[0].version, license: 'MIT', type: 'module' });
    if (!manifest.private) expect(manifest.engines).toEqual({ node: '>=20.19' });
  }
});

test('every dependency is pinned exactly', () => {
  const manifests = files
    .filter((file) => /^(packages\/[^/]+\/)?package\.json$/.test(file))
    .map((file) => JSON.parse(textOf(file)));
  for (const { dependencies = {}, devDependencies = {} } of manifests)
    for (const range of Object.values({ ...dependencies, ...devDependencies }))
      expect(range).toMatch(/^(\d+\.\d+\.\d+|workspace:\*)$/);
});
