import { suggestion } from '@postvolt/core';
import { findRow, type GrowthWetness, rowKey, standardTables, type TableName, type TableSet } from '@postvolt/tables';
import { InputError } from './input-error.js';

/** A table, or some rows of it; the growth factors are one row without a name. */
export interface ChosenTable {
  readonly name: keyof TableSet;
  readonly rows: readonly TableSet[TableName][number][] | GrowthWetness;
}

export const tableNames = Object.keys(standardTables) as (keyof TableSet)[];

/**
 * The table of this name, whatever its case and spacing, and the row that was asked for, or those whose names hold it.
 * @throws InputError with the nearest name where one is unknown.
 */
export function selectTable(name: string, row: string | undefined): ChosenTable {
  const key = (text: string) => text.toLowerCase().replace(/[^a-z]/g, '');
  const table = tableNames.find((known) => key(known) === key(name) || key(known) === `${key(name)}s`);
  if (table === undefined) throw unknown('table', name, tableNames);
  if (table === 'growthWetness') return { name: table, rows: standardTables.growthWetness };
  const rows: readonly TableSet[TableName][number][] = standardTables[table];
  if (row === undefined) return { name: table, rows };
  const exact = findRow(standardTables, table, row);
  const alike = rows.filter(({ id, aliases }) => [id, ...aliases].some((text) => rowKey(text).includes(rowKey(row))));
  const found = exact ? [exact] : alike;
  if (found.length > 0) return { name: table, rows: found };
  throw unknown(
    `row of ${table}`,
    row,
    rows.map(({ id }) => id),
  );
}

/** Names of a longer list are left to `postvolt tables`. */
const fewNames = 15;

function unknown(kind: string, found: string, known: readonly string[]): InputError {
  const listed = known.length <= fewNames ? `one of: ${known.join(', ')}` : `one of its ${known.length} rows`;
  return new InputError(
    `found ${kind} ${JSON.stringify(found)}, expected ${listed}. ${suggestion(found, known)}`.trim(),
  );
}
