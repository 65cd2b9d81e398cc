import { readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join, posix } from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { filesBelow, root } from './files.js';

/** Which rooms each room may import from, itself aside. A room is a package, or a folder of core. */
const mayImport: Readonly<Record<string, readonly string[]>> = {
  tables: [],
  'core/issue': [],
  'core/quantity': ['tables', 'core/issue'],
  'core/plan': ['tables', 'core/issue', 'core/quantity'],
  'core/engine': [],
  'core/network': ['tables', 'core/issue', 'core/quantity', 'core/plan', 'core/engine'],
  'core/fence': ['core/issue', 'core/plan', 'core/engine', 'core/network'],
  'core/result': ['tables', 'core/issue', 'core/quantity', 'core/plan', 'core/engine', 'core/network', 'core/fence'],
  'core/netlist': ['core/plan', 'core/engine', 'core/network', 'core/fence'],
  'core/studies': [
    'tables',
    'core/issue',
    'core/quantity',
    'core/plan',
    'core/engine',
    'core/network',
    'core/fence',
    'core/result',
  ],
  'core/yaml': ['tables', 'core/issue', 'core/quantity', 'core/plan', 'core/studies'],
  /** The files that are core's entry points. */
  core: [
    ...['core/issue', 'core/quantity', 'core/plan', 'core/engine', 'core/network', 'core/fence', 'core/result'],
    ...['core/netlist', 'core/studies', 'core/yaml'],
  ],
  scenarios: [],
  report: ['tables', 'core'],
  cli: ['tables', 'core', 'report', 'scenarios'],
};

/** Rooms that also run in a browser. */
const anywhere = Object.keys(mayImport).filter((room) => room !== 'cli');

const sources = Object.keys(mayImport)
  .filter((room) => !room.includes('/'))
  .flatMap((name) => filesBelow(`packages/${name}/src`))
  .filter((file) => file.endsWith('.ts'));

function roomOf(file: string): string {
  const [, name, , ...rest] = file.split('/');
  if (name !== 'core') return name!;
  if (rest.length > 1) return `core/${rest[0]}`;
  return rest[0] === 'issue.ts' ? 'core/issue' : 'core';
}

/** Every specifier that a file imports, re-exports or loads later, types included. */
const importsOf = (file: string): string[] =>
  ts.preProcessFile(readFileSync(join(root, file), 'utf8'), true, true).importedFiles.map(({ fileName }) => fileName);

/** Source file of a relative import. */
const resolve = (from: string, specifier: string): string =>
  posix.join(posix.dirname(from), specifier).replace(/\.js$/, '.ts');

interface Arrow {
  readonly from: string;
  readonly to: string;
}

const inside = sources.flatMap((from): Arrow[] =>
  importsOf(from)
    .filter((specifier) => specifier.startsWith('.') && !specifier.endsWith('.yaml'))
    .map((specifier) => ({ from, to: resolve(from, specifier) })),
);

test('every import is found, so that none escapes the checks below', () => {
  expect(inside.length).toBeGreaterThan(100);
  const known = new Set(sources);
  expect(inside.filter(({ to }) => !known.has(to))).toEqual([]);
});

test('every source file stands in a room that is listed here', () => {
  expect(sources.filter((file) => !Object.hasOwn(mayImport, roomOf(file)))).toEqual([]);
});

test('imports within a package go one way', () => {
  const back = inside.filter(
    ({ from, to }) => roomOf(from) !== roomOf(to) && !mayImport[roomOf(from)]!.includes(roomOf(to)),
  );
  expect(back).toEqual([]);
});

test('imports from package to package go one way', () => {
  const back = sources.flatMap((from) =>
    importsOf(from)
      .filter((specifier) => specifier.startsWith('@postvolt/'))
      .filter((specifier) => !mayImport[roomOf(from)]!.includes(specifier.split('/')[1]!))
      .map((to) => ({ from, to })),
  );
  expect(back).toEqual([]);
});

describe('what runs in a browser', () => {
  const builtins = new Set(builtinModules);
  test.each(anywhere)('%s uses no module of Node', (room) => {
    const used = sources
      .filter((file) => roomOf(file) === room)
      .flatMap((from) => importsOf(from).map((to) => ({ from, to })))
      .filter(({ to }) => to.startsWith('node:') || builtins.has(to));
    expect(used).toEqual([]);
  });
});

test('no file imports itself by a detour', () => {
  const next = new Map(sources.map((file) => [file, inside.filter(({ from }) => from === file)]));
  const done = new Set<string>();
  const cycles: string[] = [];
  const visit = (file: string, path: readonly string[]) => {
    if (path.includes(file)) cycles.push([...path.slice(path.indexOf(file)), file].join(' -> '));
    if (done.has(file) || path.includes(file)) return;
    for (const { to } of next.get(file) ?? []) visit(to, [...path, file]);
    done.add(file);
  };
  for (const file of sources) visit(file, []);
  expect(cycles).toEqual([]);
});
