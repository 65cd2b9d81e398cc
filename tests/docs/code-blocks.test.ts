// Every block of code in README and docs is run: programs against the built packages, commands by the built command line,
// plans by the reader, and output is compared with what the commands above it say.
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { planSchema } from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import { scenario } from '@postvolt/scenarios';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { parse, stringify } from 'yaml';
import { program } from '../cli/run.js';
import { isLong } from '../support/length.js';
import { root } from '../workspace/files.js';
import { type Block, type Page, pages } from './blocks.js';

const languages = { '': 'shell', sh: 'shell', ts: 'program', js: 'program', yaml: 'plan', text: 'output' } as const;
const ofKind = ({ blocks }: Page, kind: string): readonly Block[] =>
  blocks.filter(({ language }) => (languages as Record<string, string>)[language] === kind);
const withKind = (kind: string) =>
  pages.filter((page) => ofKind(page, kind).length > 0).map((p) => [p.file, p] as const);
/** In the short form the pages that a newcomer reads first. */
const runWithKind = (kind: string) =>
  withKind(kind).filter(([file]) => isLong || ['README.md', 'docs/cookbook.md'].includes(file));

const planOfReadme = ofKind(pages.find(({ file }) => file === 'README.md')!, 'plan')[0]!.text;
/** Commands of the workspace itself, which the checks around this test run. */
const ownCommands = /^npm (start|test|run [\w:]+)( |$)/;
/** Blocks of text that are no output: the contributor guide's map. */
const noOutput = ['DEVELOPERS.md'];
/** 0 answered or holds, 3 the target falls short: both are answers. */
const answers = [0, 3];
const patience = 300_000;

test('there are pages to look at, and every block is in a language that is run', () => {
  expect(pages.length).toBeGreaterThan(8);
  const odd = pages.flatMap(({ file, blocks }) =>
    blocks.filter(({ language }) => !Object.hasOwn(languages, language)).map((b) => `${file}:${b.line} ${b.language}`),
  );
  expect(odd).toEqual([]);
});

