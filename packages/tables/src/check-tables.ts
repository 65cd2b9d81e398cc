import type { Estimate } from './estimate.js';
import { rowKey, type Tables } from './find-row.js';
import type { EnergizerRow, InsulatorRow, PostRow, TableName, WireRow } from './schema.js';

/** One thing that is wrong with a set of tables, as data. */
export interface TableIssue {
  /** Stable and short, for programs. */
  readonly code: 'shape' | 'unit' | 'range' | 'repeated' | 'unknown-post' | 'incomplete' | 'not-falling';
  /** Keys and indices from the top of the set. */
  readonly path: readonly (string | number)[];
  readonly found: string;
  readonly expected: string;
}

type Path = TableIssue['path'];
type Floor = 'above 0' | 'at least 0' | null;

/** Unit and least value of every field that holds a cell, by the field's name. */
const fields: Readonly<Record<string, readonly [unit: string, floor: Floor]>> = {
  diameterM: ['m', 'above 0'],
  thicknessM: ['m', 'at least 0'],
  resistivityOhmM: ['Ω·m', 'above 0'],
  relativePermeability: ['1', 'above 0'],
  temperatureCoefficient: ['1/K', null],
  ohmsPerMetre: ['Ω/m', 'above 0'],
  insulationVolts: ['V', 'above 0'],
  breakingLoadN: ['N', 'above 0'],
  coilM: ['m', 'above 0'],
  serviceYears: ['year', 'above 0'],
  formFactor: ['1', 'at least 0'],
  weatheredFilmFactor: ['1', 'above 0'],
  crackedBodyOhms: ['Ω', 'above 0'],
  contactOhms: ['Ω', 'at least 0'],
  siemens: ['S', 'at least 0'],
  throughOhms: ['Ω', 'at least 0'],
  buriedM: ['m', 'above 0'],
  contactRadiusM: ['m', 'above 0'],
  usualSpacingM: ['m', 'above 0'],
  topsoilOhmM: ['Ω·m', 'above 0'],
  deepOhmM: ['Ω·m', 'above 0'],
  hoofOhms: ['Ω', 'at least 0'],
  wetSiemensPerMetre: ['S/m', 'at least 0'],
  usualHeightM: ['m', 'at least 0'],
  leakSiemensPerMetre: ['S/m', 'at least 0'],
  growthWetness: ['1', 'at least 0'],
  targetVolts: ['V', 'above 0'],
  bodyOhms: ['Ω', 'above 0'],
  hideOhms: ['Ω', 'at least 0'],
  feetOhmsPerOhmM: ['1/m', 'above 0'],
  volts: ['V', 'above 0'],
  lengthM: ['m', 'above 0'],
  ohms: ['Ω', 'at least 0'],
  gapVolts: ['V', 'above 0'],
};

/** By unit, the least value other than 0 and the most that a table may hold: far beyond anything real, and safe to reckon with. */
const bounds: Readonly<Record<string, readonly [least: number, most: number]>> = {
  m: [1e-9, 1e6],
  Ω·m: [1e-12, 1e12],
  'Ω/m': [1e-9, 1e9],
  Ω: [1e-9, 1e18],
  S: [1e-18, 1e6],
  'S/m': [1e-18, 1e3],
  '1/m': [1e-6, 1e6],
  '1/K': [1e-9, 1],
  '1': [1e-9, 1e9],
  V: [1e-3, 1e6],
  N: [1e-3, 1e9],
  year: [1e-3, 1e4],
};

const isEstimate = (value: object): value is Estimate => 'typical' in value && 'basis' in value;

/** Every cell of a set, with its path. */
export function* cellsOf(value: unknown, path: Path = []): Generator<readonly [path: Path, cell: Estimate]> {
  if (typeof value !== 'object' || value === null) return;
  if (isEstimate(value)) {
    yield [path, value];
    return;
  }
  for (const [key, inner] of Object.entries(value)) {
    yield* cellsOf(inner, [...path, Array.isArray(value) ? Number(key) : key]);
  }
}

function* checkCell(path: Path, cell: Estimate): Generator<TableIssue> {
  const field = path.findLast((key) => typeof key === 'string' && Object.hasOwn(fields, key));
  const [unit, floor] = fields[String(field)] ?? ['', null];
  if (cell.unit !== unit)
    yield { code: 'unit', path: [...path, 'unit'], found: cell.unit || 'nothing', expected: unit };
  if (floor && !(floor === 'above 0' ? cell.low > 0 : cell.low >= 0)) {
    yield { code: 'range', path: [...path, 'low'], found: String(cell.low), expected: `a number ${floor}` };
    return;
  }
  const [least, most] = bounds[unit] ?? [0, Number.MAX_VALUE];
  for (const end of ['low', 'typical', 'high'] as const) {
    const size = Math.abs(cell[end]);
    if (size !== 0 && !(size >= least && size <= most)) {
      const expected = `between ${least} and ${most} ${unit}`;
      yield { code: 'range', path: [...path, end], found: `${cell[end]} ${unit}`, expected };
      return;
    }
  }
}

