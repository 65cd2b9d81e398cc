/** A chance as counted in draws, with its sampling error. */
export interface Chance {
  /** Draws in which it came true, of all draws, 0 to 1. */
  readonly share: number;
  /** Ends of its 95 % interval (E. B. Wilson 1927). */
  readonly low: number;
  readonly high: number;
}

/** The 97.5th percentile of the standard normal. */
const z = 1.959963984540054;

/**
 * The chance of something that came true in `hits` of `draws`.
 *
 * The interval is that of draws without the hypercube's strata, which only make it narrower (A. B. Owen 1997), and stays
 * honest where all or none came true.
 */
export function chanceOf(hits: number, draws: number): Chance {
  const share = hits / draws;
  const scale = 1 + z ** 2 / draws;
  const centre = (share + z ** 2 / (2 * draws)) / scale;
  const half = (z / scale) * Math.sqrt((share * (1 - share)) / draws + z ** 2 / (4 * draws ** 2));
  return {
    share,
    low: hits === 0 ? 0 : Math.max(0, centre - half),
    high: hits === draws ? 1 : Math.min(1, centre + half),
  };
}
