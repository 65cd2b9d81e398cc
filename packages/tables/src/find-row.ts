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

/** The row that a plan names by its id or one of its aliases; undefined where there is none. An id wins over an alias. */
export function findRow<Name extends TableName>(tables: Tables, table: Name, name: string): RowOf<Name> | undefined {
  const rows: readonly RowOf<Name>[] = tables[table];
  const key = rowKey(name);
  return (
    rows.find((row) => rowKey(row.id) === key) ?? rows.find((row) => row.aliases.some((alias) => rowKey(alias) === key))
  );
}
