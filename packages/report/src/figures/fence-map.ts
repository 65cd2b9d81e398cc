import { type ConditionResult, comparedVolts, formatVolts, type PlanResult, type ResolvedPlan } from '@postvolt/core';
import { type ProfilePost, type RunProfile, runProfiles } from '../data/run-profiles.js';
import { lowestPerCell } from '../data/thin.js';
import { type FenceDrawing, fenceDrawing, fitDrawing } from '../geo/fence-drawing.js';
import { distance, type Path, pieceOf, pointAt } from '../geo/point.js';
import { type FigureOptions, figure, figureWidth, isNarrow } from '../look/figure.js';
import { energizerGlyph, faultGlyph, gateGlyph, switchGlyph, weakestGlyph } from '../look/glyphs.js';
import { paint, type Role, voltsSteps } from '../look/theme.js';
import { el, type Markup } from '../markup/element.js';
import { northArrow, scaleBar, schematicNote, signKey, voltsKey } from './map-keys.js';
import { mapLabels } from './map-labels.js';
import { niceScale } from './scales.js';
import { targetWords, voltsName } from './words.js';

export interface FenceMapInput {
  readonly plan: ResolvedPlan;
  readonly result: PlanResult;
  /** Id of the condition to draw; the one with the least margin where left out. */
  readonly condition?: string;
  /** From `fenceDrawing`, to lay the fence out once for several maps; made from the plan where left out. */
  readonly drawing?: FenceDrawing;
}

/** A fitted drawing with what a condition puts on it. */
export interface FenceMap {
  readonly plan: ResolvedPlan;
  readonly result: PlanResult;
  readonly condition: ConditionResult;
  readonly drawing: FenceDrawing;
  readonly profiles: readonly RunProfile[];
  /** Volts at the full end of the shading, the same for all conditions of a result. */
  readonly fullVolts: number;
}

/**
 * The fence as a plan in one condition, from its coordinates or as a schematic: more ink for more volts along the runs,
 * hollow lines where the target is not reached, volts written at junctions and at the weakest post, and the energizer,
 * gates, switches and faults. A place stands for the lowest hot strand there.
 */
export function fenceMap(input: FenceMapInput, options: FigureOptions = {}): string {
  const { plan, result } = input;
  const condition = conditionOf(result, input.condition);
  const width = figureWidth(options);
  const narrow = isNarrow(options);
  const margin = narrow ? { side: 30, top: 30 } : { side: 90, top: 34 };
  const fitted = fitDrawing(input.drawing ?? fenceDrawing(plan), width - 2 * margin.side, narrow ? 420 : 430);
  const compared = comparedVolts(result.target.of);
  const profiles = runProfiles(plan, condition, compared);
  const map: FenceMap = { plan, result, condition, drawing: fitted, profiles, fullVolts: fullVolts(result) };
  const mapHeight = Math.max(60, fitted.height) + 2 * margin.top;
  const placed = fitted.kind === 'placed';
  const keys = [
    voltsKey(map.fullVolts, result, narrow ? width - 16 : 330),
    placed ? scaleBar(fitted.scale, result.units, narrow ? 110 : 150) : schematicNote,
    signKey(map, narrow ? width - 16 : width - 360),
  ];
  let keyY = mapHeight + 6;
  const keyGroups: Markup[] = [];
  if (narrow) {
    for (const key of keys) {
      keyGroups.push(el('g', { transform: `translate(8 ${keyY})` }, key.drawing));
      keyY += key.height + 10;
    }
  } else {
    keyGroups.push(el('g', { transform: `translate(12 ${keyY})` }, keys[0]!.drawing));
    keyGroups.push(el('g', { transform: `translate(12 ${keyY + keys[0]!.height + 8})` }, keys[1]!.drawing));
    keyGroups.push(el('g', { transform: `translate(356 ${keyY})` }, keys.at(-1)!.drawing));
    const left = keys[0]!.height + keys[1]!.height + 8;
    keyY += Math.max(left, keys.at(-1)!.height) + 4;
  }
  return figure(
    wordsOf(map),
    keyY,
    options,
    el(
      'g',
      { transform: `translate(${margin.side} ${margin.top})` },
      linksOf(map),
      plan.runs.map(({ id }) => runOf(map, id)),
      postDots(map),
      junctionDots(map),
      signsOf(map),
      mapLabels(map, signPlaces(map), {
        left: -margin.side + 4,
        right: width - margin.side - 4,
        top: -margin.top + 4,
        bottom: mapHeight - margin.top,
      }),
      hitsOf(map),
    ),
    placed ? northArrow(width - 26, 34) : null,
    keyGroups,
  );
}

/** The condition of this id, else the one with the least margin. */
export function conditionOf(result: PlanResult, id: string | undefined): ConditionResult {
  const named = result.conditions.find((condition) => condition.id === id);
  if (id !== undefined && named === undefined) {
    const ids = result.conditions.map((condition) => JSON.stringify(condition.id)).join(', ');
    throw new RangeError(`condition: found ${JSON.stringify(id)}, expected one of ${ids}`);
  }
  return named ?? result.conditions.reduce((a, b) => (b.verdict.marginVolts < a.verdict.marginVolts ? b : a));
}