let folder: string;
const folderOf = (file: string) => join(folder, file.replaceAll('/', '-').replace(/\.md$/, ''));

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'postvolt-docs-'));
  symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'), 'junction');
  for (const { file, blocks } of pages) {
    mkdirSync(folderOf(file));
    writeFileSync(join(folderOf(file), 'two-paddocks.yaml'), planOfReadme);
    writeFileSync(join(folderOf(file), 'package.json'), '{"type":"module"}');
    // A block that starts with the name of a file, such as `# round.yaml`, is that file for the commands of its page.
    for (const { text } of blocks) {
      const name = /^# ([\w-]+\.yaml)\n/.exec(text)?.[1];
      if (name !== undefined) writeFileSync(join(folderOf(file), name), text);
    }
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each(withKind('plan'))('plans of %s', (_, page) => {
  test.each(ofKind(page, 'plan').map((block) => [block.line, block.text] as const))('line %i', (_line, text) => {
    const value = parse(text) as Record<string, unknown>;
    const isPart = Object.keys(value).every((key) => Object.hasOwn(planSchema.shape, key));
    if (!isPart) return expect(value).toBeTypeOf('object');
    // Part of a plan stands for the same part of the demo farm.
    const whole = 'formatVersion' in value ? text : stringify({ ...parse(scenario('demo farm').plan), ...value });
    expect(readPlanText(whole).issues.filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});

const nameOf = ({ line }: Block) => `line-${line}`;

describe('programs', () => {
  test('are right in their types', { timeout: patience }, () => {
    const files = withKind('program').flatMap(([file, page]) =>
      ofKind(page, 'program')
        .filter(({ language }) => language === 'ts')
        .map((block) => {
          const path = join(folderOf(file), `${nameOf(block)}.ts`);
          writeFileSync(path, `${block.text}\nexport {};\n`);
          return path;
        }),
    );
    expect(files.length).toBeGreaterThan(10);
    const found = ts.getPreEmitDiagnostics(
      ts.createProgram(files, {
        target: ts.ScriptTarget.ES2022,
        module: ts.ModuleKind.NodeNext,
        moduleResolution: ts.ModuleResolutionKind.NodeNext,
        lib: ['lib.es2023.d.ts', 'lib.dom.d.ts'],
        strict: true,
        noUncheckedIndexedAccess: true,
        exactOptionalPropertyTypes: true,
        skipLibCheck: true,
        noEmit: true,
        preserveSymlinks: false,
        types: ['node'],
        typeRoots: [join(root, 'node_modules', '@types')],
      }),
    );
    const words = found.map(
      ({ file, messageText }) =>
        `${file?.fileName.split('/').slice(-2).join(' ')}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`,
    );
    expect(words).toEqual([]);
  });

  test.each(runWithKind('program'))('of %s run', { timeout: patience }, (file, page) => {
    const blocks = ofKind(page, 'program');
    for (const block of blocks) {
      const { outputText } = ts.transpileModule(block.text, {
        compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext, verbatimModuleSyntax: true },
      });
      writeFileSync(join(folderOf(file), `${nameOf(block)}.js`), outputText);
    }
    // All of a page in one process, each after the other, so that starting Node is paid once.
    const runner = blocks.map(
      (block) => `await import('./${nameOf(block)}.js').catch((e) => { console.error('${nameOf(block)}'); throw e; });`,
    );
    writeFileSync(join(folderOf(file), 'all.js'), runner.join('\n'));
    const { status, stderr } = spawnSync(process.execPath, ['all.js'], { cwd: folderOf(file), encoding: 'utf8' });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  });
});

/** One shell for all commands of a page; each says its exit code on a line of its own, after what it printed. */
function runCommands(cwd: string, commands: readonly string[]): { codes: number[]; printed: string; errors: string } {
  const script = [
    'postvolt() { "$POSTVOLT_NODE" "$POSTVOLT_PROGRAM" "$@"; }',
    'npx() { shift; postvolt "$@"; }',
    ...commands.map((command) => `${command}\necho "exit-code $?"`),
  ].join('\n');
  const { CI: _ci, FORCE_COLOR: _force, ...env } = process.env;
  const { stdout, stderr } = spawnSync('sh', ['-c', script], {
    cwd,
    encoding: 'utf8',
    env: {
      ...env,
      NO_COLOR: '1',
      TERM: 'xterm',
      LC_ALL: 'C.UTF-8',
      POSTVOLT_NODE: process.execPath,
      POSTVOLT_PROGRAM: program,
    },
  });
  return {
    codes: [...stdout.matchAll(/^exit-code (\d+)$/gm)].map((match) => Number(match[1])),
    printed: stdout.replace(/^exit-code \d+$/gm, ''),
    errors: stderr,
  };
}

const commandsOf = ({ text }: Block): string[] =>
  text
    .replace(/\\\n\s*/g, '')
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '' && !line.startsWith('#') && !ownCommands.test(line));

const trimmed = (text: string) => text.replace(/[ \t]+$/gm, '').trim();

describe.skipIf(process.platform === 'win32').each(runWithKind('shell'))('commands of %s', (file, page) => {
  test('answer, and say what the page shows', { timeout: patience }, () => {
    const commands = ofKind(page, 'shell').flatMap(commandsOf);
    expect(commands.filter((command) => !/^(npx )?postvolt /.test(command))).toEqual([]);
    // `npm start` solves the demo farm under this name.
    const started = ofKind(page, 'shell').some(({ text }) => /^npm start$/m.test(text));
    writeFileSync(join(folderOf(file), 'demo-farm.yaml'), scenario('demo farm').plan);
    const all = started ? ['postvolt solve demo-farm.yaml', ...commands] : commands;
    const { codes, printed, errors } = runCommands(folderOf(file), all);
    const failed = all.filter((_, i) => !answers.includes(codes[i] ?? 1));
    expect({ failed, errors: failed.length > 0 ? errors : '' }).toEqual({ failed: [], errors: '' });
    if (noOutput.includes(basename(file))) return;
    const shown = ofKind(page, 'output').filter(({ text }) => !text.startsWith('# '));
    const missing = shown.filter(({ text }) => !trimmed(printed).includes(trimmed(text)));
    expect(missing.map(({ line, text }) => `${file}:${line}\n${text}`)).toEqual([]);
  });
});
