import { estimate } from '../cell.js';
import type { Estimate } from '../estimate.js';
import { dirtySurfaceVolts } from '../physics/spark-over.js';
import type { FaultRow } from '../schema.js';

const fault = (
  id: string,
  aliases: string[],
  about: string,
  path: FaultRow['path'],
  ohms: Estimate | null,
  insulatorState: FaultRow['insulatorState'] = null,
  gapVolts: Estimate | null = null,
): FaultRow => ({ id, aliases, about, path, ohms, gapVolts, insulatorState });

const guess = (typical: number, low: number, high: number, why: string): Estimate =>
  estimate(typical, [low, high], 'Ω', `engineering estimate: ${why}`);

/** Single faults: the path that each makes, or adds in series; null ohms are the insulator's, the animal's, or a gap's own. */
export const faults: FaultRow[] = [
  fault(
    'wire on post',
    ['off its insulator', 'wire off insulator'],
    'The wire has come off its insulator and lies on the post.',
    'strand to post',
    guess(1, 0.01, 100, 'wire lying on wood or metal; the post and its soil come after it'),
  ),
  fault('cracked insulator', ['broken insulator'], 'One insulator is cracked.', 'insulator', null, 'cracked'),
  fault('fouled insulator', ['dirty insulator'], 'One insulator is bird-fouled.', 'insulator', null, 'fouled'),
  fault(
    'ticking insulator',
    ['arcing insulator', 'sparking insulator'],
    'A spark runs across one insulator at every pulse, once the volts exceed its gap.',
    'spark gap',
    guess(50, 5, 500, 'a spark that has fired, for the rest of the pulse'),
    null,
    dirtySurfaceVolts(0.015),
  ),
  fault(
    'branch on wire',
    ['limb on wire', 'tree on wire'],
    'A fallen branch joins the wire to the ground.',
    'strand to earth',
    guess(20e3, 2e3, 200e3, 'green or wet wood a few fingers thick'),
  ),
  fault(
    'wire on ground',
    ['sagging wire', 'wire in water'],
    'A stretch of wire lies on the ground.',
    'strand to earth',
    guess(300, 50, 5e3, 'some yards of wire on moist soil, with grass between'),
  ),
  fault(
    'wire on metal',
    ['wire on a gate', 'wire on a pipe', 'short to metal'],
    'The wire touches earthed metal: a gate, a pipe or a building.',
    'strand to earth',
    guess(50, 5, 300, 'metal set in soil'),
  ),
  fault(
    'bad splice',
    ['bad joint', 'loose splice', 'rusty splice'],
    'A splice that is loose or corroded.',
    'series',
    guess(100, 10, 1000, '10 Ω to 1 kΩ'),
  ),
  fault('broken wire', ['cut wire', 'wire broken'], 'The wire is parted and both ends hang free.', 'series', null),
  fault(
    'strands touching',
    ['wires touching', 'short to grounded strand'],
    'The strand lies on another strand.',
    'strand to grounded',
    guess(1, 0.01, 20, 'bare wires in loose contact'),
  ),
  fault('animal', ['animal on wire', 'dead animal'], 'An animal stands against the wire.', 'animal', null),
];
