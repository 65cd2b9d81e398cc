/** What a search for the longest holding factor goes by. */
export interface Search {
  readonly least: number;
  readonly most: number;
  readonly guess: number;
  /** Width of the answer, relative; null for the exact one, to the post that tips it. */
  readonly tolerance: number | null;
  /** By run: posts for each unit of the factor. */
  readonly spanRates: readonly number[];
}

export type Longest =
  /** Falls short at the least factor already. */
  | { readonly kind: 'never' }
  /** Still holds at the most. */
  | { readonly kind: 'always' }
  /** `by` says what ends it: the wire and growth on a longer span, or one post more. */
  | { readonly kind: 'found'; readonly factor: number; readonly by: 'length' | 'one more post' };

/** Margin at a factor: zero or more holds. A smooth and nearly straight function of the factor is found in the fewest steps. */
export type Margin = (factor: number) => number;

export interface Point {
  readonly factor: number;
  readonly margin: number;
}

/** Relative width to which a length between two counts of posts is found: far below a millimetre in a mile. */
const sharp = 1e-9;
/** Steps in the count of posts that are settled one by one. */
const fewSteps = 4;

/**
 * The factor up to which the margin holds, by a bracket that always holds at its low end and falls short at its high one.
 *
 * Where the margin falls more than once, one of the places is found. A step down at a post more is found exactly. `pause` is awaited between evaluations.
 */
export async function findLongest(margin: Margin, search: Search, pause: () => Promise<void>): Promise<Longest> {
  const at = async (factor: number): Promise<Point> => {
    await pause();
    return { factor, margin: margin(factor) };
  };
  const { least, most } = search;
  let low = await at(least);
  if (low.margin < 0) return { kind: 'never' };
  let high: Point | null = null;
  for (let next = Math.min(most, Math.max(search.guess, least)); high === null; ) {
    const here = await at(next);
    if (here.margin < 0) {
      high = here;
      break;
    }
    if (next >= most) return { kind: 'always' };
    next = Math.min(most, beyond(low, here));
    low = here;
  }
  return narrow(low, high, search, at);
}

/** A factor past the one where a straight line through two points falls short, within reason. */
function beyond(low: Point, here: Point): number {
  const slope = (here.margin - low.margin) / (here.factor - low.factor);
  const zero = slope < 0 ? here.factor - (1.05 * here.margin) / slope : Number.POSITIVE_INFINITY;
  return Math.min(Math.max(zero, 1.05 * here.factor), 4 * here.factor);
}

const isNarrow = (a: Point, b: Point, relative: number): boolean =>
  Math.abs(b.factor - a.factor) <= relative * Math.max(a.factor, b.factor);

/** Narrows a bracket: R. K. Chandrupatla 1997, until few counts of posts are left, then count by count. */
export async function narrow(
  low: Point,
  high: Point,
  { tolerance, spanRates }: Pick<Search, 'tolerance' | 'spanRates'>,
  at: (factor: number) => Promise<Point>,
): Promise<Extract<Longest, { kind: 'found' }>> {
  const enough = (a: Point, b: Point) =>
    tolerance === null
      ? countSteps(a.factor, b.factor, spanRates) <= fewSteps || isNarrow(a, b, sharp)
      : isNarrow(a, b, tolerance);
  const [a, b] = await shrink(low, high, enough, at);
  if (tolerance !== null) return { kind: 'found', factor: a.factor, by: 'length' };
  return settle(a, b, spanRates, at);
}

/** Goes on until `enough`; returns the holding and the failing end. */
async function shrink(
  low: Point,
  high: Point,
  enough: (low: Point, high: Point) => boolean,
  at: (factor: number) => Promise<Point>,
): Promise<[Point, Point]> {
  // `one` is the newest point, `two` the one across the zero from it, `three` the one before.
  let [one, two] = [high, low];
  let part = one.margin / (one.margin - two.margin);
  for (;;) {
    const ends: [Point, Point] = one.margin < 0 ? [two, one] : [one, two];
    if (enough(...ends)) return ends;
    // Near an end a step of a part in a thousand of the bracket lands on the far side as often as not.
    part = Math.min(Math.max(part, 1e-3), 1 - 1e-3);
    const next = await at(one.factor + part * (two.factor - one.factor));
    let three: Point;
    if (next.margin < 0 === one.margin < 0) three = one;
    else {
      three = two;
      two = one;
    }
    one = next;
    part = interpolated(one, two, three);
  }
}

/** Inverse quadratic interpolation where it is safe, else half. */
function interpolated(one: Point, two: Point, three: Point): number {
  const x = (one.factor - two.factor) / (three.factor - two.factor);
  const y = (one.margin - two.margin) / (three.margin - two.margin);
  if (!(y * y < x && (1 - y) * (1 - y) < 1 - x)) return 0.5;
  const [f1, f2, f3] = [one.margin, two.margin, three.margin];
  return (
    (f1 / (f2 - f1)) * (f3 / (f2 - f3)) +
    ((three.factor - one.factor) / (two.factor - one.factor)) * (f1 / (f3 - f1)) * (f2 / (f3 - f2))
  );
}

/** Factors from `low` up to, without, `high` past which a run has one post more. */
function stepsBetween(low: number, high: number, spanRates: readonly number[]): number[] {
  const steps = spanRates.flatMap((rate) => {
    const first = Math.max(1, Math.ceil(low * rate - 1e-9));
    const count = Math.max(0, Math.ceil(high * rate - 1e-9) - first);
    return Array.from({ length: count }, (_, i) => (first + i) / rate);
  });
  return [...new Set(steps)].sort((a, b) => a - b);
}

const countSteps = (low: number, high: number, spanRates: readonly number[]): number =>
  spanRates.reduce(
    (sum, rate) => sum + Math.max(0, Math.ceil(high * rate - 1e-9) - Math.max(1, Math.ceil(low * rate - 1e-9))),
    0,
  );

/** Decides between the last few counts of posts, then within one. */
async function settle(
  low: Point,
  high: Point,
  spanRates: readonly number[],
  at: (factor: number) => Promise<Point>,
): Promise<Extract<Longest, { kind: 'found' }>> {
  // A hair past the step, more than the slack in the count, there is one post more and nothing else has changed.
  const hair = Math.max(1e-6 / Math.max(...spanRates), 2e-9 / Math.min(...spanRates));
  const past = (step: number) => step + hair;
  for (;;) {
    const steps = stepsBetween(low.factor, high.factor, spanRates).filter((step) => past(step) < high.factor);
    const step = steps[steps.length >> 1];
    if (step === undefined) break;
    const before = step > low.factor ? await at(step) : low;
    if (before.margin < 0) {
      high = before;
      continue;
    }
    const after = await at(past(step));
    if (after.margin < 0) return { kind: 'found', factor: before.factor, by: 'one more post' };
    low = after;
  }
  const [last] = await shrink(low, high, (a, b) => isNarrow(a, b, sharp), at);
  return { kind: 'found', factor: last.factor, by: 'length' };
}
