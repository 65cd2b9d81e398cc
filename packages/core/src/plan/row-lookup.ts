import { fitsPost, type InsulatorRow, type PostRow, type RowOf, type TableName, type Tables } from '@postvolt/tables';
import { type Issue, wordPath } from '../issue.js';
import { defaults } from './defaults.js';
import { editRow } from './edit-row.js';
import type { Reporter } from './reporter.js';
import type { ResolvedRows } from './resolved.js';
import type { EditableTable, RowEdit } from './row-fields.js';
import { lookUpRow } from './row-index.js';
import { reportUnknownRow } from './unknown-row.js';

type Path = Issue['path'];
type KeptTable = Exclude<keyof ResolvedRows, 'growthWetness' | 'films'>;

/** Looks up table rows for a plan, makes rows of what it changes in place, and keeps those that it names. */
export class RowLookup {
  readonly tables: Tables;
  readonly #report: Reporter;
  readonly #kept: { readonly [T in KeptTable]: Map<string, RowOf<T>> } = {
    wires: new Map(),
    insulators: new Map(),
    posts: new Map(),
    soils: new Map(),
    groundCovers: new Map(),
    vegetation: new Map(),
    animals: new Map(),
    joints: new Map(),
    faults: new Map(),
  };

  constructor(tables: Tables, report: Reporter) {
    this.tables = tables;
    this.#report = report;
  }

  /** The row of a name or an edit in place; null, and an error reported, where there is none. */
  find<T extends TableName>(table: T, ref: string | RowEdit, path: Path): RowOf<T> | null {
    if (typeof ref !== 'string') return this.#edited(table, ref, path);
    const row = lookUpRow(this.tables, table, ref) ?? null;
    if (row === null) reportUnknownRow(this.tables, table, ref, path, this.#report);
    return row;
  }

  /** Like `find`, and the row is kept in the resolved plan; the id is '' where there is none. */
  keep<T extends KeptTable>(table: T, ref: string | RowEdit, path: Path): string {
    const row = this.find(table, ref, path);
    if (row === null) return '';
    (this.#kept[table] as Map<string, RowOf<T>>).set(row.id, row);
    return row.id;
  }

  /** The kept row of an id that `keep` returned. */
  kept<T extends KeptTable>(table: T, id: string): RowOf<T> | undefined {
    return this.#kept[table].get(id) as RowOf<T> | undefined;
  }

  /** Line insulator of a hot strand that names none: the first usual one that fits the post. */
  usualInsulator(post: PostRow): string | null {
    const isLine = (row: InsulatorRow) => row.place !== 'end' && row.material !== 'metal';
    const usual = defaults.lineInsulators
      .map((id) => this.tables.insulators.find((row) => row.id === id))
      .find((row) => row !== undefined && fitsPost(row, post));
    return (usual ?? this.tables.insulators.find((row) => isLine(row) && fitsPost(row, post)))?.id ?? null;
  }

  /** The rows kept, as they stand in a resolved plan. */
  rows(): ResolvedRows {
    const kept = this.#kept;
    const record = <T extends KeptTable>(table: T) => Object.fromEntries(kept[table]) as Record<string, RowOf<T>>;
    return {
      wires: record('wires'),
      insulators: record('insulators'),
      films: Object.fromEntries(this.tables.films.map((row) => [row.id, row])),
      posts: record('posts'),
      soils: record('soils'),
      groundCovers: record('groundCovers'),
      vegetation: record('vegetation'),
      growthWetness: this.tables.growthWetness,
      animals: record('animals'),
      joints: record('joints'),
      faults: record('faults'),
    };
  }

  #edited<T extends TableName>(table: T, edit: RowEdit, path: Path): RowOf<T> | null {
    const base = this.find(table, edit.like, [...path, 'like']);
    if (base === null) return null;
    const id = `${base.id} (${wordPath(path)})`;
    const row = editRow(
      table as TableName & EditableTable,
      base,
      edit,
      { id, aliases: [] },
      path,
      this.#report,
    ) as RowOf<T> | null;
    return row;
  }
}
