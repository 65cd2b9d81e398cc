import type { UnitSystem } from '../../quantity/format.js';
import type { FaultCause } from './causes.js';
import type { RunPiece, Stretch } from './stretches.js';

export type { FaultCause, RunPiece, Stretch };

/** Chances add to 1. */
export interface FaultKinds {
  /** From a hot strand to earth or post. */
  readonly leak: number;
  /** In series with the wire: parted, or a bad joint. */
  readonly series: number;
  /** Between a hot and a grounded strand. */
  readonly contact: number;
}

/** A fault as the readings show it. */
export interface TracedFault {
  /** Likeliest first; the fault is in one of them with a chance of `stretchChance`. */
  readonly stretches: readonly Stretch[];
  readonly stretchChance: number;
  /** All stretches together, as a part of the fence's posts, 0 to 1. */
  readonly fenceShare: number;
  readonly kinds: FaultKinds;
  /** Rows of the faults table that fit, likeliest first. */
  readonly causes: readonly FaultCause[];
  /**
   * Ohms of the likeliest kind, nine chances in ten between `low` and `high`: to earth, across the strands, or in series;
   * null stands for a parted wire.
   */
  readonly ohms: { readonly low: number | null; readonly typical: number | null; readonly high: number | null };
  /** Part of the weakest post's volts that it costs, 0 to 1. */
  readonly cost: number;
}

/** Where to read next. */
export interface NextReading {
  /** `run/number`, or a junction; `wireTo` tells which of its wires. */
  readonly post: string;
  /** As a readings file has it: a strand, or `all`. */
  readonly strand: string;
  /** The wire to clamp leads to this post; null where only kilovolts are read. */
  readonly wireTo: string | null;
  /** What it should tell of the place: 1 bit halves what is left. */
  readonly bits: number;
  /** Nine foreseen readings in ten lie between these. */
  readonly volts: { readonly low: number; readonly high: number };
  /** Positive towards `wireTo`. */
  readonly amps: { readonly low: number; readonly high: number } | null;
}

/** A reading beside what the model makes of it. */
export interface ComparedReading {
  readonly post: string;
  readonly kind: 'volts' | 'amps';
  readonly read: number;
  /** With the tables settled as the readings would have them: no fault, and the faults found. */
  readonly withoutFault: number;
  readonly withFaults: number;
  /** Standard deviations from the reading to the better of the two explanations, by sign. */
  readonly off: number;
}

/** What readings say of faults. */
export interface TraceResult {
  readonly format: 'postvolt trace';
  readonly formatVersion: 1;
  readonly title: string;
  readonly units: UnitSystem;
  readonly sentence: string;
  readonly condition: { readonly id: string; readonly name: string };
  readonly meterErrorPercent: number;
  /** A fault that costs the weakest post 5 % or more: there is one, there is no sign of one, or the readings leave it open. */
  readonly verdict: 'fault' | 'no sign' | 'open';
  /** That there is such a fault, where one was as likely as none before the readings; 0 to 1. */
  readonly faultChance: number;
  /** The fault, and a second one where one does not fit. Where the verdict is not `fault`: where it would be, if there were one. */
  readonly faults: readonly TracedFault[];
  /** Null where another reading would tell next to nothing: go and look. */
  readonly next: NextReading | null;
  readonly readings: readonly ComparedReading[];
  /** Sum of squares left between the readings and the best explanation, in standard deviations of the meter. */
  readonly misfit: number;
  /** False where that is a sum that a meter’s error makes at most once in a hundred times: no such fault explains the readings. */
  readonly fits: boolean;
}
