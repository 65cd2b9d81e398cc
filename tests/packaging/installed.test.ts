// The packages as they would be published: packed, installed by npm into an empty folder, and used there.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { rolldown } from 'rolldown';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { pages } from '../docs/blocks.js';
import { root } from '../workspace/files.js';

interface Packed {
  readonly name: string;
  readonly manifest: {
    readonly name: string;
    readonly exports: Readonly<Record<string, string | { readonly types: string; readonly default: string }>>;
    readonly sideEffects: boolean;
  };
  readonly file: string;
}
const { packAll } = (await import(new URL('../../packages/tools/packages.mjs', import.meta.url).href)) as {
  packAll: () => Packed[];
};

const blocks = pages.find(({ file }) => file === 'README.md')!.blocks;
const planText = blocks.find(({ language }) => language === 'yaml')!.text;
const example = blocks.find(({ language }) => language === 'ts')!.text;

let packed: Packed[];
let folder: string;
const patience = 300_000;
const node = (...words: string[]) =>
  spawnSync(process.execPath, words, { cwd: folder, encoding: 'utf8', env: { ...process.env, NO_COLOR: '1' } });

beforeAll(() => {
  packed = packAll();
  folder = mkdtempSync(join(tmpdir(), 'postvolt-installed-'));
  writeFileSync(join(folder, 'package.json'), '{ "private": true, "type": "module" }');
  const words = ['install', '--no-audit', '--no-fund', '--prefer-offline', '--loglevel=error'];
  const files = packed.map(({ file }) => `"${file}"`);
  const { status, stderr } = spawnSync(['npm', ...words, ...files].join(' '), {
    cwd: folder,
    encoding: 'utf8',
    shell: true,
  });
  if (status !== 0) throw new Error(`npm could not install the packages: ${stderr}`);
}, patience);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const installed = (name: string) => join(folder, 'node_modules', ...name.split('/'));
/** `@postvolt/core/yaml` for the entry `./yaml`. */
const entries = () =>
  packed.flatMap(({ manifest }) =>
    Object.keys(manifest.exports)
      .filter((entry) => entry !== './package.json')
      .map((entry) => manifest.name + entry.slice(1)),
  );

test('each package holds its README, its licence and all that its manifest names, and no sources', () => {
  expect(packed.map(({ manifest }) => manifest.name)).toContain('@postvolt/core');
  for (const { manifest } of packed) {
    const at = installed(manifest.name);
    expect(readFileSync(join(at, 'README.md'), 'utf8')).toMatch(/^# \S/);
    expect(readFileSync(join(at, 'LICENSE'), 'utf8')).toContain('MIT');
    for (const target of Object.values(manifest.exports))
      for (const file of typeof target === 'string' ? [target] : Object.values(target))
        expect([file, existsSync(join(at, file))]).toEqual([file, true]);
    expect(
      readdirSync(at)
        .filter((name) => !['bin', 'dist', 'node_modules'].includes(name))
        .sort(),
    ).toEqual([...['LICENSE', 'README.md', 'package.json']]);
    const manifestThere = JSON.parse(readFileSync(join(at, 'package.json'), 'utf8'));
    expect(JSON.stringify(manifestThere.dependencies ?? {})).not.toContain('workspace:');
  }
});

test('what is included from elsewhere comes with its terms', () => {
  for (const name of ['@postvolt/core', 'postvolt']) {
    const terms = readFileSync(join(installed(name), 'dist', 'third-party-licences.txt'), 'utf8');
    expect(terms).toMatch(/^mathjs \S+ \(Apache-2\.0\)$/m);
    expect(terms).toContain('Apache License');
  }
});

test('the library example of the README runs', () => {
  writeFileSync(join(folder, 'two-paddocks.yaml'), planText);
  const { outputText } = ts.transpileModule(example, {
    compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
  });
  writeFileSync(join(folder, 'example.js'), outputText);
  const { status, stdout, stderr } = node('example.js');
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  expect(stdout).toMatch(/^dry summer top \d+ V, low \d+ V$/m);
});

test('the command runs', () => {
  const bin = join(installed('postvolt'), 'bin', 'postvolt.js');
  const { status, stdout } = node(bin, 'solve', 'two-paddocks.yaml');
  expect([0, 3]).toContain(status);
  expect(stdout).toMatch(/^The fence (holds|falls short of) /);
});

describe('types', () => {
  const ways = {
    NodeNext: { module: ts.ModuleKind.NodeNext, moduleResolution: ts.ModuleResolutionKind.NodeNext },
    bundler: { module: ts.ModuleKind.ESNext, moduleResolution: ts.ModuleResolutionKind.Bundler },
  };
  test.each(Object.entries(ways))('resolve for %s', { timeout: patience }, (_, way) => {
    const file = join(folder, 'types.ts');
    const all = entries().map((entry, i) => `export * as all${i} from '${entry}';`);
    writeFileSync(file, [...all, example].join('\n'));
    const found = ts.getPreEmitDiagnostics(
      ts.createProgram([file], {
        ...way,
        target: ts.ScriptTarget.ES2022,
        lib: ['lib.es2023.d.ts'],
        strict: true,
        exactOptionalPropertyTypes: true,
        skipLibCheck: false,
        noEmit: true,
        types: ['node'],
        typeRoots: [join(root, 'node_modules', '@types')],
      }),
    );
    const ours = found.filter(({ file }) => !/node_modules\/(?!@postvolt)/.test(file?.fileName ?? ''));
    expect(ours.map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, ' '))).toEqual([]);
  });
});

describe('side effects', () => {
  test('an import prints nothing and leaves the global object alone', () => {
    const script = `
      // zod keeps its registry on the global object, so that its copies share one.
      const names = () => Object.getOwnPropertyNames(globalThis).filter((name) => !name.startsWith('__zod_')).join();
      const before = names();
      for (const entry of ${JSON.stringify(entries())}) await import(entry);
      if (names() !== before) throw new Error('something global was added');`;
    writeFileSync(join(folder, 'quiet.js'), script);
    const { status, stdout, stderr } = node('quiet.js');
    expect({ status, stdout, stderr }).toEqual({ status: 0, stdout: '', stderr: '' });
  });

  test('a bundler drops what nobody uses', async () => {
    expect(packed.map(({ manifest }) => manifest.sideEffects)).toEqual(packed.map(() => false));
    const input = join(folder, 'unused.js');
    writeFileSync(
      input,
      entries()
        .map((entry) => `import '${entry}';`)
        .join('\n'),
    );
    const build = await rolldown({ input, cwd: folder });
    const { output } = await build.generate({ format: 'esm' });
    await build.close();
    expect(
      output.map((part) => (part.type === 'chunk' ? part.code.replace(/^\/\/.*$/gm, '').trim() : part.fileName)),
    ).toEqual(['']);
  });
});