/** Round volts above the highest of all conditions, so that shades mean the same in each. */
function fullVolts(result: PlanResult): number {
  const highest = Math.max(
    result.target.volts,
    ...result.conditions.map(({ energizer }) => energizer.fenceVoltsToEarth),
  );
  return niceScale(0, highest, [0, 1], 5).domain()[1]!;
}

const shadeOf = (volts: number, full: number): Role =>
  `volts${Math.max(0, Math.min(voltsSteps - 1, Math.floor((volts / full) * voltsSteps)))}` as Role;

/** Cables from junction to junction. */
const linksOf = ({ plan, drawing }: FenceMap): Markup[] =>
  plan.links.map(({ from, to }) => {
    const [a, b] = [drawing.junctions.get(from)!, drawing.junctions.get(to)!];
    const d = `M${a.x.toFixed(1)} ${a.y.toFixed(1)}L${b.x.toFixed(1)} ${b.y.toFixed(1)}`;
    return el('path', {
      d,
      'stroke-dasharray': '4 3',
      'stroke-width': 1.5,
      ...paint({ fill: 'none', stroke: 'line' }),
    });
  });

/** Length of a path on the page. */
const sizeOf = (path: Path): number =>
  path.points.slice(1).reduce((sum, point, i) => sum + distance(path.points[i]!, point), 0);

/** One run: a stroke whose shade follows the volts, hollow where they fall short, dotted where nothing feeds it. */
function runOf({ drawing, profiles, result, fullVolts }: FenceMap, id: string): Markup {
  const path = drawing.runs.get(id)!;
  const profile = profiles.find(({ run }) => run === id)!;
  const whole = lineData(path.points);
  if (profile.posts.length === 0)
    return el('path', { d: whole, 'stroke-width': 1.5, ...paint({ fill: 'none', stroke: 'line' }) });
  const steps = Math.max(1, Math.min(profile.posts.length - 1, Math.round(sizeOf(path) / 4)));
  const pieces: { from: number; to: number; shade: Role; state: 'full' | 'short' | 'off' }[] = [];
  let next = 0;
  for (let step = 0; step < steps; step++) {
    const to = (step + 1) / steps;
    let lowest: ProfilePost | null = null;
    for (; next < profile.posts.length; next++) {
      const post = profile.posts[next]!;
      if (lowest === null || post.volts < lowest.volts) lowest = post;
      // The post at the joint of two pieces counts for both.
      if (post.positionM / profile.lengthM >= to - 1e-9) break;
    }
    const post = lowest!;
    const state = post.status === 'switched off' ? 'off' : post.volts < result.target.volts ? 'short' : 'full';
    const shade = shadeOf(post.volts, fullVolts);
    const last = pieces.at(-1);
    if (last?.shade === shade && last.state === state) last.to = to;
    else pieces.push({ from: step / steps, to, shade, state });
  }
  const strokes = pieces.flatMap(({ from, to, shade, state }) => {
    const d = lineData(pieceOf(path, from, to));
    if (state === 'off')
      return [
        el('path', { d, 'stroke-width': 6, ...paint({ fill: 'none', stroke: 'paper' }) }),
        el('path', { d, 'stroke-width': 1.8, 'stroke-dasharray': '2 4', ...paint({ fill: 'none', stroke: 'ink' }) }),
      ];
    const stroke = el('path', { d, 'stroke-width': 6, ...paint({ fill: 'none', stroke: shade }) });
    if (state === 'full') return [stroke];
    return [stroke, el('path', { d, 'stroke-width': 2.4, ...paint({ fill: 'none', stroke: 'paper' }) })];
  });
  return el(
    'g',
    { 'stroke-linejoin': 'round' },
    el('path', { d: whole, 'stroke-width': 7.4, ...paint({ fill: 'none', stroke: 'line' }) }),
    strokes,
  );
}

const lineData = (points: readonly { readonly x: number; readonly y: number }[]): string =>
  points.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');

/** A dot a post where posts stand far enough apart to be seen. */
function postDots({ drawing, profiles }: FenceMap): Markup[] {
  return profiles.flatMap(({ run, posts, lengthM }) => {
    const path = drawing.runs.get(run)!;
    if (posts.length < 2 || sizeOf(path) / (posts.length - 1) < 9) return [];
    return posts.map((post) => {
      const { x, y } = pointAt(path, post.positionM / lengthM);
      return el('circle', { cx: x, cy: y, r: 1.9, ...paint({ fill: 'paper', stroke: 'ink' }) });
    });
  });
}

const junctionDots = ({ drawing }: FenceMap): Markup[] =>
  [...drawing.junctions.values()].map(({ x, y }) =>
    el('circle', { cx: x, cy: y, r: 4.2, 'stroke-width': 1.4, ...paint({ fill: 'paper', stroke: 'ink' }) }),
  );

