import type { Observation } from './observation.js';

/** Standard deviation of a fence meter's reading, percent of it, where nothing else is said; common practice, no source. */
export const usualMeterPercent = 5;

/**
 * What the network's own simplicity adds, percent of a reading: insulators of a run and growth along it are never all alike.
 * Engineering estimate.
 */
const modelPercent = 2;

/** Of a display that shows a tenth of a kilovolt and of an ampere, and of a meter's own zero. Engineering estimate. */
const least = { volts: 50, amps: 0.05 } as const;

/**
 * Readings on a scale on which every one has the same standard deviation, 1: with σ² = (share · reading)² + least² that is
 * asinh(share · reading / least) / share, straight near zero and a logarithm far from it.
 *
 * The logarithm also makes amps nearly straight in the groups, which are logarithms themselves.
 */
export class MeterScale {
  readonly percent: number;
  readonly #share: number;

  /** `percent` is the meter's own standard deviation. */
  constructor(percent: number) {
    this.percent = percent;
    this.#share = Math.hypot(percent, modelPercent) / 100;
  }

  /** A reading, V or A, on the even scale. */
  even(kind: Observation['kind'], reading: number): number {
    return Math.asinh((this.#share * reading) / least[kind]) / this.#share;
  }

  /** Standard deviation of a reading, V or A. */
  sigma(kind: Observation['kind'], reading: number): number {
    return Math.hypot(this.#share * reading, least[kind]);
  }
}
