import {
  type EnergizerRow,
  findRow,
  type PatternRow,
  type PatternSpec,
  patterns,
  standardTables,
  type TableName,
  type Tables,
} from '@postvolt/tables';
import { type Issue, PlanError } from '../../issue.js';
import { type DrawnRuns, runsFromGeoJson } from '../../plan/from-geojson.js';
import { suggestion } from '../../plan/suggest.js';
import { formatLength, type UnitSystem } from '../../quantity/format.js';
import { rodsFor } from './rods.js';

/** A few answers, from which a plan is drafted. */
export interface DraftAnswers {
  /** Row of the animals table. */
  readonly animal: string;
  /** Row of the soils table. */
  readonly soil: string;
  /** Row of the energizers table: the class that there is, or is thought of. */
  readonly energizer: string;
  readonly use: 'permanent' | 'temporary';
  /** Of the whole fence; give this or `geoJson`. */
  readonly lengthM?: number;
  /** The fence as drawn on a map: a LineString feature a run (RFC 7946). */
  readonly geoJson?: unknown;
  readonly units?: UnitSystem;
  readonly title?: string;
}

/** A drafted plan, and what it was drafted from. */
export interface Draft {
  /** The plan as YAML with comments, to be edited. */
  readonly text: string;
  readonly pattern: PatternRow;
  /** What to look at before building, a sentence each. */
  readonly notes: readonly string[];
}

/**
 * Drafts a plan from a few answers: strands and heights usual for the animal, posts and insulators that go with them,
 * ground rods by the rule of thumb, and three conditions.
 *
 * Throws a `PlanError` for a name that the tables lack, and for a length or map that is missing or cannot be used.
 */
export function draftPlan(answers: DraftAnswers, tables: Tables = standardTables): Draft {
  const animal = row(tables, 'animals', answers.animal, 'animal');
  const soil = row(tables, 'soils', answers.soil, 'soil');
  const energizer = row(tables, 'energizers', answers.energizer, 'energizer');
  const pattern = patternFor(animal.id, answers.use);
  const shape = shapeOf(answers);
  const units = answers.units ?? 'imperial';
  const look = { units, short: (metres: number) => height(metres, units) };
  const lines = [
    `# Drafted by Postvolt from a few answers: ${answers.use} fence for ${animal.id} on ${soil.id}. Change what is not so.`,
    'formatVersion: 1',
    `title: ${JSON.stringify(answers.title ?? `${capital(answers.use)} fence for ${animal.id}`)}`,
    `units: ${units}`,
    `target: ${animal.id} # ${animal.about}`,
    `soil: ${soil.id}`,
    '',
    ...energizerLines(energizer, answers.use, shape.home, look.short),
    '',
    ...shape.lines,
    '',
    ...buildLines(pattern, look.short, units),
    '',
    'conditions: # the seasons to be sure of; add your own',
    '  dry summer: { soil: dry, surface: dry, growth: light }',
    '  wet spring: { soil: wet, surface: wet, growth: moderate }',
    ...(answers.use === 'permanent'
      ? ['  hard winter: { soil: frozen, surface: dry, growth: trace, groundCover: wet snow, temperature: -5 °C }']
      : []),
    '',
  ];
  return { text: lines.join('\n'), pattern, notes: notesOf(pattern, energizer, look.short) };
}

function row<Name extends Exclude<TableName, 'cautions'>>(tables: Tables, table: Name, name: string, path: string) {
  const found = findRow(tables, table, name);
  if (found !== undefined) return found;
  const ids = tables[table].map((known) => known.id);
  throw refuse([path], JSON.stringify(name), `a row of the table of ${table}`, suggestion(name, ids));
}

const refuse = (path: Issue['path'], found: string, expected: string, hint = '') =>
  new PlanError([{ code: 'bad-answer', severity: 'error', path, found, expected, hint, at: null }]);

/** The pattern usual for an animal; one for cattle where there is none of its own. */
export function patternFor(animal: string, use: DraftAnswers['use']): PatternRow {
  const fitting = patterns.filter((pattern) => pattern.use === use);
  return fitting.find((pattern) => pattern.animals.includes(animal)) ?? fitting[0]!;
}

interface Shape {
  /** Junction where the energizer stands. */
  readonly home: string;
  readonly lines: readonly string[];
}

function shapeOf({ lengthM, geoJson, units = 'imperial' }: DraftAnswers): Shape {
  if (geoJson !== undefined) {
    const drawn = runsFromGeoJson(geoJson);
    if (!drawn.ok) throw new PlanError(drawn.issues);
    return drawnShape(drawn.value);
  }
  if (lengthM === undefined) throw refuse(['length'], 'nothing', 'a length, or a map of the fence as GeoJSON');
  if (!(lengthM > 0 && lengthM <= 1e6))
    throw refuse(['length'], `${lengthM} m`, 'a length above 0 m, and at most 1,000 km');
  return {
    home: 'home',
    lines: [
      'junctions: [home, far end]',
      'runs: # one run from the energizer to the far end; draw yours run by run, with corners and tees as junctions',
      `  line: { from: home, to: far end, length: ${formatLength(lengthM, units, 6).replaceAll(',', '')}, build: fence }`,
    ],
  };
}

