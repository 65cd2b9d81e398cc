import type { Point } from '../geo/point.js';
import { textWidth } from '../look/text-width.js';

/** A label that wants to stand beside a place. */
export interface WantedLabel {
  /** Places that it may stand beside, the best first. */
  readonly places: readonly Point[];
  /** Quieter words before the text. */
  readonly lead?: string;
  readonly text: string;
  readonly size: number;
  readonly bold?: boolean;
  /** Distance from the place to the text. */
  readonly gap: number;
  /** Kept even where it covers something; others give way. */
  readonly must?: boolean;
}

export interface PlacedLabel {
  readonly wanted: WantedLabel;
  readonly x: number;
  readonly y: number;
  readonly anchor: 'start' | 'middle' | 'end';
}

export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const overlaps = (a: Box, b: Box): boolean =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** Spots of lines that a label may cover before it is left out. */
const mostCovered = 5;

/** Sides in the order in which readers like them. */
const sides = [
  [1, 0],
  [-1, 0],
  [0, -1],
  [0, 1],
  [0.8, -0.8],
  [0.8, 0.8],
  [-0.8, -0.8],
  [-0.8, 0.8],
] as const;

/**
 * Places labels one after the other, first come first served, where they cover neither each other nor `taken` and run
 * over as few of the `spots` (points of drawn lines) as can be; one that fits nowhere is left out.
 */
export function placeLabels(
  wanted: readonly WantedLabel[],
  bounds: Box,
  taken: readonly Box[],
  spots: readonly Point[],
): PlacedLabel[] {
  const boxes = [...taken];
  return wanted.flatMap((label) => {
    const width = textWidth(`${label.lead ?? ''}${label.text}`, label.size, label.bold);
    let best: { placed: PlacedLabel; box: Box; cost: number } | null = null;
    label.places.forEach((place, rank) => {
      sides.forEach(([dx, dy], order) => {
        const anchor = dx > 0 ? 'start' : dx < 0 ? 'end' : 'middle';
        const x = place.x + dx * label.gap;
        const y = place.y + dy * (label.gap + label.size * 0.5) + label.size * 0.35;
        const left = anchor === 'start' ? x : anchor === 'end' ? x - width : x - width / 2;
        const box = { left: left - 2, right: left + width + 2, top: y - label.size, bottom: y + label.size * 0.3 };
        const outside =
          box.left < bounds.left || box.right > bounds.right || box.top < bounds.top || box.bottom > bounds.bottom;
        const covered = boxes.filter((other) => overlaps(box, other)).length;
        const inside = spots.filter(({ x, y }) => overlaps(box, { left: x, right: x, top: y, bottom: y })).length;
        if (!label.must && (outside || covered > 0 || inside > mostCovered)) return;
        const cost = order * 0.4 + rank * 0.3 + inside * 1.5 + covered * 40 + (outside ? 400 : 0);
        if (best === null || cost < best.cost) best = { placed: { wanted: label, x, y, anchor }, box, cost };
      });
    });
    const chosen = best as { placed: PlacedLabel; box: Box } | null;
    if (chosen === null) return [];
    boxes.push(chosen.box);
    return [chosen.placed];
  });
}
