import type { TableName, TableSet } from './schema.js';

/** A row of the named table. */
export type RowOf<Name extends TableName> = TableSet[Name][number];

/** Tables that may be read but not changed. */
export type Tables = Readonly<TableSet>;

/**
 * A row's name as it is compared: lower case, single spaces, `12½` and `12-1/2` as `12.5`, `gauge` as `ga`, × as `x`,
 * and American spellings (fiberglass, aluminum, molded) as the British ones of the ids.
 */
export function rowKey(name: string): string {
  return name
    .trim()
    .toLowerCase()
    .replace(/(\d)(?:\s*½|[ -]1\/2)/g, '$1.5')
    .replace(/×/g, 'x')
    .replace(/(\d)\s*(?:gauge|ga\.|ga)(?![a-z])/g, '$1 ga')
    .replace(/\bfiber/g, 'fibre')
    .replace(/aluminum/g, 'aluminium')
    .replace(/\bmolded/g, 'moulded')
    .replace(/\s+/g, ' ');
}

/** The row of a list that goes by a name; an id wins over an alias. For one look: `findRow` keeps an index. */
export function findNamed<Row extends { readonly id: string; readonly aliases?: readonly string[] }>(
  rows: readonly Row[],
  name: string,
): Row | undefined {
  const key = rowKey(name);
  return (
    rows.find(({ id }) => rowKey(id) === key) ?? rows.find(({ aliases = [] }) => aliases.some((a) => rowKey(a) === key))
  );
}

/** Rows of one table by what they are called; an id wins over an alias. */
function indexOf<Row extends { id: string; aliases: string[] }>(rows: readonly Row[]): Map<string, Row> {
  const aliases = rows.flatMap((row) => row.aliases.map((alias): [string, Row] => [rowKey(alias), row]));
  return new Map([...aliases.reverse(), ...rows.map((row): [string, Row] => [rowKey(row.id), row])]);
}

/** Indexes of lists that can no longer change. */
const indexes = new WeakMap<object, Map<string, unknown>>();

/** The row that a plan names by its id or one of its aliases; undefined where there is none. An id wins over an alias. */
export function findRow<Name extends TableName>(tables: Tables, table: Name, name: string): RowOf<Name> | undefined {
  const rows: readonly RowOf<Name>[] = tables[table];
  const known = indexes.get(rows);
  const index = known ?? indexOf(rows);
  if (!known && Object.isFrozen(rows)) indexes.set(rows, index);
  return index.get(rowKey(name)) as RowOf<Name> | undefined;
}

/** Whether an insulator goes on a post: on any where it names none, else on those it names and on rows made from them. */
export const fitsPost = (
  insulator: Pick<RowOf<'insulators'>, 'posts'>,
  post: Pick<RowOf<'posts'>, 'id' | 'fitsAs'>,
): boolean => insulator.posts.length === 0 || insulator.posts.includes(post.fitsAs ?? post.id);
