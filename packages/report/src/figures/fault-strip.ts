import type { ResolvedPlan } from '@postvolt/core';
import type { RunProfile } from '../data/run-profiles.js';
import { label, textWidth } from '../look/figure.js';
import { faultGlyph } from '../look/glyphs.js';
import { cutText } from '../look/text-width.js';
import { el, type Markup } from '../markup/element.js';
import type { Plot } from './scales.js';

/** A row below the axis with a cross at each fault of the plan, named where there is room. */
export function faultStrip(
  plan: ResolvedPlan,
  profiles: readonly RunProfile[],
  x: (metres: number) => number,
  plot: Plot,
): { readonly height: number; readonly drawing: Markup[] } {
  const placed = plan.faults
    .map((fault) => {
      const posts = profiles.find(({ run }) => run === fault.run)?.posts ?? [];
      const at = posts.find(({ post }) => post === fault.post);
      const next = fault.on === 'span' ? posts.find(({ post }) => post === fault.post + 1) : undefined;
      const metres = at && next ? (at.distanceM + next.distanceM) / 2 : at?.distanceM;
      return metres === undefined ? null : { fault, at: x(metres) };
    })
    .filter((item) => item !== null)
    .sort((a, b) => a.at - b.at);
  const y = plot.bottom + 36;
  let free = plot.left;
  const drawing = placed.map(({ fault, at }, i) => {
    const conditions = fault.conditions === null ? '' : ` (${fault.conditions.join(', ')})`;
    const words = cutText(`${fault.kind}`, 150, 11);
    const size = textWidth(words, 11);
    const [start, end] = [at + 9, at + 9 + size];
    const before = at - 9 - size;
    const nextAt = placed[i + 1]?.at ?? plot.right + 20;
    // To the right of its cross, else to the left, else left to the title.
    const place = end < nextAt - 8 && end < plot.right + 8 ? start : before > free ? before : null;
    free = place === start ? end + 8 : at + 8;
    return el(
      'g',
      {},
      el('title', {}, `Fault ${fault.id}: ${fault.kind} at ${fault.run}/${fault.post}${conditions}`),
      faultGlyph(at, y - 4, 3.6),
      place === null ? null : label(words, place, y, { size: 11, role: 'soft' }),
    );
  });
  return { height: placed.length > 0 ? 22 : 0, drawing };
}
