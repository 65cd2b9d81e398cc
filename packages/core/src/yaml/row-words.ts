import type { TableName, Tables } from '@postvolt/tables';
import { lookUpRow } from '../plan/row-index.js';
import type { PlanChange } from '../studies/compare/change.js';

/** The name to write for a row of a table. */
export type RowWords = (table: TableName, id: string) => string;

/** Names rows as the changes do, where one names it: `12 J` for the row `12 j`. */
export function rowWords(changes: readonly PlanChange[], tables: Tables): RowWords {
  const names = changes.flatMap((change) => ('row' in change ? [change.row] : []));
  return (table, id) => names.find((name) => lookUpRow(tables, table, name)?.id === id) ?? id;
}
