import type { SourceCurve } from '../../engine/source-curve.js';
import type { OpenFence } from '../../fence/open-fence.js';

/** The weakest of the posts that the target looks at. */
export interface LowestPost {
  /** Of what the target compares. */
  readonly volts: number;
  readonly postId: string;
}

/** A fence shorted at one node until it reads some volts there. */
export interface Shorted {
  /** Conductance of the short, S; 0 where the fence reads no more without one. */
  readonly siemens: number;
  /** At the shorted node. */
  readonly volts: number;
  readonly amps: number;
  /** Of the ground terminal below remote earth, as a positive number. */
  readonly riseVolts: number;
}

/** What is left of a fence in one condition when its energizer and its ground rods are taken off: it answers for any of them. */
export interface TwoPort {
  readonly fence: OpenFence;
  /** The weakest post with a ground system of so many siemens (`Infinity` for a perfect one) and an output curve. */
  lowest(groundSiemens: number, curve: SourceCurve): LowestPost;
  /** The least factor on a curve's volts, at every load, that brings the weakest post to some volts; null where none does. */
  leastFactor(groundSiemens: number, curve: SourceCurve, targetVolts: number): number | null;
  short(groundSiemens: number, curve: SourceCurve, node: number, volts: number): Shorted;
}
