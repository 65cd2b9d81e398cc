import { readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import ts from 'typescript';
import { expect, test } from 'vitest';
import { root } from './files.js';

const textOf = (file: string) => readFileSync(join(root, file), 'utf8');

/** Every module that is loaded before the first line of a script runs: its static imports, and theirs in turn. */
function loadedBy(file: string, seen = new Set<string>()): Set<string> {
  const source = ts.createSourceFile(file, textOf(file), ts.ScriptTarget.Latest);
  for (const statement of source.statements) {
    if (!ts.isImportDeclaration(statement) && !ts.isExportDeclaration(statement)) continue;
    const { moduleSpecifier } = statement;
    if (!moduleSpecifier || !ts.isStringLiteral(moduleSpecifier)) continue;
    const name = moduleSpecifier.text;
    const path = name.startsWith('.') ? posix.join(posix.dirname(file), name) : name;
    if (seen.has(path)) continue;
    seen.add(path);
    if (name.startsWith('.')) loadedBy(path, seen);
  }
  return seen;
}

const scripts = Object.entries<string>(JSON.parse(textOf('package.json')).scripts).map(
  ([name, line]) => [name, /^node (\S+[.]mjs)/.exec(line)?.[1] ?? line] as const,
);

test.each(scripts)(
  'npm run %s starts in a fresh clone: nothing installed or built is loaded before it sets up',
  (_, file) => {
    const loaded = [...loadedBy(file)];
    expect(loaded.filter((name) => name.endsWith('/setup.mjs'))).not.toEqual([]);
    expect(loaded.filter((name) => !/^(node:|(packages|tests)\/(?!.*\/dist\/))/.test(name))).toEqual([]);
  },
);
