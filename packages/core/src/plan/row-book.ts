import {
  type Estimate,
  findRow,
  type InsulatorRow,
  type PostRow,
  type RowOf,
  rowKey,
  type TableName,
  type Tables,
} from '@postvolt/tables';
import { type Issue, wordPath } from '../issue.js';
import { showFound } from '../quantity/fault.js';
import type { RangedValue } from '../quantity/ranged.js';
import { defaults } from './names.js';
import type { Reporter } from './reporter.js';
import type { ResolvedRows } from './resolved.js';
import { type CellField, type EditableTable, type RowEdit, rowFields } from './row-fields.js';
import { nearest, suggestion } from './suggest.js';

type Path = Issue['path'];
type KeptTable = Exclude<keyof ResolvedRows, 'growthWetness' | 'films'>;
type AnyRow = { readonly id: string };

/** A value that the plan entered, with the place where it stands. */
export const entered = (value: RangedValue, unit: string, path: Path): Estimate => ({
  ...value,
  unit,
  basis: 'entered',
  source: `entered at ${wordPath(path)}`,
  fromMemory: false,
});

/** A sure value that the plan entered. */
export const enteredSure = (value: number, unit: string, path: Path): Estimate =>
  entered({ low: value, typical: value, high: value }, unit, path);

/** Ids and aliases of a table, for suggestions. */
export const namesOf = (tables: Tables, table: TableName): string[] =>
  tables[table].flatMap((row) => [row.id, ...row.aliases]);

/** Reports a name that a table does not have. */
export function reportUnknownRow(tables: Tables, table: TableName, name: string, path: Path, report: Reporter): void {
  const key = rowKey(name);
  const near = nearest(key, namesOf(tables, table));
  const hint =
    near === null
      ? suggestion(
          key,
          tables[table].map((row) => row.id),
        )
      : `Did you mean "${near}"?`;
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

/** Looks up table rows for a plan, makes rows of what it changes in place, and keeps those that it names. */
export class RowBook {
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
  readonly #found = new Map<string, AnyRow | null>();
  readonly #baseOf = new Map<AnyRow, AnyRow>();

  constructor(tables: Tables, report: Reporter) {
    this.tables = tables;
    this.#report = report;
  }

  /** The row of a name or an edit in place; null, and an error reported, where there is none. */
  find<T extends TableName>(table: T, ref: string | RowEdit, path: Path): RowOf<T> | null {
    if (typeof ref !== 'string') return this.#edited(table, ref, path);
    const key = `${table} ${ref}`;
    const known = this.#found.get(key);
    const row = known === undefined ? (findRow(this.tables, table, ref) ?? null) : (known as RowOf<T> | null);
    this.#found.set(key, row);
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

  /** Id of the row that a changed row was made from; its own where it is as the table has it. */
  baseId(row: AnyRow): string {
    return (this.#baseOf.get(row) ?? row).id;
  }

  /** Line insulator of a hot strand that names none: the first usual one that fits the post. */
  usualInsulator(post: PostRow): string | null {
    const base = this.baseId(post);
    const fits = (row: InsulatorRow) => row.posts.length === 0 || row.posts.includes(base);
    const isLine = (row: InsulatorRow) => row.place !== 'end' && row.material !== 'metal';
    const usual = defaults.lineInsulators
      .map((id) => this.tables.insulators.find((row) => row.id === id))
      .find((row) => row !== undefined && fits(row));
    return (usual ?? this.tables.insulators.find((row) => isLine(row) && fits(row)))?.id ?? null;
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
    ) as RowOf<T>;
    this.#baseOf.set(row, base);
    return row;
  }
}

const isMap = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null;

/** A copy of a row with the values of an edit in place of its own; the rest of the row is shared. */
export function editRow(
  table: EditableTable,
  base: AnyRow,
  edit: Readonly<Record<string, unknown>>,
  heading: { readonly id: string; readonly aliases: readonly string[]; readonly about?: string },
  path: Path,
  report: Reporter,
): AnyRow {
  const row: Record<string, unknown> = { ...base, ...heading };
  const fields: Readonly<Record<string, CellField>> = rowFields[table];
  if (table === 'soils' && edit['resistivity'] !== undefined) scaleSoil(row, edit, path);
  for (const [key, field] of Object.entries(fields)) {
    const value = edit[key] as RangedValue | undefined;
    if (value === undefined) continue;
    let outer = row;
    for (const step of field.cell.slice(0, -1)) {
      const inner = outer[step];
      if (!isMap(inner)) {
        report.error('no-such-value', [...path, key], `a value for ${key}`, `a row that has one; "${base.id}" has not`);
        return base;
      }
      outer = outer[step] = { ...inner };
    }
    outer[field.cell.at(-1)!] = entered(value, field.symbol, [...path, key]);
  }
  return row as unknown as AnyRow;
}

const scaled = (cell: Estimate, factor: number, path: Path): Estimate => ({
  ...cell,
  low: cell.low * factor,
  typical: cell.typical * factor,
  high: cell.high * factor,
  basis: 'derived',
  source: `${cell.source}; scaled to the resistivity entered at ${wordPath(path)}`,
});

/** Soil whose deep resistivity was measured in one state: the other states and the topsoil follow in proportion. */
function scaleSoil(row: Record<string, unknown>, edit: Readonly<Record<string, unknown>>, path: Path): void {
  const place = [...path, 'resistivity'];
  const measured = edit['resistivity'] as RangedValue;
  const state = (edit['measuredIn'] as string | undefined) ?? 'moist';
  const states = row['states'] as Record<string, { topsoilOhmM: Estimate; deepOhmM: Estimate }>;
  const factor = measured.typical / states[state]!.deepOhmM.typical;
  row['states'] = Object.fromEntries(
    Object.entries(states).map(([name, { topsoilOhmM, deepOhmM }]) => [
      name,
      {
        topsoilOhmM: scaled(topsoilOhmM, factor, place),
        deepOhmM: name === state ? entered(measured, 'Ω·m', place) : scaled(deepOhmM, factor, place),
      },
    ]),
  );
}