function* checkWire(path: Path, row: WireRow): Generator<TableIssue> {
  if (row.ohmsPerMetre) return;
  if (!row.diameterM || !row.resistivityOhmM) {
    yield {
      code: 'incomplete',
      path,
      found: 'neither ohms per metre nor a diameter with a resistivity',
      expected: 'one of the two',
    };
  } else if (row.coating && row.coating.thicknessM.high >= row.diameterM.low / 2) {
    const found = `${row.coating.thicknessM.high} m`;
    yield { code: 'range', path: [...path, 'coating', 'thicknessM'], found, expected: 'less than half the diameter' };
  }
}

/** A post's metal is reckoned as a rod, whatever end of the ranges is taken. */
function* checkContact(path: Path, row: PostRow): Generator<TableIssue> {
  for (const end of ['low', 'typical', 'high'] as const) {
    const [buried, radius] = [row.buriedM[end], row.contactRadiusM[end]];
    if (buried >= 2 * radius) continue;
    const expected = `at least twice the contact radius of ${radius} m`;
    yield { code: 'range', path: [...path, 'buriedM', end], found: `${buried} m`, expected };
    return;
  }
}

function* checkPosts(path: Path, row: InsulatorRow, posts: ReadonlySet<string>): Generator<TableIssue> {
  for (const [i, post] of row.posts.entries()) {
    if (!posts.has(post)) {
      yield { code: 'unknown-post', path: [...path, 'posts', i], found: post, expected: 'the id of a row of posts' };
    }
  }
}

function* checkInsulator(path: Path, row: InsulatorRow): Generator<TableIssue> {
  if (row.contactOhms === null && !(row.formFactor.low > 0)) {
    const found = String(row.formFactor.low);
    yield { code: 'range', path: [...path, 'formFactor', 'low'], found, expected: 'above 0 for an insulator' };
  }
}

/** Open circuit first, then loads that fall, with volts that fall and amps that rise. */
function* checkEnergizer(path: Path, row: EnergizerRow): Generator<TableIssue> {
  for (const at of ['low', 'typical', 'high'] as const) {
    for (let i = 1; i < row.loads.length; i++) {
      const [before, load] = [row.loads[i - 1]!, row.loads[i]!];
      const here = [...path, 'loads', i];
      if (load.ohms === null || load.ohms >= (before.ohms ?? Number.POSITIVE_INFINITY)) {
        const expected = 'a smaller load than the one before';
        yield { code: 'not-falling', path: [...here, 'ohms'], found: String(load.ohms), expected };
        return;
      }
      const [volts, most] = [load.volts[at], before.volts[at]];
      const amps = before.ohms === null ? 0 : most / before.ohms;
      if (!(volts < most && volts / load.ohms > amps)) {
        const expected = `less than ${most} V, and more than ${Number((amps * load.ohms).toPrecision(4))} V`;
        yield { code: 'not-falling', path: [...here, 'volts', at], found: `${volts} V`, expected };
        return;
      }
    }
  }
}

const tableNames = (tables: Tables): TableName[] =>
  (Object.keys(tables) as (keyof Tables)[]).filter((name): name is TableName => name !== 'growthWetness');

/** Ids and aliases that name more than one row. */
function* checkNames(tables: Tables): Generator<TableIssue> {
  for (const table of tableNames(tables)) {
    const owner = new Map<string, string>();
    for (const [i, row] of tables[table].entries()) {
      for (const [name, path] of [
        [row.id, ['id']] as const,
        ...row.aliases.map((alias, j) => [alias, ['aliases', j]] as const),
      ]) {
        const key = rowKey(name);
        const other = owner.get(key);
        if (other !== undefined) {
          const expected = `a name that "${other}" does not have`;
          yield { code: 'repeated', path: [table, i, ...path], found: name, expected };
        }
        owner.set(key, row.id);
      }
    }
  }
}

/** What is wrong with the cells of any value by themselves: units, signs, sizes beyond all reason. */
export const checkCells = (value: unknown): TableIssue[] =>
  [...cellsOf(value)].flatMap(([path, cell]) => [...checkCell(path, cell)]);

/** Rows by table; tables that are left out are taken as they are. */
export type SomeTables = { readonly [Name in TableName]?: Tables[Name] };

/** What is wrong with rows by themselves: units, signs, sizes beyond all reason, wires and energizers that cannot be. */
export function checkRows(tables: SomeTables & { readonly growthWetness?: Tables['growthWetness'] }): TableIssue[] {
  return [
    ...checkCells(tables),
    ...(tables.wires ?? []).flatMap((row, i) => [...checkWire(['wires', i], row)]),
    ...(tables.insulators ?? []).flatMap((row, i) => [...checkInsulator(['insulators', i], row)]),
    ...(tables.posts ?? []).flatMap((row, i) => [...checkContact(['posts', i], row)]),
    ...(tables.energizers ?? []).flatMap((row, i) => [...checkEnergizer(['energizers', i], row)]),
  ];
}

/**
 * What is wrong with a set of tables beyond its shape: units, signs, names that two rows share, unknown posts,
 * energizers whose volts do not fall. Empty where all is well.
 */
export function checkTables(tables: Tables): TableIssue[] {
  const posts = new Set(tables.posts.map((row) => row.id));
  return [
    ...checkRows(tables),
    ...tables.insulators.flatMap((row, i) => [...checkPosts(['insulators', i], row, posts)]),
    ...checkNames(tables),
  ];
}
