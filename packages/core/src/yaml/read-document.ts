import {
  type Document,
  isAlias,
  isMap,
  isNode,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  parseDocument,
  visit,
} from 'yaml';
import type { Issue, Outcome } from '../issue.js';
import { Reporter } from '../plan/reporter.js';

/** Longest YAML text that is read, in UTF-16 units: some twenty thousand runs; programs with more write JSON. */
export const longestYaml = 2 ** 20;
/** Longest JSON text that is read, in UTF-16 units. */
export const longestJson = 64 * 2 ** 20;
/** Uses of one anchor, each counted with the aliases inside it, and aliases in all; bounds what they can blow up to. */
const mostAliases = 1000;
/** Faults of syntax beyond this number are not said. */
const mostFaults = 20;
const deepestText = 200;

/**
 * Reads YAML or JSON text and what stands in it; `what` names the document, such as `a plan`.
 *
 * Never throws. Issues carry the line and column of what they are about.
 */
export function readDocument<T>(text: string, what: string, read: (value: unknown) => Outcome<T>): Outcome<T> {
  const isJson = /^\uFEFF?\s*[{[]/.test(text);
  const most = isJson ? longestJson : longestYaml;
  if (text.length > most)
    return refuse(
      'too-large',
      `${text.length.toLocaleString('en')} characters`,
      `at most ${most.toLocaleString('en')}${isJson ? '' : ' as YAML'}`,
    );
  if (isDeep(text)) return tooDeep;
  if (isJson && text.length > longestYaml) return readLongJson(text, read);
  const lines = new LineCounter();
  let document: Document.Parsed;
  let value: unknown;
  try {
    document = parseDocument(text, {
      lineCounter: lines,
      prettyErrors: false,
      uniqueKeys: false,
      logLevel: 'error',
      stringKeys: true,
    });
    // A tag that is not known comes as a warning and would be read as if it were not there.
    const faults = [...document.errors, ...document.warnings]
      .slice(0, mostFaults)
      .map((error) => syntaxIssue(error.message, error.code, lines, error.pos[0]));
    if (faults.some(({ found }) => isStackOverflow(found))) return tooDeep;
    if (faults.length === 0) faults.push(...repeatedKeys(document.contents, lines));
    if (faults.length > 0) return { ok: false, issues: faults };
    if (countAliases(document.contents) > mostAliases) {
      return refuse('too-many-aliases', `more than ${mostAliases} aliases`, `${what} with fewer aliases`);
    }
    value = document.toJS({ maxAliasCount: mostAliases });
  } catch (error) {
    return refuse(
      'bad-yaml',
      error instanceof Error ? error.message.slice(0, 200) : 'text that cannot be read',
      'YAML or JSON',
    );
  }
  if (value === null || value === undefined) return refuse('empty', 'an empty document', what);
  const outcome = read(value);
  const issues = outcome.issues
    .map((issue) => ({ ...issue, at: placeOf(document, issue, lines) }))
    .sort((a, b) => bySeverity(a) - bySeverity(b) || (a.at?.line ?? 0) - (b.at?.line ?? 0));
  return outcome.ok ? { ...outcome, issues } : { ok: false, issues };
}

/** JSON too long to keep the place of every value; written by programs, so paths are enough. */
function readLongJson<T>(text: string, read: (value: unknown) => Outcome<T>): Outcome<T> {
  let value: unknown;
  try {
    value = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return refuse(
      'bad-json',
      error instanceof Error ? error.message.slice(0, 200) : 'text that cannot be read',
      'JSON',
    );
  }
  return read(value);
}

/** Whether brackets nest deeper than any plan's, before a parser recurses into them. */
function isDeep(text: string): boolean {
  let depth = 0;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === 0x5b || code === 0x7b) depth++;
    else if (code === 0x5d || code === 0x7d) depth--;
    if (depth > deepestText) return true;
  }
  return false;
}

function refuse(code: string, found: string, expected: string): { ok: false; issues: readonly Issue[] } {
  const report = new Reporter();
  report.error(code, [], found, expected);
  return { ok: false, issues: report.issues };
}

const tooDeep = refuse('too-deep', 'lists or maps within each other without end', 'fewer levels');

/** Engines word it their own ways; the parser passes some of them on as errors of its own. */
const isStackOverflow = (message: string): boolean => /call stack|too much recursion|stack overflow/i.test(message);

/** What people who do not know the parser's words have mostly done. */
const plainHints: Readonly<Record<string, string>> = {
  TAB_AS_INDENT: 'Indent with spaces, not tabs.',
  BLOCK_AS_IMPLICIT_KEY: 'A text with a colon and a space in it has to stand in quotes.',
  BAD_INDENT: 'Is a { or [ left open above, or a line set in too little?',
  MISSING_CHAR: 'Is a quote, } or ] left open?',
  UNEXPECTED_TOKEN: 'Is a quote, bracket or dash too many?',
};

function syntaxIssue(message: string, code: string, lines: LineCounter, offset: number): Issue {
  const { line, col } = lines.linePos(offset);
  const isRepeated = code === 'DUPLICATE_KEY';
  return {
    code: isRepeated ? 'repeated-key' : 'bad-yaml',
    severity: 'error',
    path: [],
    found: isRepeated ? `the key "${message.slice(0, 60)}" a second time` : message.replace(/\s+/g, ' ').slice(0, 200),
    expected: isRepeated ? 'each key once' : 'YAML or JSON',
    hint: plainHints[code] ?? '',
    at: { line, column: col },
  };
}

/** The parser's own check compares every key of a map with every other, which a large plan cannot afford. */
function repeatedKeys(root: unknown, lines: LineCounter): Issue[] {
  const faults: Issue[] = [];
  visit(root as Node, {
    Map(_, { items }) {
      const seen = new Set<string>();
      for (const { key } of items) {
        const name = String(isScalar(key) ? key.value : key);
        if (seen.has(name) && faults.length < mostFaults) {
          faults.push(syntaxIssue(name, 'DUPLICATE_KEY', lines, rangeStart(key) ?? 0));
        }
        seen.add(name);
      }
    },
  });
  return faults;
}

function countAliases(root: unknown): number {
  let count = 0;
  visit(root as Node, {
    Alias() {
      count++;
    },
  });
  return count;
}

const bySeverity = ({ severity }: Issue): number => (severity === 'error' ? 0 : 1);

/** Line and column of an issue: of a plain value, of the key of anything else, or of the nearest part around it. */
function placeOf(document: Document.Parsed, issue: Issue, lines: LineCounter): Issue['at'] {
  let node: unknown = document.contents;
  let offset = rangeStart(node) ?? 0;
  for (const key of issue.path) {
    if (isAlias(node)) node = node.resolve(document);
    let next: unknown;
    if (isMap(node)) {
      const pair = node.items.find((item) => String(isScalar(item.key) ? item.key.value : item.key) === String(key));
      offset = rangeStart(pair?.key) ?? offset;
      next = pair?.value;
    } else if (isSeq(node)) {
      next = node.items[Number(key)];
      offset = rangeStart(next) ?? offset;
    }
    node = next;
    if (node === undefined || node === null) break;
  }
  if (isScalar(node) && node.value !== null && !issue.code.endsWith('-key')) offset = rangeStart(node) ?? offset;
  const { line, col } = lines.linePos(offset);
  return line === 0 ? null : { line, column: col };
}

const rangeStart = (node: unknown): number | undefined =>
  isNode(node) ? ((node as Node).range?.[0] ?? undefined) : undefined;
