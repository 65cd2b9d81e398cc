import type { UnitSystem } from '../../quantity/format.js';

/** What a meter should show: with every table value typical, and what 5 and 95 of 100 sound fences lie below. */
export interface ExpectedReading {
  readonly typical: number;
  readonly low: number;
  readonly high: number;
}

/** Why a post is on the sheet. */
export type SheetReason = 'energizer' | 'junction' | 'end' | 'gate' | 'corner' | 'between';

/** One line of the sheet: a post, and one way that a wire goes on from there. */
export interface SheetLine {
  readonly post: string;
  readonly reason: SheetReason;
  /** Name of the gate or junction, else empty. */
  readonly name: string;
  readonly run: string;
  /** Number of the post in that run, and metres from the run's start. */
  readonly postNumber: number;
  readonly positionM: number;
  /** As a readings file has it: a strand, or `all` for all hot strands added up. */
  readonly strand: string;
  /** The wire to clamp leads to this post, and the current in it should flow towards it or come from it. */
  readonly wireTo: string;
  readonly flows: 'towards' | 'from';
  readonly volts: ExpectedReading;
  /** With the charging current that a meter clamps besides; null at a post where no wire can be clamped. */
  readonly amps: ExpectedReading | null;
}

/** The sheet of one condition, in the order of a walk along each run. */
export interface ConditionSheet {
  readonly id: string;
  readonly name: string;
  readonly lines: readonly SheetLine[];
}

/** Readings to expect, for the pocket. */
export interface ReadingsResult {
  readonly format: 'postvolt expected readings';
  readonly formatVersion: 1;
  readonly title: string;
  readonly units: UnitSystem;
  readonly sentence: string;
  /** Faults that the plan itself holds in these conditions; the readings are with them. */
  readonly faults: number;
  readonly meterErrorPercent: number;
  readonly draws: number;
  readonly seed: number;
  readonly conditions: readonly ConditionSheet[];
}
