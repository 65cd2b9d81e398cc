import type { PlanResult } from '../../result/result.js';

/** Rods of which a ground system is made. Metres. */
export interface RodKind {
  readonly lengthM: number;
  readonly diameterM: number;
  readonly spacingM: number;
  readonly layout: 'line' | 'ring';
}

/** The least output that holds the target in every condition, on the plan's own curve with all its volts in proportion. */
export interface LeastOutput {
  /** Of the plan's energizer; null where no output does. */
  readonly factor: number | null;
  /** At 500 Ω, as an energizer is labelled: before any derating. */
  readonly voltsAt500: number | null;
  /** Condition that asks for the most. */
  readonly decides: string;
  /** Smallest generic class whose typical volts hold the target; null where none does. */
  readonly class: string | null;
  /** True where `voltsAt500` lies above the range of every generic class: no such energizer is known to the tables. */
  readonly beyondTables: boolean;
}

/** One line of the trade-off: so many rods in place of the plan's ground system. */
export interface TradeOff extends LeastOutput {
  readonly rods: number;
  /** Least and greatest resistance of them over the conditions. */
  readonly leastOhms: number;
  readonly mostOhms: number;
  /** Whether the plan's own energizer holds the target with them. */
  readonly holds: boolean;
  /** Highest reading of the ground test over the conditions, V. */
  readonly testVolts: number;
}

/** A generic energizer class in place of the plan's energizer. */
export interface ClassChoice {
  readonly id: string;
  readonly joules: number;
  readonly voltsAt500: { readonly low: number; readonly typical: number; readonly high: number };
  /** Whether it holds the target on the plan's ground system. */
  readonly holds: boolean;
  /** Fewest rods with which it does; null where even the most that were tried are too few. */
  readonly leastRods: number | null;
}

/** What one condition asks for, on the plan's ground system. */
export interface ConditionSupply {
  readonly id: string;
  readonly name: string;
  readonly groundOhms: number;
  /** Compared volts of the weakest post with the plan's own energizer. */
  readonly weakestVolts: number;
  readonly weakestPost: string;
  readonly leastFactor: number | null;
  readonly leastVoltsAt500: number | null;
  /** True where a fault cuts posts off, so that no output helps. */
  readonly cutOff: boolean;
}

/** How a reading of the ground test is taken: up to 0.2 kV passes, over 0.3 kV fails. */
export type TestVerdict = 'passes' | 'borderline' | 'fails';

/** The field test of a ground system, simulated: the fence is shorted and the last rod read against a probe in the soil. */
export interface GroundTest {
  readonly condition: string;
  readonly soil: string;
  /** Null for a measured ground system, whose rods are not known. */
  readonly rods: number | null;
  readonly groundOhms: number;
  /** Where the fence is shorted, along the metal from the fence terminal. */
  readonly shortPost: string;
  readonly shortAtM: number;
  /** The short that brings the fence down to the volts below; null where it reads no more without one. */
  readonly shortOhms: number | null;
  readonly fenceVolts: number;
  /** Out of the energizer. */
  readonly amps: number;
  /** Of the rods over remote earth. */
  readonly riseVolts: number;
  /** Of the soil where the probe stands, over remote earth, and what the meter between rod and probe reads; null where the rods are not known. */
  readonly probeVolts: number | null;
  readonly readVolts: number | null;
  readonly verdict: TestVerdict | null;
  /** Fewest rods that read 0.3 kV or less in that soil; null where even the most that were tried read more. */
  readonly rodsToPass: number | null;
}

/** How much energizer and how many rods a fence needs. */
export interface SupplyResult {
  readonly format: 'postvolt supply';
  readonly formatVersion: 1;
  readonly title: string;
  readonly units: 'imperial' | 'metric';
  readonly target: PlanResult['target'];
  readonly sentence: string;
  /** What the plan has. */
  readonly present: {
    readonly voltsAt500: number;
    readonly class: string | null;
    /** Null for a measured ground system. */
    readonly rods: number | null;
    readonly holds: boolean;
  };
  /** Rods of the trade-off: the plan's, or the usual ones where it has none. */
  readonly rod: RodKind;
  readonly mostRods: number;
  /** With the plan's ground system, and with a perfect one, which no rods can better. */
  readonly leastOutput: LeastOutput;
  readonly perfectGround: LeastOutput;
  /** Fewest rods with which the plan's own energizer holds the target; null where even `mostRods` are too few. */
  readonly leastRods: number | null;
  readonly tradeOff: readonly TradeOff[];
  readonly classes: readonly ClassChoice[];
  readonly conditions: readonly ConditionSupply[];
  readonly groundTests: readonly GroundTest[];
  /** By the farm press's rule of 3 ft of rod a joule and at least three rods; null where the joules are not known. */
  readonly ruleOfThumbRods: number | null;
  readonly probeM: number;
}
