import { defaults } from '../plan/defaults.js';
import type { ResolvedBuild, ResolvedPlan, ResolvedStrand } from '../plan/resolved.js';
import type { RowEdit } from '../plan/row-fields.js';
import type { RowLookup } from '../plan/row-lookup.js';
import { buildSchema, runSchema, strandSchema } from '../plan/schema-lines.js';
import { type Fields, put, removed, unshared } from './edited-data.js';
import type { RowWords } from './row-words.js';
import { writeLength } from './write-length.js';
import { spacingDigits } from './write-spacing.js';

const orderOf = (schema: { readonly shape: object }) => Object.keys(schema.shape);
const [buildOrder, strandOrder, runOrder] = [buildSchema, strandSchema, runSchema].map(orderOf) as [
  string[],
  string[],
  string[],
];
/** Longest name that a plan takes. */
const longestName = 80;

/** What a build says for all its strands, and a strand for itself; later ones may follow earlier ones. */
const inherited = ['wire', 'insulator', 'insulatorState', 'endInsulator', 'endInsulatorState'] as const;
type Inherited = (typeof inherited)[number];
const tableOf = { wire: 'wires', insulator: 'insulators', endInsulator: 'insulators' } as const;

/** A strand's fields, and the values that it had and is to have. */
interface StrandEdit {
  readonly fields: Fields;
  readonly before: ResolvedStrand;
  readonly after: ResolvedStrand;
}

/**
 * Writes the builds of a changed plan: into the build itself where all its runs have the change, else into a copy for the
 * runs that have it. Returns the name of the present build by each copy.
 */
export function writeBuilds(
  data: Fields,
  before: ResolvedPlan,
  after: ResolvedPlan,
  book: RowLookup,
  words: RowWords,
): Map<unknown, string> {
  const copies = new Map<unknown, string>();
  const builds = data['builds'] as Fields;
  const runs = data['runs'] as Record<string, Fields>;
  const content = ({ id: _, ...rest }: ResolvedBuild) => JSON.stringify(rest);
  const contents = new Map(after.builds.map((build) => [build.id, content(build)]));
  /** Runs by their present build and by what it is to be. */
  const groupsOf = new Map(before.builds.map(({ id }) => [id, new Map<string, string[]>()]));
  before.runs.forEach(({ id, build }, i) => {
    const groups = groupsOf.get(build)!;
    const key = contents.get(after.runs[i]!.build)!;
    if (!groups.get(key)?.push(id)) groups.set(key, [id]);
  });
  for (const build of before.builds) {
    const groups = groupsOf.get(build.id)!;
    // The build stays as it is for the runs that do; else most of its runs keep its name.
    const stay = groups.has(content(build))
      ? content(build)
      : [...groups].sort(([, a], [, b]) => b.length - a.length)[0]?.[0];
    const original = unshared(builds[build.id]) as Fields;
    let last = build.id;
    for (const [key, ids] of groups) {
      const target = { ...(JSON.parse(key) as Omit<ResolvedBuild, 'id'>), id: build.id };
      if (key === stay) {
        writeBuild(builds[build.id] as Fields, build, target, book, words);
        continue;
      }
      const copy = unshared(original);
      writeBuild(copy, build, target, book, words);
      const name = copyName(build.id, ids, builds);
      if (copies.size === 0) nameBuilds(before, runs);
      put(builds, name, copy, [...Object.keys(builds).slice(0, Object.keys(builds).indexOf(last) + 1), name]);
      copies.set(copy, build.id);
      last = name;
      for (const id of ids) put(runs[id]!, 'build', name, runOrder);
    }
  }
  return copies;
}

/** A run may leave out the name of its build only where there is but one. */
function nameBuilds(before: ResolvedPlan, runs: Record<string, Fields>): void {
  for (const { id, build } of before.runs)
    if (runs[id]!['build'] === undefined) put(runs[id]!, 'build', build, runOrder);
}

function copyName(build: string, runs: readonly string[], taken: Fields): string {
  const on = runs.length > 2 ? `${runs[0]} and others` : runs.join(' and ');
  const full = `${build} on ${on}`;
  const name = full.length <= longestName ? full : `${build.slice(0, longestName - 10).trim()} changed`;
  for (let n = 1; ; n++) {
    const tried = n === 1 ? name : `${name.slice(0, longestName - 4).trim()} ${n}`;
    if (!Object.hasOwn(taken, tried)) return tried;
  }
}

function writeBuild(
  fields: Fields,
  before: ResolvedBuild,
  after: ResolvedBuild,
  book: RowLookup,
  words: RowWords,
): void {
  const { usual: usualBefore, spacingM } = postOf(fields, book);
  const strands = writeStrands(fields, before, after);
  const had = inherited.map((key) => strands.map((strand) => effective(key, fields, strand.fields, usualBefore)));
  if (after.post !== before.post) {
    fields['post'] = words('posts', after.post);
    const now = postOf(fields, book).spacingM;
    if (fields['postSpacing'] === undefined && now !== spacingM)
      put(fields, 'postSpacing', writeLength(spacingM, spacingDigits), buildOrder);
  }
  const { usual } = postOf(fields, book);
  inherited.forEach((key, k) => {
    const wanted = strands.map((strand, s) =>
      strand.before[key] === strand.after[key] ? had[k]![s] : wordFor(key, strand.after[key], words),
    );
    writeInherited(key, fields, strands, wanted, usual, book);
  });
}

