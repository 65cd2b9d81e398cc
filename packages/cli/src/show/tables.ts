import { monthNames, rangeFigures as range } from '@postvolt/core';
import {
  type ClimateRow,
  type Estimate,
  type PatternRow,
  type PatternSpec,
  cellsOf as tableCellsOf,
  wireOhmsPerMetre,
  wireRowSchema,
} from '@postvolt/tables';
import { type ChosenTable, type ShownName, shownNames, shownTables } from '../select-table.js';
import type { Colours } from '../text/colours.js';
import { hang, plain } from '../text/lines.js';
import { table } from '../text/table.js';

interface Look {
  readonly width: number;
  readonly colours: Colours;
}

type AnyRow = Readonly<Record<string, unknown>>;

const about: Readonly<Record<ShownName, string>> = {
  wires: 'fence wire, poly conductors and insulated cable',
  insulators: 'line and end insulators, and the bare staple',
  films: 'film on an insulator, by its state and wetness',
  posts: 'posts: through the post, and into the soil',
  soils: 'soils by moisture, topsoil and rod depth apart',
  groundCovers: 'what lies under hooves',
  vegetation: 'growth that touches a strand',
  growthWetness: 'how growth conducts by its wetness, wet being 1',
  animals: 'target volts, body, hide and feet',
  energizers: 'generic energizer classes: volts at test loads',
  rods: 'ground rods',
  joints: 'splices, jumpers and switches',
  faults: 'what a single fault does',
  cautions: 'cautions, paraphrased from their sources',
  weathers: 'kinds of weather, and all that each moves together',
  climates: 'what each month brings, as it comes north of the equator',
  patterns: 'usual fences by animal, for a draft',
  prices: 'invented default prices, until a plan has its own',
  works: 'hours that work takes one person, and the price of an hour',
};

/** The names of the tables, with their number of rows. */
export function showTableList({ width, colours }: Look): string {
  const rows = shownNames.map((name) => {
    const rows = shownTables[name];
    return { cells: [name, String(Array.isArray(rows) ? rows.length : 1), about[name]] };
  });
  const columns = [{ head: 'Table' }, { head: 'Rows', align: 'right' as const }, { head: 'Holds', gives: true }];
  return `${table(columns, rows, { width, colours })}\n\npostvolt tables NAME shows one.\n`;
}

/** One table for a person: each row's values with low, typical and high, unit and basis, the sources numbered below. */
export function* showTable({ name, rows }: ChosenTable, look: Look): Generator<string> {
  const sources = new Map<string, number>();
  yield `${look.colours.strong(name)}: ${about[name]}\n\n`;
  for (const row of (Array.isArray(rows) ? rows : [rows]) as AnyRow[]) {
    if (name === 'climates') yield* showClimate(row as unknown as ClimateRow, look);
    else if (name === 'patterns') yield* showPattern(row as unknown as PatternRow, sources, look);
    else yield* showRow(row, sources, look);
  }
  if (sources.size === 0) return;
  yield `${look.colours.strong('Sources')}\n`;
  for (const [source, number] of sources) yield `${hang(`  [${number}] `, source, look.width)}\n`;
}

function* showRow(row: AnyRow, sources: Map<string, number>, { width, colours }: Look): Generator<string> {
  if (typeof row['id'] === 'string') {
    yield `${colours.strong(plain(row['id']))}\n`;
    // Cautions and the like carry their matter as a text.
    const texts = [row['about'], row['text']].filter((text) => typeof text === 'string');
    for (const text of [...texts, ...factsOf(row), ...alsoOf(row)]) yield `${hang('  ', text, width)}\n`;
  }
  const cells = cellsOf(row).map(([path, cell]) => ({ cells: cellLine(label(row, path), cell, sources) }));
  if (cells.length > 0) yield `${table(columns, cells, { width, indent: '  ', colours })}\n`;
  yield '\n';
}

