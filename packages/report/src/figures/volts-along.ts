import {
  type ConditionResult,
  comparedVolts,
  formatLength,
  formatNumber,
  formatVolts,
  type PlanResult,
  type ResolvedPlan,
} from '@postvolt/core';
import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import { type ProfilePost, type RunProfile, runProfiles } from '../data/run-profiles.js';
import { lowestPerCell, thinLine } from '../data/thin.js';
import { wayTo } from '../data/way-to.js';
import { type FigureOptions, figure, figureWidth, isNarrow, label } from '../look/figure.js';
import { energizerGlyph } from '../look/glyphs.js';
import { type LineStyle, lineAttributes, lineMark, lineStyle } from '../look/line-style.js';
import { paint } from '../look/theme.js';
import { el, type Markup } from '../markup/element.js';
import { conditionKey } from './condition-key.js';
import { faultStrip } from './fault-strip.js';
import { bottomTicks, type Linear, lengthUnit, niceScale, type Plot, targetLine, voltsAxis } from './scales.js';
import { targetWords, voltsName, wordList } from './words.js';

/** A band of volts round one condition's line, such as P10 to P90 of a study. */
export interface VoltsBand {
  readonly condition: string;
  /** Such as `P10 to P90`. */
  readonly label: string;
  /** By id of the post. */
  readonly posts: ReadonlyMap<string, { readonly low: number; readonly high: number }>;
}

/** What volts along the fence are drawn from. */
export interface VoltsAlongInput {
  readonly plan: ResolvedPlan;
  readonly result: PlanResult;
  /** Ids of the conditions to draw; all of the result where left out. */
  readonly conditions?: readonly string[];
  readonly band?: VoltsBand;
}

interface Line {
  readonly condition: ConditionResult;
  readonly style: LineStyle;
  readonly profiles: readonly RunProfile[];
  /** From the energizer to the weakest post. */
  readonly way: readonly ProfilePost[];
  readonly weakest: ProfilePost | undefined;
}

/**
 * Volts along the fence by distance from the energizer: a line a condition, strong along the way to its weakest post and
 * thin along the other runs, the target, the weakest posts, the faults, and a band where one is given.
 * A post stands for the lowest of its hot strands. Drawing is thinned to the pixel; extremes stay.
 */
export function voltsAlong(input: VoltsAlongInput, options: FigureOptions = {}): string {
  const { plan, result } = input;
  const lines = linesOf(input);
  const narrow = isNarrow(options);
  const width = figureWidth(options);
  const key = conditionKey(
    lines.map(({ condition, style }) => ({
      style,
      name: condition.name,
      note: `${formatVolts(condition.verdict.weakest.compared)} at ${condition.verdict.weakest.postId}`,
    })),
    narrow ? width - 16 : 172,
  );
  const top = narrow ? key.height + 44 : 40;
  const plot: Plot = { left: 40, right: narrow ? width - 12 : width - 190, top, bottom: top + (narrow ? 230 : 320) };
  const all = lines.flatMap(({ profiles }) => profiles.flatMap(({ posts }) => posts));
  const longestM = Math.max(1, ...ends(all, (post) => post.distanceM));
  const [lowest, highest] = ends([...all.map(({ volts }) => volts), ...bandValues(input.band)], (volts) => volts);
  const y = niceScale(lowest, Math.max(highest, result.target.volts), [plot.bottom, plot.top], 5);
  const unit = lengthUnit(longestM, result.units);
  const ticks = scaleLinear([0, longestM / unit.metres], [plot.left, plot.right]);
  const x = (metres: number) => ticks(metres / unit.metres);
  const faults = faultStrip(plan, lines[0]?.profiles ?? [], x, plot);
  const axisY = plot.bottom + 38 + faults.height;

  return figure(
    wordsOf(result, lines),
    axisY + 12,
    options,
    voltsAxis(y, plot, `kV ${voltsName(result)}`),
    bottomTicks(ticks, plot, (tick) => formatNumber(tick, 6)),
    bandOf(input.band, lines, x, y),
    lines.map(({ style, profiles }) =>
      el(
        'g',
        { opacity: 0.55 },
        profiles.map(({ posts }) => pathOf(posts, x, y, { ...lineAttributes({ ...style, dash: null }, 1) })),
      ),
    ),
    lines.map(({ style, way }) => pathOf(way, x, y, lineAttributes(style, 2.4))),
    targetLine(y, result.target.volts, targetWords(result), plot),
    lines.map(({ style, weakest }) => (weakest ? lineMark(style, x(weakest.distanceM), y(weakest.volts), 72) : null)),
    narrow
      ? el('g', { transform: 'translate(8 4)' }, key.stacked())
      : key.beside(
          plot,
          lines.map(({ weakest }) => y(weakest?.volts ?? 0)),
        ),
    faults.drawing,
    energizerGlyph(plot.left, axisY - 4),
    label(`${unit.plural} from the energizer, along the wire`, plot.left + 16, axisY, {
      role: 'soft',
      width: width - plot.left - 24,
    }),
    hits(lines, result, x, plot),
  );
}