function drawnShape({ junctions, runs }: DrawnRuns): Shape {
  const [home] = Object.keys(junctions);
  return {
    home: home!,
    lines: [
      'junctions: # as drawn on the map; ends within a metre of each other are one',
      ...Object.entries(junctions).map(([name, { at }]) => `  ${JSON.stringify(name)}: { at: [${at.join(', ')}] }`),
      'runs:',
      ...Object.entries(runs).flatMap(([name, { from, to, line, ...fields }]) => [
        `  ${JSON.stringify(name)}:`,
        `    from: ${JSON.stringify(from)}`,
        `    to: ${JSON.stringify(to)}`,
        `    line: [${line.map((at) => `[${at.join(', ')}]`).join(', ')}]`,
        ...Object.entries({ ...fields, build: 'fence' }).map(([key, value]) => `    ${key}: ${JSON.stringify(value)}`),
      ]),
    ],
  };
}

function energizerLines(
  energizer: EnergizerRow,
  use: DraftAnswers['use'],
  home: string,
  short: (m: number) => string,
): string[] {
  const rods = rodsFor(energizer.joules, use);
  return [
    'energizer:',
    `  at: ${JSON.stringify(home)}`,
    `  class: ${energizer.id} # generic; better: output: { open: ..., 500 ohm: ..., 100 ohm: ... } from its papers`,
    ...(use === 'permanent'
      ? [`  leadOut: { length: ${short(15)} } # insulated cable from the energizer to the fence`]
      : []),
    `  groundRods: { count: ${rods.count}, length: ${short(rods.lengthM)}, spacing: ${short(rods.spacingM)} } # ${rods.rule}`,
  ];
}

function buildLines(pattern: PatternRow, short: (m: number) => string, units: UnitSystem): string[] {
  const { practice, published, use, about } = pattern;
  const horses = pattern.animals.includes('horses');
  const many = practice.strands.length > 3;
  const permanent = use === 'permanent';
  const wire = permanent
    ? units === 'imperial'
      ? '12.5 ga high-tensile'
      : '2.5 mm high-tensile'
    : horses
      ? 'poly tape 12 mm'
      : 'poly twine';
  return [
    `# ${about} Heights: ${practice.source}.`,
    ...(published === null
      ? []
      : [`# Published specifications ask for ${wordHeights(published, short)}: ${published.source} (from memory).`]),
    'builds:',
    '  fence:',
    `    post: ${permanent ? 'wood' : 'step-in'}`,
    `    postSpacing: ${short(permanent ? (many ? 9 : 12) : 8)}`,
    `    wire: ${wire}`,
    ...(permanent ? ['    insulator: nail-on claw', '    endInsulator: porcelain bullnose'] : []),
    '    strands:',
    ...[...practice.strands]
      .reverse()
      .map(
        ({ heightM, role }, i) =>
          `      - { name: s${practice.strands.length - i}, height: ${short(heightM)}${role === 'hot' ? '' : ', role: grounded'} }`,
      ),
  ];
}

function notesOf(pattern: PatternRow, energizer: EnergizerRow, short: (m: number) => string): string[] {
  const { practice, published } = pattern;
  const notes = [`Strands as graziers build it, ${wordHeights(practice, short)} (${practice.source}).`];
  if (published !== null)
    notes.push(
      `Published specifications ask for ${wordHeights(published, short)} (${published.source}, from memory); ask which your cost share or neighbour's law demands.`,
    );
  notes.push(`Ground rods: ${rodsFor(energizer.joules, pattern.use).rule}; ask \`supply\` what this soil needs.`);
  return notes;
}

const wordHeights = ({ strands }: PatternSpec, short: (m: number) => string): string =>
  `${strands.length === 1 ? 'one strand' : `${strands.length} strands`} at ${strands.map((s) => `${short(s.heightM)}${s.role === 'hot' ? '' : ' (grounded)'}`).join(', ')}`;

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A length on or beside a post, to the inch or the centimetre, feet for what is taller than a person. */
function height(metres: number, units: UnitSystem): string {
  if (units === 'metric') return metres < 3 ? `${Math.round(metres * 100)} cm` : `${Number(metres.toFixed(1))} m`;
  const inches = metres / 0.0254;
  return inches < 71.5 ? `${Math.round(inches)} in` : `${Math.round(inches / 12)} ft`;
}
