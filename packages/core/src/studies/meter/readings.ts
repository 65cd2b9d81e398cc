import { type Issue, type Outcome, PlanError } from '../../issue.js';
import { type Layout, layOut } from '../../network/layout.js';
import { Reporter } from '../../plan/reporter.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import { nearest, suggestion } from '../../plan/suggest.js';
import { reportZod } from '../../plan/zod-issues.js';
import { usualMeterPercent } from './meter-error.js';
import { findDirection, findPlaces, type ReadingPlace } from './reading-place.js';
import { type MeterReadingsInput, meterReadingsSchema } from './readings-schema.js';

/** One stop with a fence meter. */
export interface MeterReading {
  /** `run/number`, or a junction's id. */
  readonly post: string;
  readonly run: string;
  /** Number of the post in that run. */
  readonly postNumber: number;
  /** Hot strands that the amps are the sum of; the volts are of the first. */
  readonly strands: readonly string[];
  /** Peak volts to earth; null where not read. */
  readonly volts: number | null;
  /** Peak amps in the wire clamped, positive away from the post; null where not read. */
  readonly amps: number | null;
  /** Whether that wire leads to the higher post numbers of the run (1) or to the lower ones (−1). */
  readonly direction: 1 | -1;
}

/** A round with a fence meter, every name looked up in the plan. */
export interface MeterReadings {
  /** Id of the condition that prevailed. */
  readonly condition: string;
  /** Standard deviation of a reading, percent of it. */
  readonly meterErrorPercent: number;
  readonly readings: readonly MeterReading[];
}

/** What to take in place of what the readings say themselves. */
export interface ReadingsOptions {
  readonly condition?: string;
  readonly meterErrorPercent?: number;
  /** The condition of readings that do not say theirs. */
  readonly usualCondition?: string;
}

/** Reads a fence meter's readings against a plan. Never throws: all errors that could be found together come back as issues. */
export function readReadings(
  input: unknown,
  plan: ResolvedPlan,
  options: ReadingsOptions = {},
): Outcome<MeterReadings> {
  const report = new Reporter();
  const parsed = meterReadingsSchema.safeParse(input);
  if (!parsed.success) {
    reportZod(parsed.error.issues, meterReadingsSchema, input, report);
    return { ok: false, issues: report.issues };
  }
  const { data } = parsed;
  const condition = findCondition(plan, options.condition ?? data.condition ?? options.usualCondition ?? null, report);
  const layout = layOut(plan);
  const readings = data.readings.flatMap((reading, i) => {
    const found = readOne(layout, reading, ['readings', i], report);
    return found === null ? [] : [found];
  });
  const meterErrorPercent =
    options.meterErrorPercent ?? (data.meterError === undefined ? usualMeterPercent : 100 * data.meterError);
  return report.failed
    ? { ok: false, issues: report.issues }
    : { ok: true, value: { condition, meterErrorPercent, readings }, issues: report.issues };
}

/** Like `readReadings`; throws a `PlanError` where something is wrong. */
export function parseReadings(
  input: MeterReadingsInput,
  plan: ResolvedPlan,
  options: ReadingsOptions = {},
): MeterReadings {
  const outcome = readReadings(input, plan, options);
  if (!outcome.ok) throw new PlanError(outcome.issues);
  return outcome.value;
}

/** Id of the condition named by id or name; the plan's only one where none is named; '' with an error where there is none. */
function findCondition(plan: ResolvedPlan, name: string | null, report: Reporter): string {
  const { conditions } = plan;
  const ids = conditions.map(({ id }) => id);
  if (name === null) {
    if (conditions.length === 1) return ids[0]!;
    const expected = `the plan's condition that prevailed: ${ids.map((id) => `"${id}"`).join(', ')}`;
    report.error('missing-key', ['condition'], 'nothing', expected);
    return '';
  }
  const same = (text: string) => text.trim().toLowerCase() === name.trim().toLowerCase();
  const found = conditions.find(({ id, name: words }) => same(id) || same(words));
  if (found !== undefined) return found.id;
  report.error('unknown-name', ['condition'], `"${name}"`, 'a condition of the plan', suggestion(name, ids));
  return '';
}

type Row = MeterReadingsInput['readings'][number];

