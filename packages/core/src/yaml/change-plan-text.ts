import { standardTables, type TableName, type Tables } from '@postvolt/tables';
import { type Outcome, PlanError } from '../issue.js';
import { withOwnTables } from '../plan/own-tables.js';
import type { ReadOptions } from '../plan/read.js';
import { isResolvedPlan } from '../plan/read-resolved.js';
import { Reporter } from '../plan/reporter.js';
import type { ResolvedPlan } from '../plan/resolved.js';
import { lookUpRow } from '../plan/row-index.js';
import { RowLookup } from '../plan/row-lookup.js';
import { planSchema } from '../plan/schema.js';
import { applyChanges } from '../studies/compare/apply-change.js';
import type { PlanChange } from '../studies/compare/change.js';
import { cannotWrite } from './cannot-write.js';
import { type Fields, settled, unshared } from './edited-data.js';
import { longestYaml, readDocument } from './read-document.js';
import { readPlanData, readPlanText } from './read-plan-text.js';
import { rowWords } from './row-words.js';
import { fenceDifference } from './same-fence.js';
import { spliceText } from './splice-text.js';
import { writeBuilds } from './write-builds.js';
import { writeEnergizer } from './write-energizer.js';
import { writeConditions, writeStretches } from './write-growth.js';
import { writeParts } from './write-parts.js';
import { writeSpacing } from './write-spacing.js';

/** A plan's text with changes written into it. */
export interface ChangedPlanText {
  /** In the format of the text that was given. */
  readonly text: string;
  /** The plan as it was, and as the new text reads. */
  readonly before: ResolvedPlan;
  readonly after: ResolvedPlan;
}

/**
 * Writes changes into a plan's text, the same that `compare` tries: comments, order, quotes and layout of all else stay.
 *
 * A change of some of the runs of a build goes into a copy of the build for them. JSON stays JSON. The new text is read back
 * and held against the plan with the changes made in memory, so that it never says anything else. What is wrong with
 * the plan, a change, or the writing of it comes back as issues, and then there is no text.
 */
export function changePlanText(
  text: string,
  changes: readonly PlanChange[],
  options: ReadOptions = {},
): Outcome<ChangedPlanText> {
  let input: unknown;
  const read = readDocument(text, 'a plan', (value) => {
    input = value;
    return readPlanData(value, options);
  });
  if (!read.ok) return read;
  const before = read.value;
  const tables = options.tables ?? standardTables;
  try {
    if (isResolvedPlan(input)) return changeResolved(text, before, applyChanges(before, changes, tables), options);
    const own = ownTables(input, tables);
    const wanted = applyChanges(before, changes, own);
    checkRows(changes, own);
    const words = rowWords(changes, own);
    const data = unshared(input) as Fields;
    const copies = writeBuilds(data, before, wanted, new RowLookup(own, new Reporter()), words);
    writeSpacing(data, before, wanted);
    writeParts(data, before, wanted);
    writeStretches(data, before, wanted);
    writeConditions(data, before, wanted);
    writeEnergizer(data, before, wanted, words);
    // JSON of a program's size is written anew.
    const changed = text.length > longestYaml ? jsonLike(text, settled(data)) : spliceText(text, data, copies);
    return proved(changed, before, wanted, options);
  } catch (error) {
    if (error instanceof PlanError) return { ok: false, issues: error.issues };
    throw error;
  }
}

/** The tables with what the plan has of its own, so that changes may name its own rows. */
const ownTables = (input: unknown, tables: Tables): Tables =>
  withOwnTables(tables, planSchema.parse(input).tables, new Reporter());

const tableOf: Readonly<Partial<Record<PlanChange['what'], TableName>>> = {
  insulator: 'insulators',
  'end insulator': 'insulators',
  wire: 'wires',
  post: 'posts',
  energizer: 'energizers',
  growth: 'vegetation',
};

/** Rows that a change puts in have to have a name by which the plan can call them. */
function checkRows(changes: readonly PlanChange[], tables: Tables): void {
  for (const change of changes) {
    const name = 'row' in change ? change.row : 'atMost' in change ? change.atMost : null;
    const table = tableOf[change.what];
    if (name === null || table === undefined || lookUpRow(tables, table, name) !== undefined) continue;
    const found = `"${name}", a row that the plan changes on the spot`;
    cannotWrite(found, 'a row with a name', `Write it under \`tables: ${table}:\` with a name of its own.`);
  }
}

/** A resolved plan is data of a program: the changed plan takes its place whole. */
function changeResolved(
  text: string,
  before: ResolvedPlan,
  wanted: ResolvedPlan,
  options: ReadOptions,
): Outcome<ChangedPlanText> {
  if (!/^\uFEFF?\s*\{/.test(text))
    cannotWrite('a resolved plan as YAML', 'a plan as people write it, or a resolved plan as JSON');
  return proved(jsonLike(text, wanted), before, wanted, options);
}

/** A value as JSON, indented as a text is. */
function jsonLike(text: string, value: unknown): string {
  const indent = /\n([ \t]+)"/.exec(text)?.[1] ?? '';
  return `${JSON.stringify(value, null, indent)}${text.endsWith('\n') ? '\n' : ''}`;
}

/** The new text, once it reads as the plan that it should. */
function proved(
  text: string,
  before: ResolvedPlan,
  wanted: ResolvedPlan,
  options: ReadOptions,
): Outcome<ChangedPlanText> {
  const read = readPlanText(text, options);
  if (!read.ok) {
    const broken = read.issues.find(({ code }) => code === 'bad-yaml' || code === 'repeated-key');
    if (broken !== undefined) cannotWrite(`text that would not read any more (${broken.found})`);
    // The lines are those of a text that nobody will see.
    return { ok: false, issues: read.issues.map((issue) => ({ ...issue, at: null })) };
  }
  const place = fenceDifference(wanted, read.value);
  if (place !== null) cannotWrite(`a difference at ${place} once it is written`);
  return { ok: true, value: { text, before, after: read.value }, issues: read.issues };
}
