import { findRow, type TableName, type Tables } from '@postvolt/tables';
import { editRow } from './edit-row.js';
import type { Reporter } from './reporter.js';
import type { EditableTable, RowEdit } from './row-fields.js';
import type { Plan } from './schema.js';
import { reportUnknownRow } from './unknown-row.js';

type Row = { readonly id: string; readonly aliases: readonly string[] };

/** The tables with a plan's own rows added and its corrections put in place. */
export function withOwnTables(tables: Tables, own: Plan['tables'], report: Reporter): Tables {
  const changed: { -readonly [T in keyof Tables]: Tables[T] } = { ...tables };
  for (const [table, entries] of Object.entries(own) as [
    EditableTable,
    Record<string, Partial<RowEdit>> | undefined,
  ][]) {
    if (entries === undefined) continue;
    let rows = [...changed[table]] as Row[];
    for (const [name, entry] of Object.entries(entries)) {
      const path = ['tables', table, name];
      const known = findRow(changed, table, name);
      const base = entry.like === undefined ? known : findRow(changed, table, entry.like);
      if (base === undefined) {
        if (entry.like !== undefined)
          reportUnknownRow(changed, table as TableName, entry.like, [...path, 'like'], report);
        else
          report.error(
            'missing-key',
            [...path, 'like'],
            'nothing',
            `the row that "${name}" starts from, such as "${changed[table][0]?.id}"`,
          );
        continue;
      }
      const about = typeof entry['about'] === 'string' ? { about: entry['about'] } : {};
      const heading = { id: known?.id ?? name, aliases: known?.aliases ?? [], ...about };
      // A row that does not fit stands under its name all the same, so that no use of it is an error as well.
      const row = (editRow(table, base, entry, heading, path, report) as Row | null) ?? { ...base, ...heading };
      rows = known === undefined ? [...rows, row] : rows.map((other) => (other.id === known.id ? row : other));
      Object.assign(changed, { [table]: rows });
    }
  }
  return changed;
}
