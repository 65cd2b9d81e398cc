import {
  type ClimateRow,
  climates,
  type Estimate,
  findNamed,
  labourPerHour,
  type PatternRow,
  type PriceRow,
  patterns,
  prices,
  rowKey,
  standardTables,
  type TableSet,
  type WeatherRow,
  type WorkRow,
  weathers,
  works,
} from '@postvolt/tables';
import { InputError } from './input-error.js';
import { meant } from './text/meant.js';

/** All tables that can be shown: those a plan's rows come from, and those that months, drafts and costs read. */
export interface ShownTables extends TableSet {
  readonly weathers: readonly WeatherRow[];
  readonly climates: readonly ClimateRow[];
  readonly patterns: readonly PatternRow[];
  readonly prices: readonly PriceRow[];
  readonly works: readonly (WorkRow | LabourRow)[];
}
/** The price of an hour, beside the hours that work takes. */
interface LabourRow {
  readonly id: string;
  readonly aliases: string[];
  readonly about: string;
  readonly money: Estimate;
}
const labour: LabourRow = { id: 'labour', aliases: [], about: 'Price of an hour of work.', money: labourPerHour };

export type ShownName = keyof ShownTables;

export const shownTables: ShownTables = {
  ...standardTables,
  weathers,
  climates,
  patterns,
  prices,
  works: [...works, labour],
};
export const shownNames = Object.keys(shownTables) as ShownName[];

/** A table, or some rows of it; the growth factors are one row without a name. */
export interface ChosenTable {
  readonly name: ShownName;
  readonly rows: ShownTables[ShownName];
}

/**
 * The table of this name, whatever its case and spacing, and the row that was asked for, or those whose names hold it.
 * @throws InputError with the nearest name where one is unknown.
 */
export function selectTable(name: string, row: string | undefined): ChosenTable {
  const key = (text: string) => text.toLowerCase().replace(/[^a-z]/g, '');
  const table = shownNames.find((known) => key(known) === key(name) || key(known) === `${key(name)}s`);
  if (table === undefined) throw unknown('table', 'tables', name, shownNames);
  const rows = shownTables[table];
  if (!Array.isArray(rows) || row === undefined) return { name: table, rows };
  const named = rows as readonly { readonly id: string; readonly aliases?: readonly string[] }[];
  const wanted = rowKey(row);
  const exact = findNamed(named, row);
  const holds = ({ id, aliases = [] }: (typeof named)[number]) =>
    [id, ...aliases].some((text) => rowKey(text).includes(wanted));
  const found = exact ? [exact] : named.filter(holds);
  if (found.length > 0) return { name: table, rows: found as unknown as ChosenTable['rows'] };
  throw unknown(
    `row of ${table}`,
    `rows of ${table}`,
    row,
    named.map(({ id }) => id),
  );
}

/** Names of a longer list are left to `postvolt tables`. */
const fewNames = 20;

function unknown(kind: string, all: string, found: string, known: readonly string[]): InputError {
  const listed = known.length <= fewNames ? `one of: ${known.join(', ')}` : `one of the ${known.length} ${all}`;
  return new InputError(`found ${kind} ${JSON.stringify(found)}, expected ${listed}.${meant(found, known)}`);
}
