import { formatLength, formatVolts, type ResolvedPlan, type UnitSystem } from '@postvolt/core';
import { type FigureOptions, figure, figureWidth, isNarrow, label, textWidth } from '../look/figure.js';
import { wrapText } from '../look/text-width.js';
import { paint } from '../look/theme.js';
import { el, type Markup } from '../markup/element.js';

/** A stretch of a run in which a fault may be. */
export interface FaultCandidate {
  readonly run: string;
  readonly fromM: number;
  readonly toM: number;
  /** 1 for the likeliest. */
  readonly rank: number;
  readonly cause: string;
}

/** A reading of the meter, or a place to take the next one. */
export interface ReadingPlace {
  readonly run: string;
  readonly positionM: number;
  /** Null for a place still to be read. */
  readonly volts: number | null;
}

/** What the candidates for a fault are drawn from. */
export interface FaultCandidatesInput {
  readonly title?: string;
  readonly plan: Pick<ResolvedPlan, 'runs'>;
  readonly units: UnitSystem;
  readonly candidates: readonly FaultCandidate[];
  readonly readings?: readonly ReadingPlace[];
}

/** Where a fault may be: a lane a run with the suspected stretches, numbered by rank, and the readings. */
export function faultCandidates(input: FaultCandidatesInput, options: FigureOptions = {}): string {
  const { plan, units, readings = [] } = input;
  const candidates = [...input.candidates].sort((a, b) => a.rank - b.rank);
  const narrow = isNarrow(options);
  const width = figureWidth(options);
  const left = narrow ? 10 : 150;
  const right = width - 90;
  // Runs with nothing on them only make room on a small fence.
  const touched = new Set([...candidates, ...readings].map(({ run }) => run));
  const runs = plan.runs.filter(({ id }) => plan.runs.length <= 12 || touched.has(id));
  const longest = Math.max(1, ...runs.map(({ lengthM }) => lengthM));
  const x = (metres: number) => left + ((right - left) * metres) / longest;
  let y = 8;
  const lanes = runs.map((run) => {
    const own = candidates.filter((candidate) => candidate.run === run.id);
    const read = readings.filter((reading) => reading.run === run.id);
    const base = y + (narrow ? 20 : 0) + (read.length > 0 ? 30 : 18);
    y = base + 18;
    return el(
      'g',
      {},
      narrow
        ? label(run.id, left, base - (read.length > 0 ? 34 : 14), { width: width - 20 })
        : label(run.id, left - 12, base + 4, { anchor: 'end', width: left - 20 }),
      el('line', {
        x1: x(0),
        x2: x(run.lengthM),
        y1: base,
        y2: base,
        'stroke-width': 2,
        'stroke-linecap': 'round',
        ...paint({ stroke: 'line' }),
      }),
      label(formatLength(run.lengthM, units), x(run.lengthM) + 10, base + 4, { size: 11, role: 'soft' }),
      [...own].reverse().map((candidate) => stretchOf(candidate, x, base)),
      read.map((reading) => readingOf(reading, x, base, units)),
    );
  });
  const key = candidates.map(({ rank, run, fromM, toM, cause }) => ({
    rank,
    words: `${cause}: ${run}, from ${formatLength(fromM, units)} to ${formatLength(toM, units)}`,
  }));
  const keyTop = y + 18;
  let keyY = keyTop;
  const keyRows = key.map(({ rank, words }) => {
    const lines = wrapText(words, width - 50, 12, 2);
    const top = keyY;
    keyY += 6 + lines.length * 16;
    return [badge(20, top, rank), lines.map((line, i) => label(line, 38, top + 4 + i * 15))];
  });
  return figure(
    {
      title: input.title ?? 'Where the fault may be',
      description:
        key.length === 0 ? 'No stretch is suspected.' : key.map(({ rank, words }) => `${rank}: ${words}`).join('; '),
    },
    keyY + (readings.length > 0 ? 24 : 0),
    options,
    lanes,
    keyRows,
    readings.length > 0 ? readingKey(keyY + 4) : null,
  );
}

function stretchOf({ run, fromM, toM, rank, cause }: FaultCandidate, x: (metres: number) => number, y: number): Markup {
  // A stretch too short to see is drawn wide enough.
  const wide = Math.max(6, x(toM) - x(fromM));
  const start = (x(fromM) + x(toM)) / 2 - wide / 2;
  return el(
    'g',
    {},
    el('title', {}, `${rank}: ${cause} on ${run}`),
    el('rect', {
      x: start,
      y: y - 6,
      width: wide,
      height: 12,
      rx: 2,
      ...paint({ fill: rank === 1 ? 'seal' : 'barSoft', stroke: rank === 1 ? 'seal' : 'bar' }),
    }),
    badge(start + wide / 2, y, rank),
  );
}

const badge = (x: number, y: number, rank: number): Markup =>
  el(
    'g',
    {},
    el('circle', {
      cx: x,
      cy: y,
      r: 8,
      'stroke-width': 1.4,
      ...paint({ fill: 'paper', stroke: rank === 1 ? 'seal' : 'bar' }),
    }),
    label(String(rank), x, y + 4, { anchor: 'middle', size: 11, bold: true, role: rank === 1 ? 'seal' : 'ink' }),
  );

function readingOf(
  { run, positionM, volts }: ReadingPlace,
  x: (metres: number) => number,
  y: number,
  units: UnitSystem,
): Markup {
  const at = x(positionM);
  const words = volts === null ? 'read next' : formatVolts(volts);
  const shift = Math.max(0, textWidth(words, 10) / 2 - at + 4);
  return el(
    'g',
    {},
    el('title', {}, `${words} at ${run}, ${formatLength(positionM, units)}`),
    readingSign(at, y - 9, volts !== null),
    label(words, at + shift, y - 20, { anchor: 'middle', size: 10, role: 'soft' }),
  );
}

const readingSign = (x: number, y: number, read: boolean): Markup =>
  el('path', {
    d: `M${(x - 5).toFixed(1)} ${y - 8}h10l-5 8z`,
    'stroke-width': 1.4,
    ...paint({ fill: read ? 'ink' : 'paper', stroke: 'ink' }),
  });

const readingKey = (y: number): Markup =>
  el(
    'g',
    {},
    readingSign(20, y + 4, true),
    label('read', 34, y + 4, { size: 11 }),
    readingSign(80, y + 4, false),
    label('to be read next', 94, y + 4, { size: 11 }),
  );