function readOne(layout: Layout, row: Row, path: Issue['path'], report: Reporter): MeterReading | null {
  const kV = row.kV ?? null;
  const amps = row.amps ?? null;
  // A row of a printed sheet that was not filled in.
  if (kV === null && amps === null) return null;
  const stands = findPlaces(layout, row.post);
  if (stands.length === 0) {
    const names = [...layout.plan.junctions, ...layout.plan.runs].map(({ id }) => id);
    const near = nearest(row.post.replace(/\/\d+$/, ''), names);
    const expected = 'a junction, or RUN/NUMBER with a post of that run';
    report.error(
      'unknown-post',
      [...path, 'post'],
      `"${row.post}"`,
      expected,
      near === null ? '' : wordNear(layout, near),
    );
    return null;
  }
  const way = directionOf(layout, row, stands, path, report);
  if (way === null) return null;
  const strands = strandsOf(layout, way.run, row.strand ?? null, amps !== null, path, report);
  if (strands === null) return null;
  return {
    post: row.post,
    run: layout.runs[way.run]!.run.id,
    postNumber: way.post,
    strands,
    volts: kV === null ? null : 1000 * kV,
    amps: amps !== null && isFilled(row.from) ? -amps : amps,
    direction: way.direction,
  };
}

const isFilled = (text: string | null | undefined): text is string => (text ?? null) !== null;

/** Which wire of a post was clamped; null with an error where the row does not say, or says it wrongly. */
function directionOf(
  layout: Layout,
  { post, amps, towards, from }: Row,
  stands: readonly ReadingPlace[],
  path: Issue['path'],
  report: Reporter,
): ReadingPlace | null {
  if (isFilled(towards) && isFilled(from)) {
    report.error('bad-direction', [...path, 'from'], `"${from}" beside towards`, 'either towards or from');
    return null;
  }
  const key = isFilled(from) ? 'from' : 'towards';
  const name = from ?? towards ?? null;
  if (name === null) {
    const { run, post: i } = stands[0]!;
    const isOnly = stands.length === 1 && (i === 0 || i === layout.runs[run]!.spans);
    if ((amps ?? null) === null || isOnly) return stands[0]!;
    const expected = 'the post, junction or run that the current flows towards, or comes from, as the meter shows it';
    report.error('missing-key', [...path, key], 'amps without a direction', expected);
    return null;
  }
  const way = findDirection(layout, stands, name);
  if (way !== null) return way;
  const expected = `a post, junction or run to which one wire leads from ${post}`;
  report.error('bad-direction', [...path, key], `"${name}"`, expected, wordWays(layout, stands));
  return null;
}

const wordNear = (layout: Layout, near: string): string => {
  const run = layout.runs.find(({ run }) => run.id === near);
  return run === undefined ? `Did you mean "${near}"?` : `Posts of run ${near} are ${near}/0 to ${near}/${run.spans}.`;
};

const wordWays = (layout: Layout, stands: readonly ReadingPlace[]): string =>
  `Known: ${[...new Set(stands.map(({ run }) => `"${layout.runs[run]!.run.id}"`))].slice(0, 8).join(', ')}, and their posts.`;

/** Ids of the hot strands that a reading is of, the one for the volts first; null with an error where there are none. */
function strandsOf(
  layout: Layout,
  r: number,
  name: string | null,
  withAmps: boolean,
  path: Issue['path'],
  report: Reporter,
): string[] | null {
  const { strands, run } = layout.runs[r]!;
  const hot = strands.filter(({ role }) => role === 'hot').sort((a, b) => b.heightM - a.heightM);
  const ids = hot.map(({ id }) => id);
  if (name === null) {
    if (hot.length === 0) {
      report.error('no-hot-strand', [...path, 'post'], `run ${run.id}`, 'a run with a hot strand');
      return null;
    }
    if (!withAmps || hot.length === 1) return [ids[0]!];
    const expected = `which of the ${hot.length} hot strands was clamped (${ids.join(', ')}), or "all" for their sum`;
    report.error('missing-key', [...path, 'strand'], 'amps without a strand', expected);
    return null;
  }
  const same = (id: string) => id.toLowerCase() === name.trim().toLowerCase();
  const own = ids.find(same);
  if (own !== undefined) return [own];
  if (name.trim().toLowerCase() === 'all' && ids.length > 0) return ids;
  const expected = `a hot strand of run ${run.id}, or "all"`;
  report.error('unknown-name', [...path, 'strand'], `"${name}"`, expected, suggestion(name, [...ids, 'all']));
  return null;
}
