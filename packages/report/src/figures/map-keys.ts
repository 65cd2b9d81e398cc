import { formatLength, type PlanResult, type UnitSystem } from '@postvolt/core';
import { label, textWidth } from '../look/figure.js';
import { energizerGlyph, faultGlyph, gateGlyph, switchGlyph, weakestGlyph } from '../look/glyphs.js';
import { paint, type Role, voltsSteps } from '../look/theme.js';
import { el, type Markup } from '../markup/element.js';
import type { FenceMap } from './map-content.js';
import { kilovolts, niceScale } from './scales.js';
import { targetWords, voltsName } from './words.js';

/** A piece of a figure's key with the height that it takes. */
export interface Key {
  readonly drawing: Markup;
  readonly height: number;
}

/** What the shades mean, with the target marked. */
export function voltsKey(fullVolts: number, result: PlanResult, width: number): Key {
  const [left, right] = [4, Math.min(width - 16, 300)];
  const scale = niceScale(0, fullVolts, [left, right], 5);
  const step = (right - left) / voltsSteps;
  const at = scale(result.target.volts);
  const axis = `kV ${voltsName(result)}`;
  const words = targetWords(result);
  // At the target's mark, unless the axis's name or the edge is in the way.
  const wordsAt = Math.max(Math.min(at, width - textWidth(words, 11) - 4), left + textWidth(axis, 11) + 12);
  const drawing = el(
    'g',
    {},
    label(axis, left, 11, { role: 'soft', size: 11 }),
    Array.from({ length: voltsSteps }, (_, i) =>
      el('rect', { x: left + i * step, y: 18, width: step + 0.3, height: 10, ...paint({ fill: `volts${i}` as Role }) }),
    ),
    el('rect', {
      x: left,
      y: 18,
      width: right - left,
      height: 10,
      'stroke-width': 0.7,
      ...paint({ fill: 'none', stroke: 'line' }),
    }),
    scale.ticks(5).map((tick) => label(kilovolts(tick), scale(tick), 41, { anchor: 'middle', role: 'soft', size: 11 })),
    el('path', { d: `M${at.toFixed(1)} 14V32`, 'stroke-width': 2, ...paint({ fill: 'none', stroke: 'ink' }) }),
    label(words, wordsAt, 11, { size: 11, width: width - wordsAt }),
  );
  return { drawing, height: 46 };
}

/** A bar of a round length. */
export function scaleBar(pixelsPerMetre: number, units: UnitSystem, most: number): Key {
  const unit = units === 'metric' ? 1 : most / pixelsPerMetre >= 1609.344 ? 1609.344 : 0.3048;
  const room = most / pixelsPerMetre / unit;
  const power = 10 ** Math.floor(Math.log10(room));
  const round = ([5, 2, 1].find((step) => step * power <= room) ?? 1) * power;
  const size = round * unit * pixelsPerMetre;
  const drawing = el(
    'g',
    {},
    el('path', {
      d: `M4 8V14H${(4 + size).toFixed(1)}V8`,
      'stroke-width': 1.5,
      ...paint({ fill: 'none', stroke: 'ink' }),
    }),
    label(formatLength(round * unit, units), 12 + size, 15, { size: 11, role: 'soft' }),
  );
  return { drawing, height: 18 };
}

/** What stands in the scale bar's place where there are no coordinates. */
export const schematicNote: Key = {
  drawing: label('Not a map: runs are laid out by their lengths.', 4, 12, { size: 11, role: 'soft' }),
  height: 16,
};

/** An arrow to the north. */
export const northArrow = (x: number, y: number): Markup =>
  el(
    'g',
    { transform: `translate(${x} ${y})` },
    el('path', { d: 'M0 14V-12M-4 -5L0 -13L4 -5', 'stroke-width': 1.6, ...paint({ fill: 'none', stroke: 'ink' }) }),
    label('N', 0, -18, { anchor: 'middle', size: 11, bold: true }),
  );

/** The signs that the drawing uses, each with its name, in rows. */
export function signKey({ plan, condition, result, profiles }: FenceMap, width: number): Key {
  const posts = profiles.flatMap((profile) => profile.posts);
  const open = plan.switches.filter(({ openIn }) => openIn.includes(condition.id)).length;
  const faults = plan.faults.some(({ conditions }) => conditions === null || conditions.includes(condition.id));
  const stroke = (...strokes: readonly (readonly [number, Role, string | null])[]) =>
    strokes.map(([size, role, dash]) =>
      el('path', {
        d: 'M-10 0H10',
        'stroke-width': size,
        'stroke-dasharray': dash,
        ...paint({ fill: 'none', stroke: role }),
      }),
    );
  const entries: [boolean, string, readonly Markup[]][] = [
    [true, 'energizer', [energizerGlyph(0, 0)]],
    [true, 'weakest post', [weakestGlyph(0, 0)]],
    [plan.gates.length > 0, 'gate', [gateGlyph(0, 0, 0)]],
    [plan.switches.length > open, 'switch, closed', [switchGlyph(0, 0, 0, false)]],
    [open > 0, 'switch, open', [switchGlyph(0, 2, 0, true)]],
    [faults, 'fault', [faultGlyph(0, 0)]],
    [
      posts.some(({ volts, status }) => status !== 'switched off' && volts < result.target.volts),
      'short of the target',
      stroke([7.4, 'line', null], [6, 'volts2', null], [2.4, 'paper', null]),
    ],
    [posts.some(({ status }) => status === 'switched off'), 'switched off', stroke([1.8, 'ink', '2 4'])],
    [plan.links.length > 0, 'cable', stroke([1.5, 'line', '4 3'])],
  ];
  let [x, row] = [0, 0];
  const drawing = entries
    .filter(([shown]) => shown)
    .map(([, name, sign]) => {
      const size = 30 + textWidth(name, 11) + 16;
      if (x > 0 && x + size > width) [x, row] = [0, row + 1];
      const at = `translate(${(x + 14).toFixed(1)} ${row * 24 + 12})`;
      x += size;
      return el('g', { transform: at }, sign, label(name, 17, 4, { size: 11 }));
    });
  return { drawing: el('g', {}, drawing), height: (row + 1) * 24 };
}