function linesOf({ plan, result, conditions }: VoltsAlongInput): Line[] {
  const compared = comparedVolts(result.target.of);
  return result.conditions.flatMap((condition, index) => {
    if (conditions !== undefined && !conditions.includes(condition.id)) return [];
    // What is switched off has no volts to draw; the tables list it.
    const profiles = runProfiles(plan, condition, compared).map((profile) => ({
      ...profile,
      posts: profile.posts.filter(({ status }) => status !== 'switched off'),
    }));
    const { weakest } = condition.verdict;
    const byRun = new Map(profiles.map((profile) => [profile.run, profile.posts]));
    const way = wayTo(plan, profiles, weakest)
      .reverse()
      .flatMap(({ run, from, to }) => {
        const part = byRun.get(run)!.slice(from, to + 1);
        return part[0]!.distanceM <= part.at(-1)!.distanceM ? part : part.reverse();
      });
    const post = byRun.get(weakest.run)?.find((post) => post.post === weakest.post);
    return [{ condition, style: lineStyle(index), profiles, way, weakest: post }];
  });
}

function pathOf(
  posts: readonly ProfilePost[],
  x: (metres: number) => number,
  y: Linear,
  attributes: Parameters<typeof el>[1],
): Markup | null {
  if (posts.length < 2) return null;
  const kept = thinLine(
    posts.length,
    (i) => x(posts[i]!.distanceM),
    (i) => posts[i]!.volts,
    1,
  );
  const d = line<number>(
    (i) => x(posts[i]!.distanceM),
    (i) => y(posts[i]!.volts),
  ).digits(1)(kept);
  return el('path', { d, ...attributes });
}

const bandValues = (band: VoltsBand | undefined): number[] =>
  band === undefined ? [] : [...band.posts.values()].flatMap(({ low, high }) => [low, high]);

/** The band along every run of its condition, under the lines. */
function bandOf(
  band: VoltsBand | undefined,
  lines: readonly Line[],
  x: (metres: number) => number,
  y: Linear,
): Markup[] {
  const line = lines.find(({ condition }) => condition.id === band?.condition);
  if (band === undefined || line === undefined) return [];
  const areas = line.profiles.flatMap(({ posts }) => {
    const known = posts.filter(({ id }) => band.posts.has(id));
    const at = (i: number) => band.posts.get(known[i]!.id)!;
    const place = (i: number) => x(known[i]!.distanceM);
    const kept = new Set([
      ...thinLine(known.length, place, (i) => at(i).low, 1),
      ...thinLine(known.length, place, (i) => at(i).high, 1),
    ]);
    if (kept.size < 2) return [];
    const d = area<number>()
      .x(place)
      .y0((i) => y(at(i).low))
      .y1((i) => y(at(i).high))
      .digits(1)([...kept].sort((a, b) => a - b));
    return [el('path', { d, ...paint({ fill: line.style.role }) })];
  });
  // One opacity for all, so that runs over each other do not darken.
  return [el('g', { opacity: 0.2 }, el('title', {}, band.label), areas)];
}

/** Upright lines to point at, one in every few pixels: the post there that is lowest in the worst condition. */
function hits(lines: readonly Line[], result: PlanResult, x: (metres: number) => number, plot: Plot): Markup {
  const worst = lines.reduce<Line | null>(
    (a, b) => (a !== null && a.condition.verdict.marginVolts <= b.condition.verdict.marginVolts ? a : b),
    null,
  );
  const posts = worst?.profiles.flatMap(({ posts }) => posts) ?? [];
  const voltsOf = lines.map(
    ({ profiles }) => new Map(profiles.flatMap(({ posts }) => posts.map((post) => [post.id, post.volts] as const))),
  );
  const kept = lowestPerCell(
    posts.length,
    (i) => Math.floor(x(posts[i]!.distanceM) / 5),
    (i) => posts[i]!.volts,
  )
    .map((i) => posts[i]!)
    .sort((a, b) => a.distanceM - b.distanceM);
  return el(
    'g',
    { class: 'hits', 'data-near': 'x' },
    kept.map((post) => {
      const readings = lines.map(({ condition }, n) => {
        const volts = voltsOf[n]!.get(post.id);
        return `${condition.name} ${volts === undefined ? 'not fed' : formatVolts(volts)}`;
      });
      const far = formatLength(post.distanceM, result.units);
      return el(
        'path',
        {
          class: 'hit',
          fill: 'none',
          stroke: 'none',
          d: `M${x(post.distanceM).toFixed(1)} ${plot.top}V${plot.bottom}`,
        },
        el('title', {}, `Post ${post.id}, ${far} from the energizer: ${readings.join('; ')}`),
      );
    }),
  );
}

function wordsOf(result: PlanResult, lines: readonly Line[]) {
  const each = lines.map(({ condition }) => {
    const { weakest, holds } = condition.verdict;
    const start = formatVolts(condition.energizer.fenceVoltsToEarth);
    return `${condition.name} starts at ${start} and has ${formatVolts(weakest.compared)} at its weakest post, ${weakest.postId}${holds ? '' : ', short of the target'}`;
  });
  return {
    title: 'Volts along the fence',
    description: `Lines of volts ${voltsName(result)} by distance from the energizer. ${wordList(each)}. Target: ${targetWords(result)}.`,
  };
}

/** Least and greatest of some values, without spreading thousands of arguments. */
function ends<T>(items: readonly T[], value: (item: T) => number): [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const item of items) {
    low = Math.min(low, value(item));
    high = Math.max(high, value(item));
  }
  return Number.isFinite(low) ? [low, high] : [0, 0];
}
