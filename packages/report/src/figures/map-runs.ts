import type { ProfilePost } from '../data/run-profiles.js';
import { distance, type Path, pieceOf, pointAt } from '../geo/point.js';
import { paint, type Role, voltsSteps } from '../look/theme.js';
import { el, type Markup } from '../markup/element.js';
import type { FenceMap } from './map-content.js';

const shadeOf = (volts: number, full: number): Role =>
  `volts${Math.max(0, Math.min(voltsSteps - 1, Math.floor((volts / full) * voltsSteps)))}` as Role;

/** Cables from junction to junction. */
export const linksOf = ({ plan, drawing }: FenceMap): Markup[] =>
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
export function runOf({ drawing, profiles, result, fullVolts }: FenceMap, id: string): Markup {
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
export function postDots({ drawing, profiles }: FenceMap): Markup[] {
  return profiles.flatMap(({ run, posts, lengthM }) => {
    const path = drawing.runs.get(run)!;
    if (posts.length < 2 || sizeOf(path) / (posts.length - 1) < 9) return [];
    return posts.map((post) => {
      const { x, y } = pointAt(path, post.positionM / lengthM);
      return el('circle', { cx: x, cy: y, r: 1.9, ...paint({ fill: 'paper', stroke: 'ink' }) });
    });
  });
}

/** A ring at every junction. */
export const junctionDots = ({ drawing }: FenceMap): Markup[] =>
  [...drawing.junctions.values()].map(({ x, y }) =>
    el('circle', { cx: x, cy: y, r: 4.2, 'stroke-width': 1.4, ...paint({ fill: 'paper', stroke: 'ink' }) }),
  );
