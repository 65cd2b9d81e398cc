import { el, type Markup } from '../markup/element.js';
import { paint } from './theme.js';

/** The energizer: a box with one pulse on it. */
export const energizerGlyph = (x: number, y: number): Markup =>
  el(
    'g',
    { transform: `translate(${x.toFixed(1)} ${y.toFixed(1)})` },
    el('rect', {
      x: -9,
      y: -8,
      width: 18,
      height: 16,
      rx: 2,
      'stroke-width': 1.5,
      ...paint({ fill: 'ink', stroke: 'paper' }),
    }),
    el('path', { d: 'M-6 3h3l2 -7l2 8l1.5 -1h3.5', 'stroke-width': 1.4, ...paint({ fill: 'none', stroke: 'paper' }) }),
  );

/** A fault: a cross. */
export const faultGlyph = (x: number, y: number, size = 4.5): Markup => {
  const d = `M${-size} ${-size}L${size} ${size}M${-size} ${size}L${size} ${-size}`;
  const transform = `translate(${x.toFixed(1)} ${y.toFixed(1)})`;
  return el(
    'g',
    { transform, 'stroke-linecap': 'round' },
    el('path', { d, 'stroke-width': 5, ...paint({ fill: 'none', stroke: 'paper' }) }),
    el('path', { d, 'stroke-width': 2, ...paint({ fill: 'none', stroke: 'ink' }) }),
  );
};

/** A gate across a run that heads in a direction (degrees): two posts with clear air between. */
export const gateGlyph = (x: number, y: number, degrees: number): Markup =>
  el(
    'g',
    { transform: `translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${degrees.toFixed(0)})` },
    el('rect', { x: -4, y: -5, width: 8, height: 10, ...paint({ fill: 'paper' }) }),
    el('path', { d: 'M-4 -5.5V5.5M4 -5.5V5.5', 'stroke-width': 2, ...paint({ fill: 'none', stroke: 'ink' }) }),
  );

/** A switch in a run: a lever that lies on the line when closed and stands off it when open. */
export const switchGlyph = (x: number, y: number, degrees: number, open: boolean): Markup =>
  el(
    'g',
    { transform: `translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${degrees.toFixed(0)})` },
    el('rect', { x: -7, y: -5, width: 14, height: 10, ...paint({ fill: 'paper' }) }),
    el('path', {
      d: open ? 'M-7 0L5 -8' : 'M-7 0H7',
      'stroke-width': 2,
      'stroke-linecap': 'round',
      ...paint({ fill: 'none', stroke: 'ink' }),
    }),
    ...[-7, 7].map((cx) =>
      el('circle', { cx, cy: 0, r: 2.4, 'stroke-width': 1.4, ...paint({ fill: 'paper', stroke: 'ink' }) }),
    ),
  );

/** Ring that marks the weakest post. */
export const weakestGlyph = (x: number, y: number): Markup =>
  el(
    'g',
    { transform: `translate(${x.toFixed(1)} ${y.toFixed(1)})` },
    el('circle', { r: 8.5, 'stroke-width': 4.5, ...paint({ fill: 'none', stroke: 'paper' }) }),
    el('circle', { r: 8.5, 'stroke-width': 2.2, ...paint({ fill: 'none', stroke: 'seal' }) }),
    el('circle', { r: 3, ...paint({ fill: 'seal' }) }),
  );
