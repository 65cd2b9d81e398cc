import { suggestion } from '@postvolt/core';
import { findRow, type GrowthWetness, standardTables, type TableName, type TableSet } from '@postvolt/tables';
import { InputError } from './input-error.js';

/** A table, or one row of it; the growth factors are one row without a name. */
export interface ChosenTable {
  readonly name: keyof TableSet;
  readonly rows: readonly TableSet[TableName][number][] | GrowthWetness;
}

export const tableNames = Object.keys(standardTables) as (keyof TableSet)[];

/**
 * The table of this name, whatever its case and spacing, and the one row of it that was asked for.
 * @throws InputError with the nearest name where one is unknown.
 */
export function selectTable(name: string, row: string | undefined): ChosenTable {
  const key = (text: string) => text.toLowerCase().replace(/[^a-z]/g, '');
  const table = tableNames.find((known) => key(known) === key(name) || key(known) === `${key(name)}s`);
  if (table === undefined) throw unknown('table', name, tableNames);
  if (table === 'growthWetness') return { name: table, rows: standardTables.growthWetness };
  if (row === undefined) return { name: table, rows: standardTables[table] };
  const found = findRow(standardTables, table, row);
  if (found) return { name: table, rows: [found] };
  throw unknown(
    `row of ${table}`,
    row,
    standardTables[table].map(({ id }) => id),
  );
}

function unknown(kind: string, found: string, known: readonly string[]): InputError {
  const hint = suggestion(found, known);
  return new InputError(`found ${kind} ${JSON.stringify(found)}, expected one of: ${known.join(', ')}. ${hint}`.trim());
}