/** Fraction of a run at which a post, or the middle of the span after it, stands. */
function placeOf(profile: RunProfile | undefined, post: number, onSpan: boolean): number | null {
  const at = profile?.posts.find((item) => item.post === post);
  const next = onSpan ? profile?.posts.find((item) => item.post === post + 1) : undefined;
  if (profile === undefined || at === undefined) return null;
  return (next ? (at.positionM + next.positionM) / 2 : at.positionM) / profile.lengthM;
}

/** Where gates, switches and faults stand. */
const signPlaces = ({ plan, drawing, profiles }: FenceMap) =>
  [...plan.gates, ...plan.switches, ...plan.faults].flatMap(({ run, post, ...more }) => {
    const onSpan = !('on' in more) || more.on === 'span';
    const fraction = placeOf(
      profiles.find((profile) => profile.run === run),
      post,
      onSpan,
    );
    return fraction === null ? [] : [pointAt(drawing.runs.get(run)!, fraction)];
  });

/** Gates, switches, faults, the energizer and the weakest post. */
function signsOf(map: FenceMap): Markup[] {
  const { plan, drawing, profiles, condition } = map;
  const spot = (run: string, post: number, onSpan: boolean) => {
    const fraction = placeOf(
      profiles.find((profile) => profile.run === run),
      post,
      onSpan,
    );
    return fraction === null ? null : pointAt(drawing.runs.get(run)!, fraction);
  };
  const signs = (
    items: readonly { readonly id: string; readonly run: string; readonly post: number }[],
    onSpan: (index: number) => boolean,
    draw: (x: number, y: number, degrees: number, index: number) => Markup,
    name: (index: number) => string,
  ) =>
    items.flatMap(({ run, post }, i) => {
      const at = spot(run, post, onSpan(i));
      return at === null ? [] : [el('g', {}, el('title', {}, name(i)), draw(at.x, at.y, at.degrees, i))];
    });
  const home = drawing.junctions.get(plan.energizer.junction)!;
  const { weakest } = condition.verdict;
  const low = spot(weakest.run, weakest.post, false);
  const faults = plan.faults.filter(({ conditions }) => conditions === null || conditions.includes(condition.id));
  const isOpen = (i: number) => plan.switches[i]!.openIn.includes(condition.id);
  return [
    ...signs(
      plan.gates,
      () => true,
      gateGlyph,
      (i) => `Gate ${plan.gates[i]!.id}`,
    ),
    ...signs(
      plan.switches,
      () => true,
      (x, y, degrees, i) => switchGlyph(x, y, degrees, isOpen(i)),
      (i) => `Switch ${plan.switches[i]!.id}, ${isOpen(i) ? 'open' : 'closed'}`,
    ),
    ...signs(
      faults,
      (i) => faults[i]!.on === 'span',
      (x, y) => faultGlyph(x, y),
      (i) => `Fault ${faults[i]!.id}: ${faults[i]!.kind}`,
    ),
    ...(low === null ? [] : [weakestGlyph(low.x, low.y)]),
    energizerGlyph(home.x, home.y),
  ];
}

/** Places to point at, one in every few pixels: the lowest post there. */
function hitsOf({ drawing, profiles, condition, result }: FenceMap): Markup {
  const posts = profiles.flatMap(({ run, posts, lengthM }) =>
    posts.map((post) => ({ post, at: pointAt(drawing.runs.get(run)!, post.positionM / lengthM) })),
  );
  const kept = lowestPerCell(
    posts.length,
    (i) => `${Math.round(posts[i]!.at.x / 9)} ${Math.round(posts[i]!.at.y / 9)}`,
    (i) => posts[i]!.post.volts,
  );
  return el(
    'g',
    { class: 'hits', 'data-near': 'xy' },
    kept.map((i) => {
      const { post, at } = posts[i]!;
      const short = post.volts < result.target.volts ? ', short of the target' : '';
      const words =
        post.status === 'switched off' ? 'switched off' : `${formatVolts(post.volts)} on ${post.strand}${short}`;
      return el(
        'circle',
        { class: 'hit', cx: at.x, cy: at.y, r: 7, fill: 'none', stroke: 'none' },
        el('title', {}, `Post ${post.id}, ${condition.name}: ${words}`),
      );
    }),
  );
}

function wordsOf({ plan, result, condition, drawing }: FenceMap) {
  const { weakest } = condition.verdict;
  const kind = drawing.kind === 'placed' ? 'The fence drawn from its coordinates' : 'A schematic of runs and junctions';
  const things = [
    [plan.runs.length, 'run'],
    [plan.junctions.length, 'junction'],
    [plan.gates.length, 'gate'],
    [plan.switches.length, 'switch'],
  ] as const;
  const counts = things
    .filter(([count]) => count > 0)
    .map(([count, name]) => `${count} ${name}${count === 1 ? '' : name === 'switch' ? 'es' : 's'}`);
  return {
    title: `The fence in ${condition.name}`,
    description: `${kind}: ${counts.join(', ')}. The energizer stands at ${plan.energizer.junction}. The weakest post is ${weakest.postId} with ${formatVolts(weakest.compared)} ${voltsName(result)}; ${targetWords(result)}.`,
  };
}
