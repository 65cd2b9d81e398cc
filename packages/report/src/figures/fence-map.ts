import { comparedVolts, formatVolts, type PlanResult, type ResolvedPlan } from '@postvolt/core';
import { conditionOf } from '../data/condition-of.js';
import { runProfiles } from '../data/run-profiles.js';
import { lowestPerCell } from '../data/thin.js';
import type { FenceDrawing } from '../geo/drawing.js';
import { fenceDrawing, fitDrawing } from '../geo/fence-drawing.js';
import { pointAt } from '../geo/point.js';
import { type FigureOptions, figure, figureWidth, isNarrow } from '../look/figure.js';
import { el, type Markup } from '../markup/element.js';
import type { FenceMap } from './map-content.js';
import { northArrow, scaleBar, schematicNote, signKey, voltsKey } from './map-keys.js';
import { mapLabels } from './map-labels.js';
import { junctionDots, linksOf, postDots, runOf } from './map-runs.js';
import { signPlaces, signsOf } from './map-signs.js';
import { niceScale } from './scales.js';
import { targetWords, voltsName } from './words.js';

/** What the plan of a fence is drawn from. */
export interface FenceMapInput {
  readonly plan: ResolvedPlan;
  readonly result: PlanResult;
  /** Id of the condition to draw; the one with the least margin where left out. */
  readonly condition?: string;
  /** From `fenceDrawing`, to lay the fence out once for several maps; made from the plan where left out. */
  readonly drawing?: FenceDrawing;
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
  const laidOut = input.drawing ?? fenceDrawing(plan);
  const tallest = laidOut.kind === 'placed' ? 430 : narrow ? 400 : 320;
  const fitted = fitDrawing(laidOut, width - 2 * margin.side, tallest);
  const compared = comparedVolts(result.target.of);
  const profiles = runProfiles(plan, condition, compared);
  const map: FenceMap = { plan, result, condition, drawing: fitted, profiles, fullVolts: fullVolts(result) };
  const mapHeight = Math.max(24, fitted.height) + 2 * margin.top;
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

/** Round volts above the highest of all conditions, so that shades mean the same in each. */
function fullVolts(result: PlanResult): number {
  const highest = Math.max(
    result.target.volts,
    ...result.conditions.map(({ energizer }) => energizer.fenceVoltsToEarth),
  );
  return niceScale(0, highest, [0, 1], 5).domain()[1]!;
}