const wordFor = (key: Inherited, value: string, words: RowWords): string =>
  key in tableOf ? words(tableOf[key as keyof typeof tableOf], value) : value;

/** Insulator and spacing that go with a build's post where the build names none. */
function postOf(fields: Fields, book: RowLookup): { readonly usual: string; readonly spacingM: number } {
  const row = book.find('posts', fields['post'] as string | RowEdit, ['post'])!;
  return { usual: book.usualInsulator(row) ?? '', spacingM: row.usualSpacingM.typical };
}

/** Takes strands away and adds others, and pairs those that are left with what they are to be. */
function writeStrands(fields: Fields, before: ResolvedBuild, after: ResolvedBuild): StrandEdit[] {
  const list = fields['strands'] as (Fields | typeof removed)[];
  const stays = new Map(after.strands.map((strand) => [strand.id, strand]));
  const edits: StrandEdit[] = [];
  const present = list.slice() as Fields[];
  let number = 0;
  before.strands.forEach((strand, i) => {
    const now = stays.get(strand.id);
    if (now === undefined) {
      list[i] = removed;
      return;
    }
    number++;
    const own = present[i]!;
    // Strands without a name are called by their number, which must not change.
    if (own['name'] === undefined && strand.id !== `strand ${number}`) put(own, 'name', strand.id, strandOrder);
    edits.push({ fields: own, before: strand, after: now });
  });
  const known = new Set(before.strands.map(({ id }) => id));
  const top = before.strands
    .map((strand, i) => ({ strand, i }))
    .filter(({ strand }) => strand.role === 'hot')
    .sort((a, b) => a.strand.heightM - b.strand.heightM)
    .at(-1);
  for (const strand of after.strands) {
    if (known.has(strand.id) || top === undefined) continue;
    const { name: _, ...rest } = unshared(present[top.i]!);
    const own: Fields = { name: strand.id, ...rest };
    list.push(own);
    edits.push({ fields: own, before: top.strand, after: strand });
  }
  return edits;
}

/** What a strand has by its own field, its build's, or where neither says anything. */
function effective(key: Inherited, build: Fields, strand: Fields, usual: string): unknown {
  const own = strand[key];
  if (own !== undefined) return own;
  const grounded = strand['role'] === 'grounded';
  switch (key) {
    case 'wire':
      return build['wire'];
    case 'insulator':
      return grounded ? defaults.groundedInsulator : (build['insulator'] ?? usual);
    case 'endInsulator':
      return grounded ? defaults.groundedInsulator : (build['endInsulator'] ?? defaults.endInsulator);
    case 'insulatorState':
      return build['insulatorState'] ?? 'new';
    case 'endInsulatorState':
      return build['endInsulatorState'] ?? effective('insulatorState', build, strand, usual);
  }
}

/** Gives every strand the value that is wanted, by its own field or by the build's, whichever takes fewer edits. */
function writeInherited(
  key: Inherited,
  build: Fields,
  strands: readonly StrandEdit[],
  wanted: readonly unknown[],
  usual: string,
  book: RowLookup,
): void {
  const idOf = (value: unknown): unknown => {
    if (typeof value !== 'string') return JSON.stringify(value);
    return key in tableOf ? (book.find(tableOf[key as keyof typeof tableOf], value, [key])?.id ?? value) : value;
  };
  const same = (a: unknown, b: unknown) => idOf(a) === idOf(b);
  /** Own values of the strands, undefined for none, under a build that says so; as few as will do. */
  const ownUnder = (ofBuild: unknown) => {
    const fields = { ...build, [key]: ofBuild };
    return strands.map(({ fields: own }, s) => {
      if (own[key] !== undefined && same(own[key], wanted[s])) return own[key];
      const { [key]: _, ...bare } = own;
      return same(effective(key, fields, bare, usual), wanted[s]) ? undefined : wanted[s];
    });
  };
  const choices = [build[key], ...new Set(wanted)].map((ofBuild, n) => {
    const own = ownUnder(ofBuild);
    const moved = ofBuild !== undefined && build[key] !== undefined && same(ofBuild, build[key]);
    const edits = own.filter((value, s) => value !== strands[s]!.fields[key]).length + (n === 0 || moved ? 0 : 1);
    // Of two that take as many edits the one that says it once for the build, where the others need not be told.
    const told = own.some((value, s) => value !== undefined && value !== strands[s]!.fields[key]);
    return { ofBuild, own, cost: edits - (n === 0 || told ? 0 : 0.5) };
  });
  const best = choices[0]!.cost === 0 ? choices[0]! : choices.reduce((a, b) => (b.cost < a.cost ? b : a));
  if (best.ofBuild !== build[key]) put(build, key, unshared(best.ofBuild), buildOrder);
  best.own.forEach((value, s) => {
    const own = strands[s]!.fields;
    if (value === own[key]) return;
    if (value === undefined) delete own[key];
    else put(own, key, unshared(value), strandOrder);
  });
}
