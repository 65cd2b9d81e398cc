import type { z } from 'zod';
import { checkTables, type TableIssue } from './check-tables.js';
import type { Tables } from './find-row.js';
import { type TableName, type TableSet, tableSetSchema } from './schema.js';

/** Either the extended set, or all that is wrong with what was passed. */
export type Extended =
  | { readonly ok: true; readonly tables: Tables }
  | { readonly ok: false; readonly issues: readonly TableIssue[] };

/** Rows to add, or to put in place of those with the same id; any table may be left out. */
export type Extension = { readonly [Name in keyof TableSet]?: TableSet[Name] };

const word = (value: unknown): string => {
  if (value === undefined) return 'nothing';
  const text = typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? typeof value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
};

/** What stands at a path of any value; only own keys count. */
function at(value: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (inner, key) =>
      typeof inner === 'object' && inner !== null && Object.hasOwn(inner, key)
        ? (inner as Record<PropertyKey, unknown>)[key]
        : undefined,
    value,
  );
}

const expectation = (issue: z.core.$ZodIssue): string => {
  switch (issue.code) {
    case 'invalid_type':
      return issue.expected;
    case 'invalid_value':
      return issue.values.map(word).join(' or ');
    case 'too_small':
      return `${issue.inclusive ? 'at least' : 'above'} ${issue.minimum}`;
    default:
      return issue.message.replace(/^expected /, '');
  }
};

function shapeIssues(issue: z.core.$ZodIssue, extra: unknown): TableIssue[] {
  const path = issue.path.map((key) => (typeof key === 'number' ? key : String(key)));
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      code: 'shape',
      path: [...path, key],
      found: word(key),
      expected: 'a known field',
    }));
  }
  return [{ code: 'shape', path, found: word(at(extra, issue.path)), expected: expectation(issue) }];
}

type Row = { readonly id: string };
type Merge = <R extends Row>(base: readonly R[], extra?: readonly R[]) => R[];

/** Rows of `base` in their order, changed where `extra` has the same id; the rest of `extra` after them. */
const replaceInPlace: Merge = (base, extra = []) => {
  const changed = new Map(extra.map((row) => [row.id, row]));
  const known = new Set(base.map((row) => row.id));
  const rows = [...base.map((row) => changed.get(row.id) ?? row), ...extra.filter((row) => !known.has(row.id))];
  // A frozen list is looked up through an index that is built once.
  Object.freeze(rows);
  return rows;
};

const untouched = <R extends Row>(base: readonly R[], extra: readonly R[]): R[] => {
  const changed = new Set(extra.map((row) => row.id));
  return base.filter((row) => !changed.has(row.id));
};

/** The same rows with all of `extra` last, so that a clash of names is laid at its door. */
const extraLast: Merge = (base, extra = []) => [...untouched(base, extra), ...extra];

const mergeTables = (merge: Merge, base: Tables, extra: Extension): Tables => ({
  wires: merge(base.wires, extra.wires),
  insulators: merge(base.insulators, extra.insulators),
  films: merge(base.films, extra.films),
  posts: merge(base.posts, extra.posts),
  soils: merge(base.soils, extra.soils),
  groundCovers: merge(base.groundCovers, extra.groundCovers),
  vegetation: merge(base.vegetation, extra.vegetation),
  growthWetness: extra.growthWetness ?? base.growthWetness,
  animals: merge(base.animals, extra.animals),
  energizers: merge(base.energizers, extra.energizers),
  rods: merge(base.rods, extra.rods),
  joints: merge(base.joints, extra.joints),
  faults: merge(base.faults, extra.faults),
  cautions: merge(base.cautions, extra.cautions),
});

/** An issue found in the checked set, with its path as it runs through `extra`. */
function inExtra(issue: TableIssue, base: Tables, extra: Extension): TableIssue {
  const [table, index, ...rest] = issue.path;
  if (typeof index !== 'number') return issue;
  const name = table as TableName;
  const before = untouched<Row>(base[name], extra[name] ?? []).length;
  return index < before ? issue : { ...issue, path: [name, index - before, ...rest] };
}

function repeatedIds(extra: Extension): TableIssue[] {
  return Object.entries(extra).flatMap(([table, rows]) => {
    if (!Array.isArray(rows)) return [];
    const seen = new Set<string>();
    return rows.flatMap((row, i): TableIssue[] => {
      const repeated = seen.has(row.id);
      seen.add(row.id);
      return repeated ? [{ code: 'repeated', path: [table, i, 'id'], found: row.id, expected: 'each id once' }] : [];
    });
  });
}

/**
 * A set of tables with rows added, or put in place of rows of the same id, as frozen lists; neither argument is
 * changed.
 *
 * `extra` may be any value, such as a parsed file: its shape, units, signs and names are checked, and all that is wrong
 * comes back at once as data, with paths through `extra`.
 */
export function extendTables(base: Tables, extra: unknown): Extended {
  const parsed = tableSetSchema.partial().safeParse(extra);
  if (!parsed.success) return { ok: false, issues: parsed.error.issues.flatMap((issue) => shapeIssues(issue, extra)) };
  const more = parsed.data as Extension;
  const repeated = repeatedIds(more);
  if (repeated.length > 0) return { ok: false, issues: repeated };
  const issues = checkTables(mergeTables(extraLast, base, more));
  if (issues.length > 0) return { ok: false, issues: issues.map((issue) => inExtra(issue, base, more)) };
  return { ok: true, tables: mergeTables(replaceInPlace, base, more) };
}
