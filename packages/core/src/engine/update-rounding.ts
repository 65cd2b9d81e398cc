import { EARTH } from './network.js';
import type { OperatingPoint, SourceCurve } from './source-curve.js';

/** What one operation may be off by, relative to its terms, with room for the few that stand behind each number here. */
const ROUNDING = 16 * Number.EPSILON;

/** An update is as good as solving anew where its rounding stays below this part of the source's open-circuit volts. */
const NINE_DIGITS = 1e-9;

/** Largest relative error of the inverse for which errors still add up in proportion. */
const FIRST_ORDER = 0.01;

/** The changes of an update, as seen with the source's terminals tied together; all arrays have one entry a change. */
export interface Update {
  /** Conductance added between the ends, S; negative where some is taken away. */
  readonly delta: ArrayLike<number>;
  /** (1 + K δ)⁻¹ row by row, K being the changes' mutual resistances. */
  readonly inverse: ArrayLike<number>;
  /** Resistance between the ends, and both ends' own to earth added up, Ω. */
  readonly acrossOhms: ArrayLike<number>;
  readonly endsOhms: ArrayLike<number>;
  /** Of the ends' potentials for one volt between the terminals: their difference and the sum of their sizes. */
  readonly shareAcross: ArrayLike<number>;
  readonly shareEnds: ArrayLike<number>;
  /** The same of the volts that fired spark gaps cause. */
  readonly offsetAcross: ArrayLike<number>;
  readonly offsetEnds: ArrayLike<number>;
}

/** A change between two nodes, or a node and `EARTH`. */
export interface Ends {
  readonly a: number;
  readonly b: number;
  /** Conductance added, S; negative where some is taken away. */
  readonly delta: number;
}

/** Volts across a change's ends, for given potentials by node. */
export const acrossEnds = (volts: Float64Array, { a, b }: Ends): number => volts[a]! - (b === EARTH ? 0 : volts[b]!);

/** What of an update its rounding depends on; `share` and `offset` are potentials by node, `offset` from spark gaps. */
export function updateOf(
  ends: readonly Ends[],
  ohms: Pick<Update, 'inverse' | 'acrossOhms' | 'endsOhms'>,
  share: Float64Array,
  offset: Float64Array | undefined,
): Update {
  const across = (x: Float64Array) => ends.map((end) => acrossEnds(x, end));
  const sizes = (x: Float64Array) => ends.map(({ a, b }) => Math.abs(x[a]!) + (b === EARTH ? 0 : Math.abs(x[b]!)));
  const none = ends.map(() => 0);
  return {
    delta: ends.map(({ delta }) => delta),
    ...ohms,
    shareAcross: across(share),
    shareEnds: sizes(share),
    offsetAcross: offset ? across(offset) : none,
    offsetEnds: offset ? sizes(offset) : none,
  };
}

/**
 * Whether an update keeps some nine digits of the source's volts: what each number may have lost by subtraction is
 * followed, to first order, up to the node that it harms most. One added conductance never loses any that matter.
 *
 * `before` and `after` are the network's conductance to the source, S; `point` is where the changed one meets the curve.
 */
export function isAccurate(
  update: Update,
  before: number,
  after: number,
  offsetAmps: number,
  source: SourceCurve,
  point: OperatingPoint,
): boolean {
  const { delta, inverse, acrossOhms, endsOhms, shareAcross, shareEnds, offsetAcross, offsetEnds } = update;
  const count = delta.length;
  const sum = (term: (j: number) => number) => {
    let total = 0;
    for (let j = 0; j < count; j++) total += term(j);
    return total;
  };
  // Mutual resistances are rounded like their bound √(z_i z_j), z being the ends' own resistance.
  const reach = (i: number) => Math.sqrt(endsOhms[i]!);
  const size = (i: number) => Math.abs(delta[i]!);
  const worked = (i: number, off: (j: number) => number) => sum((j) => Math.abs(inverse[i * count + j]!) * off(j));

  // To be followed to first order the inverse itself must hold; each change is weighed by about what is left across it.
  const left = (i: number) => 1 / (1 + size(i) * endsOhms[i]!);
  const mixedLeft = sum((j) => size(j) * reach(j) * left(j));
  for (let i = 0; i < count; i++) {
    const off = worked(i, (j) => left(j) + reach(j) * mixedLeft);
    if (!(ROUNDING * off <= FIRST_ORDER * left(i))) return false;
  }

  // Volts across each change as it would be after all of them, and what the equations for them are off by.
  const across = Array.from(delta, (_, i) =>
    Math.abs(sum((j) => inverse[i * count + j]! * (shareAcross[j]! * point.volts + offsetAcross[j]!))),
  );
  const mixed = sum((j) => size(j) * reach(j) * across[j]!);
  const equation = (j: number) =>
    across[j]! + reach(j) * mixed + Math.abs(point.volts) * shareEnds[j]! + offsetEnds[j]!;
  let amps = before * Math.abs(point.volts) + Math.abs(offsetAmps);
  let volts = 0;
  for (let i = 0; i < count; i++) {
    const off = worked(i, equation);
    amps += size(i) * (Math.abs(shareAcross[i]!) * off + shareEnds[i]! * across[i]!);
    volts += size(i) * (acrossOhms[i]! * off + endsOhms[i]! * across[i]!);
  }
  const sourceOhms = source.ohms[point.segment]!;
  volts += (sourceOhms * amps) / (1 + sourceOhms * Math.max(0, after));
  return ROUNDING * volts <= NINE_DIGITS * source.volts[0]!;
}
