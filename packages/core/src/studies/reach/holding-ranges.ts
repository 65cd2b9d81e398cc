import { findLongest, type Longest, type Margin, narrow, type Point, type Search } from './longest.js';

/** Factors between which the margin holds. */
export interface HoldingRange {
  readonly from: number;
  readonly to: number;
}

export interface Holding {
  /** Of the last range that was found. */
  readonly longest: Longest;
  /** In rising order; more than one where the fence falls short at some shorter length too. */
  readonly ranges: readonly HoldingRange[];
  /** Lowest and highest factor that was tried. */
  readonly tried: HoldingRange;
}

/** Width to which the start of a range is found, relative. */
const startWidth = 1e-4;

/**
 * Finds the longest holding factor, then looks at shorter and longer ones for a fence that does not simply get worse with
 * its length: what holds only from some length on, or falls short and holds again.
 */
export async function holdingRanges(once: Margin, search: Search, pause: () => Promise<void>): Promise<Holding> {
  const { least, most } = search;
  const known = new Map<number, number>();
  const margin: Margin = (factor) => {
    const value = known.get(factor) ?? once(factor);
    known.set(factor, value);
    return value;
  };
  const first = await findLongest(margin, search, pause);
  const at = async (factor: number): Promise<Point> => {
    await pause();
    return { factor, margin: margin(factor) };
  };
  const points: Point[] = [await at(least)];
  for (const factor of looks(first, search)) if (factor > least && factor <= most) points.push(await at(factor));
  if (first.kind === 'always') points.push(await at(most));
  points.sort((a, b) => a.factor - b.factor);

  const ranges: HoldingRange[] = [];
  let longest: Longest = first;
  let start: number | null = null;
  for (const [i, point] of points.entries()) {
    const before = points[i - 1];
    if (before === undefined) {
      if (point.margin >= 0) start = point.factor;
    } else if (before.margin < 0 && point.margin >= 0) {
      const opposite = (p: Point): Point => ({
        factor: p.factor,
        margin: p.margin < 0 ? -p.margin : -p.margin - 1e-300,
      });
      const seen = async (factor: number) => opposite(await at(factor));
      const { factor } = await narrow(opposite(before), opposite(point), { ...search, tolerance: startWidth }, seen);
      start = factor;
    } else if (before.margin >= 0 && point.margin < 0) {
      const isFirst = first.kind === 'found' && before.factor <= first.factor && first.factor < point.factor;
      const found = isFirst ? first : await narrow(before, point, search, at);
      ranges.push({ from: start!, to: found.factor });
      longest = found;
      start = null;
    }
  }
  if (start !== null) {
    ranges.push({ from: start, to: points.at(-1)!.factor });
    longest = { kind: 'always' };
  }
  return { longest, ranges, tried: { from: points[0]!.factor, to: points.at(-1)!.factor } };
}

/** Factors to look at besides. */
function looks(first: Longest, { least, most }: Search): number[] {
  if (first.kind === 'never') {
    // Up to some times the present length; beyond, what fell short throughout only leaks more.
    const end = Math.min(most, 8);
    const count = Math.max(1, Math.ceil(Math.log(end / least) / Math.log(4)));
    return Array.from({ length: count }, (_, i) => Math.min(end, least * (end / least) ** ((i + 1) / count)));
  }
  if (first.kind === 'always') return [4, 16, 64].map((part) => most / part);
  return [1 / 16, 1 / 4, 1 / 2, 1.2, 2].map((part) => part * first.factor);
}
