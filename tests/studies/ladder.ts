import type { ResolvedPlan } from '@postvolt/core';
import type { Estimate } from '@postvolt/tables';
import { Matrix, solve } from 'ml-matrix';
import { exact, plainPlan } from '../support/fence.js';

/** 95th percentile of the standard normal (any table of it): the high end of a table's range. */
export const z95 = 1.6448536269514722;

/** An estimate with a range. */
export const ranged = (low: number, typical: number, high: number, unit = '1'): Estimate => ({
  ...exact(typical, unit),
  low,
  high,
});

/** A value of a range at z: log-normal in two halves with its ends at −1.645 and 1.645. */
export const drawn = ({ low, typical, high }: Pick<Estimate, 'low' | 'typical' | 'high'>, z: number): number =>
  typical * ((z < 0 ? low : high) / typical) ** (Math.abs(z) / z95);

export const ranges = {
  energizer: ranged(4500, 6000, 7200, 'V'),
  ground: ranged(20, 50, 200, 'Ω'),
  film: ranged(1 / 8000, 1 / 2000, 1 / 500, 'S'),
};

/** Amps that a meter clamps besides, of a metre of fence and a volt: 0.4 to 2 A a mile of 1609.344 m at 6 kV. */
export const charging = ranged(0.4 / 1609.344 / 6000, 1.2 / 1609.344 / 6000, 2 / 1609.344 / 6000, 'S/m');

/**
 * Three posts of 1000 Ω, 10 m apart on a wire of 10 Ω/m, behind a source of 500 Ω and a ground of 50 Ω. What is named in
 * `uncertain` has its range, all else is sure.
 */
export function ladderPlan(uncertain: readonly (keyof typeof ranges)[]): ResolvedPlan {
  const plan = plainPlan();
  const has = (name: keyof typeof ranges) => uncertain.includes(name);
  if (has('energizer')) {
    const { low, high } = ranges.energizer;
    plan.energizer.loads = plan.energizer.loads.map(({ ohms, volts: { typical } }) => ({
      ohms,
      volts: ranged((typical * low) / 6000, typical, (typical * high) / 6000, 'V'),
    }));
  }
  if (has('ground')) plan.energizer.ground = { kind: 'measured', ohms: ranges.ground, measuredIn: null };
  if (has('film'))
    plan.rows.films = Object.fromEntries(
      Object.entries(plan.rows.films).map(([id, row]) => [
        id,
        { ...row, siemens: { dry: ranges.film, damp: ranges.film, wet: ranges.film } },
      ]),
    );
  return plan;
}

export interface LadderValues {
  /** Factor on the energizer's volts. */
  readonly energizer: number;
  readonly groundOhms: number;
  readonly filmSiemens: number;
  /** Of a metre and volt. */
  readonly chargingAmps: number;
  /** A leak put in by hand: its post and ohms. */
  readonly leak?: readonly [post: number, ohms: number];
}

export const typicalLadder: LadderValues = {
  energizer: 1,
  groundOhms: 50,
  filmSiemens: 1 / 2000,
  chargingAmps: charging.typical,
};

/** The ladder by Kirchhoff's current law at its three posts and its ground terminal, as a dense system. */
export function ladder(values: LadderValues) {
  const leaks = [0, 1, 2].map((post) => {
    const [at, ohms] = values.leak ?? [-1, 1];
    return 1 / (1 / values.filmSiemens + 1000) + (at === post ? 1 / ohms : 0);
  });
  const [span, source, ground] = [1 / 100, 1 / 500, 1 / values.groundOhms];
  const open = 6000 * values.energizer;
  const wire = [
    [leaks[0]! + span, -span, 0],
    [-span, leaks[1]! + 2 * span, -span],
    [0, -span, leaks[2]! + span],
  ];
  const kirchhoff = new Matrix([
    [wire[0]![0]! + source, wire[0]![1]!, wire[0]![2]!, -source],
    [...wire[1]!, 0],
    [...wire[2]!, 0],
    [-source, 0, 0, source + ground],
  ]);
  const [a, m, b] = solve(kirchhoff, Matrix.columnVector([open * source, 0, 0, -open * source])).to1DArray();
  const volts = [a!, m!, b!];
  // Half of each span of 10 m is charged at either end of it. With the terminals held the ground rises as the fence does.
  const drawnAmps = [5, 10, 5].map((metres, post) => -metres * volts[post]! * values.chargingAmps);
  const held = new Matrix(wire);
  held.set(0, 0, held.get(0, 0) + ground);
  const drop = solve(held, Matrix.columnVector(drawnAmps)).to1DArray();
  const amps = [0, 1].map((post) => span * (volts[post]! - volts[post + 1]! + drop[post]! - drop[post + 1]!));
  return { volts, amps };
}

/** A meter's own error of so many percent and the network's 2 %, squares added; a display's least step beside it. */
export const shareOf = (percent: number): number => Math.sqrt(percent ** 2 + 2 ** 2) / 100;
export const leastStep = { volts: 50, amps: 0.05 } as const;

/** Standard deviation of a reading. */
export const sigmaOf = (kind: 'volts' | 'amps', reading: number, percent = 5): number =>
  Math.sqrt((shareOf(percent) * reading) ** 2 + leastStep[kind] ** 2);

/** The integral of 1/σ: a reading on a scale on which it has a standard deviation of 1 everywhere. */
export const evenOf = (kind: 'volts' | 'amps', reading: number, percent = 5): number =>
  Math.asinh((shareOf(percent) * reading) / leastStep[kind]) / shareOf(percent);

/** The reading that stands there on that scale. */
export const readingAt = (kind: 'volts' | 'amps', even: number, percent = 5): number =>
  (leastStep[kind] * Math.sinh(even * shareOf(percent))) / shareOf(percent);
