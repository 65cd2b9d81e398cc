import { formatVolts } from '@postvolt/core';
import { type Point, pointAt } from '../geo/point.js';
import { label } from '../look/figure.js';
import { cutText } from '../look/text-width.js';
import type { Markup } from '../markup/element.js';
import type { FenceMap } from './map-content.js';
import { type Box, placeLabels, type WantedLabel } from './place-labels.js';

/** Names and volts, clear of the signs: the weakest post and the energizer first, then junctions, then the lowest place of each run. */
export function mapLabels(map: FenceMap, signs: readonly Point[], bounds: Box): Markup[] {
  const { plan, drawing, profiles, condition } = map;
  const { weakest } = condition.verdict;
  const spots = [...drawing.runs.values()].flatMap((path) =>
    Array.from({ length: 60 }, (_, i) => pointAt(path, i / 59)),
  );
  const voltsAt = new Map(
    profiles.flatMap(({ posts }) =>
      posts.filter(({ status }) => status !== 'switched off').map((post) => [post.id, post.volts] as const),
    ),
  );
  const roleOf = new Map<WantedLabel, 'seal' | 'soft'>();
  const wanted: WantedLabel[] = [];
  const want = (at: Point | readonly Point[], text: string, more: Partial<WantedLabel>, role?: 'seal' | 'soft') => {
    const item = { places: Array.isArray(at) ? at : [at as Point], text, size: 11, gap: 10, ...more };
    if (role) roleOf.set(item, role);
    wanted.push(item);
  };

  const low = profiles.find(({ run }) => run === weakest.run);
  const post = low?.posts.find((item) => item.post === weakest.post);
  const weak = low && post ? pointAt(drawing.runs.get(low.run)!, post.positionM / low.lengthM) : null;
  if (weak !== null) {
    want(
      weak,
      formatVolts(weakest.compared),
      { lead: `${short(weakest.postId)} `, size: 13, bold: true, gap: 14, must: true },
      'seal',
    );
  }
  const home = drawing.junctions.get(plan.energizer.junction)!;
  const homeVolts = voltsAt.get(plan.energizer.junction);
  const homeWords = homeVolts === undefined ? '' : formatVolts(homeVolts);
  want(home, homeWords, { lead: `${short(plan.energizer.junction)} `, bold: true, size: 12, gap: 14, must: true });
  for (const { id } of plan.junctions) {
    const volts = voltsAt.get(id);
    if (id === plan.energizer.junction || id === weakest.postId) continue;
    want(drawing.junctions.get(id)!, volts === undefined ? 'off' : formatVolts(volts), { lead: `${short(id)} ` });
  }
  for (const { run, posts, lengthM } of profiles) {
    const path = drawing.runs.get(run)!;
    want(
      [0.5, 0.35, 0.65, 0.2, 0.8].map((fraction) => pointAt(path, fraction)),
      short(run),
      { gap: 7 },
      'soft',
    );
    const least = posts.reduce((a, b) => (b.volts < a.volts ? b : a), posts[0]!);
    if (
      posts.length > 2 &&
      run !== weakest.run &&
      least.status === 'live' &&
      least.positionM > 0 &&
      least.positionM < lengthM
    )
      want(pointAt(path, least.positionM / lengthM), formatVolts(least.volts), { gap: 7 });
  }
  const boxes = [home, ...(weak === null ? [] : [weak]), ...signs].map(({ x, y }) => ({
    left: x - 9,
    right: x + 9,
    top: y - 8,
    bottom: y + 8,
  }));
  return placeLabels(wanted, bounds, boxes, spots).map(({ wanted, x, y, anchor }) =>
    label(wanted.text, x, y, {
      anchor,
      halo: true,
      size: wanted.size,
      bold: wanted.bold ?? false,
      ...(wanted.lead === undefined ? {} : { lead: wanted.lead }),
      role: roleOf.get(wanted) ?? 'ink',
    }),
  );
}

const short = (name: string): string => cutText(name, 110, 11);
