import { rowKey, type TableName, type Tables } from '@postvolt/tables';
import type { Issue } from '../issue.js';
import { showFound } from '../quantity/fault.js';
import type { Reporter } from './reporter.js';
import { nearest, suggestion } from './suggest.js';

type Path = Issue['path'];

/** Ids and aliases of a table, for suggestions. */
export const namesOf = (tables: Tables, table: TableName): string[] =>
  tables[table].flatMap((row) => [row.id, ...row.aliases]);

/** Reports a name that a table does not have. */
export function reportUnknownRow(tables: Tables, table: TableName, name: string, path: Path, report: Reporter): void {
  const hint = () => {
    const key = rowKey(name);
    const near = nearest(key, namesOf(tables, table));
    const ids = tables[table].map((row) => row.id);
    return near === null ? suggestion(key, ids) : `Did you mean "${near}"?`;
  };
  report.error('unknown-row', path, showFound(name), `a row of the table of ${wordTable[table]}`, hint);
}

const wordTable: Readonly<Record<TableName, string>> = {
  wires: 'wires',
  insulators: 'insulators',
  films: 'films',
  posts: 'posts',
  soils: 'soils',
  groundCovers: 'ground covers',
  vegetation: 'vegetation',
  animals: 'animals',
  energizers: 'energizers',
  rods: 'ground rods',
  joints: 'joints',
  faults: 'faults',
  cautions: 'cautions',
};
