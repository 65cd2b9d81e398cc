import type { Estimate } from '@postvolt/tables';
import { kindCode } from '../../network/elements.js';
import type { FenceNetwork } from '../../network/network.js';
import { hotNodes } from '../../result/leaks.js';

const metresPerMile = 1609.344;
/** Volts of the fence on which the published amps a mile were read; not published with them, so an assumption. */
const assumedVolts = 6000;
const perMetreVolt = (ampsPerMile: number) => ampsPerMile / (metresPerMile * assumedVolts);

/**
 * Amps that a metre of clean fence adds to what a meter clamps, for every volt on it.
 *
 * A clean mile reads about 1 to 2 A, mostly the current that charges the wire at every pulse. The resistive network does not
 * hold it, so it is added to the amps that a meter reads and never takes volts away.
 */
export const chargingAmpsPerMetreVolt: Estimate = {
  low: perMetreVolt(0.4),
  typical: perMetreVolt(1.2),
  high: perMetreVolt(2),
  unit: 'S/m',
  basis: 'estimate',
  source:
    'engineering estimate: 0.4 to 2 A a mile at an assumed 6 kV, after the 1 to 2 A a clean mile of Virginia Cooperative Extension SPES-204',
  fromMemory: true,
};

/** By node: metres of fence whose charging current leaves there; a run's length is shared by its hot strands. */
export function chargedLengthM({ elements, layout }: FenceNetwork): Float64Array {
  const metres = new Float64Array(layout.nodeCount);
  const hot = hotNodes({ layout } as FenceNetwork);
  const hotStrands = layout.runs.map((run) => run.strands.filter(({ role }) => role === 'hot').length);
  for (let e = 0; e < elements.count; e++) {
    if (elements.kind[e] !== kindCode.span || !hot[elements.nodeA[e]!]) continue;
    const half = elements.lengthM[e]! / 2 / hotStrands[elements.run[e]!]!;
    metres[elements.nodeA[e]!]! += half;
    metres[elements.nodeB[e]!]! += half;
  }
  return metres;
}
