import { type RowOf, rowKey, type TableName, type Tables } from '@postvolt/tables';

type Index = ReadonlyMap<string, RowOf<TableName>>;

/** Kept as long as its tables are: a set of tables is never changed. */
const indices = new WeakMap<Tables, Map<TableName, Index>>();

function indexOf(tables: Tables, table: TableName): Index {
  const made = indices.get(tables) ?? new Map<TableName, Index>();
  indices.set(tables, made);
  const known = made.get(table);
  if (known !== undefined) return known;
  const index = new Map<string, RowOf<TableName>>();
  const add = (name: string, row: RowOf<TableName>) => {
    const key = rowKey(name);
    if (!index.has(key)) index.set(key, row);
  };
  for (const row of tables[table]) add(row.id, row);
  for (const row of tables[table]) for (const alias of row.aliases) add(alias, row);
  made.set(table, index);
  return index;
}

/** The row that a plan names, as the tables' `findRow` finds it, by an index made once per set of tables. */
export const lookUpRow = <T extends TableName>(tables: Tables, table: T, name: string): RowOf<T> | undefined =>
  indexOf(tables, table).get(rowKey(name)) as RowOf<T> | undefined;