/** A climate by its months: their weathers, what grows and how high, and how warm the wire is. */
function* showClimate(row: ClimateRow, { width, colours }: Look): Generator<string> {
  yield `${colours.strong(row.id)}\n`;
  for (const text of [row.about, ...factsOf({ ...row }), ...alsoOf({ ...row })]) yield `${hang('  ', text, width)}\n`;
  const columns = [
    { head: 'Month' },
    { head: 'Weather', gives: true },
    { head: 'Growth' },
    { head: 'Height, of its usual', align: 'right' as const },
    { head: 'Wire, °C', align: 'right' as const },
  ];
  const spread = (cell: Estimate) => {
    const { low, typical, high } = range(cell);
    return `${typical} (${low} to ${high})`;
  };
  const rows = row.months.map(({ weathers, growth, heightFactor, temperatureC }, month) => ({
    cells: [monthNames[month]!, weathers.join(', '), growth, spread(heightFactor), spread(temperatureC)],
  }));
  yield `${table(columns, rows, { width, indent: '  ', colours })}\n\n`;
}

/** A pattern by the heights of its strands, as graziers build it and as published where that differs. */
function* showPattern(row: PatternRow, sources: Map<string, number>, { width, colours }: Look): Generator<string> {
  yield `${colours.strong(row.id)}\n`;
  const heights = ({ strands }: PatternSpec) =>
    strands
      .map(({ heightM, role }) => `${Math.round(heightM / 0.0254)}${role === 'hot' ? '' : ' grounded'}`)
      .join(', ');
  const line = (name: string, spec: PatternSpec) =>
    `${name}: ${heights(spec)} in; ${spec.basis} ${cite(spec, sources)}`;
  const texts = [row.about, `${row.use}, for ${row.animals.join(', ')}`, line('in practice', row.practice)];
  if (row.published) texts.push(line('published', row.published));
  for (const text of texts) yield `${hang('  ', text, width)}\n`;
  yield '\n';
}

/** The values of a row; a wire's resistance to the pulse, which follows from the others, among them. */
function cellsOf(row: AnyRow): (readonly [path: readonly (string | number)[], cell: Estimate])[] {
  const cells = [...tableCellsOf(row)];
  const wire = wireRowSchema.safeParse(row);
  if (!wire.success || wire.data.ohmsPerMetre) return cells;
  return [...cells, [['ohmsToThePulse'], wireOhmsPerMetre(wire.data)]];
}

const columns = [
  { head: '', gives: true },
  { head: 'Low', align: 'right' },
  { head: 'Typical', align: 'right' },
  { head: 'High', align: 'right' },
  { head: 'Unit' },
  { head: 'Basis' },
  { head: 'Source', align: 'right' },
] as const;

function cellLine(name: string, cell: Estimate, sources: Map<string, number>): string[] {
  const { low, typical, high, unit } = range(cell);
  return [name, low, typical, high, unit, cell.basis, cite(cell, sources)];
}

/** The number of a source in the list below the table, `[3]`. */
function cite({ source, fromMemory }: Pick<Estimate, 'source' | 'fromMemory'>, sources: Map<string, number>): string {
  const text = `${source}${fromMemory ? ' (from memory)' : ''}`;
  if (!sources.has(text)) sources.set(text, sources.size + 1);
  return `[${sources.get(text)}]`;
}

function alsoOf(row: AnyRow): string[] {
  const aliases = (row['aliases'] ?? []) as readonly string[];
  return aliases.length > 0 ? [`also written: ${aliases.join(', ')}`] : [];
}

/** What a row holds beside its name, its text and its values: `kind: steel`. */
function factsOf(row: AnyRow): string[] {
  const facts = Object.entries(row).flatMap(([key, value]) => {
    if (['id', 'aliases', 'about', 'text'].includes(key)) return [];
    const list = Array.isArray(value) && value.every((entry) => typeof entry === 'string') ? value.join(', ') : value;
    return (typeof list === 'string' && list !== '') || typeof list === 'number' ? [`${words(key)}: ${list}`] : [];
  });
  return facts.length > 0 ? [facts.join('; ')] : [];
}

/** `throughOhms.dry` as `through ohms, dry`; a test load by its ohms. */
function label(row: AnyRow, path: readonly (string | number)[]): string {
  if (path[0] === 'loads') {
    const load = (row['loads'] as readonly { readonly ohms: number | null }[])[Number(path[1])];
    return load?.ohms == null ? 'volts, open circuit' : `volts at ${load.ohms} Ω`;
  }
  return path.map((key) => words(String(key))).join(', ');
}

/** `contactRadiusM` as `contact radius`: the unit has a column of its own. */
const words = (key: string): string =>
  key
    .replace(/PerOhmM$/, 'PerOhmMetre')
    .replace(/(?<=[a-z])(OhmM|M|N)$/, '')
    .replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
