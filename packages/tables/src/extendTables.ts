import type { z } from 'zod';
import { checkTables, type TableIssue } from './checkTables.js';
import type { Tables } from './findRow.js';
import { type TableSet, tableSetSchema } from './schema.js';

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

/** Rows of `base` with those of `extra` in place of, or after, them. */
const merge = <Row extends { id: string }>(base: readonly Row[], extra: readonly Row[] = []): Row[] => {
  const changed = new Map(extra.map((row) => [row.id, row]));
  const kept = base.map((row) => changed.get(row.id) ?? row);
  const known = new Set(base.map((row) => row.id));
  return [...kept, ...extra.filter((row) => !known.has(row.id))];
};

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
 * A set of tables with rows added, or put in place of rows of the same id; neither argument is changed.
 *
 * `extra` may be any value, such as a parsed file: its shape, units, signs and names are checked, and all that is wrong
 * comes back at once as data. Paths of issues about names and values are those of the extended set.
 */
export function extendTables(base: Tables, extra: unknown): Extended {
  const parsed = tableSetSchema.partial().safeParse(extra);
  if (!parsed.success) return { ok: false, issues: parsed.error.issues.flatMap((issue) => shapeIssues(issue, extra)) };
  const more = parsed.data as Extension;
  const repeated = repeatedIds(more);
  if (repeated.length > 0) return { ok: false, issues: repeated };
  const tables: Tables = {
    wires: merge(base.wires, more.wires),
    insulators: merge(base.insulators, more.insulators),
    films: merge(base.films, more.films),
    posts: merge(base.posts, more.posts),
    soils: merge(base.soils, more.soils),
    groundCovers: merge(base.groundCovers, more.groundCovers),
    vegetation: merge(base.vegetation, more.vegetation),
    growthWetness: more.growthWetness ?? base.growthWetness,
    animals: merge(base.animals, more.animals),
    energizers: merge(base.energizers, more.energizers),
    rods: merge(base.rods, more.rods),
    joints: merge(base.joints, more.joints),
    faults: merge(base.faults, more.faults),
    cautions: merge(base.cautions, more.cautions),
  };
  const issues = checkTables(tables);
  return issues.length > 0 ? { ok: false, issues } : { ok: true, tables };
}
