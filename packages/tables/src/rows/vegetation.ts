import { estimate } from '../cell.js';
import type { Estimate } from '../estimate.js';
import type { GrowthWetness, VegetationRow } from '../schema.js';

type Triple = readonly [typical: number, low: number, high: number];

const growth = (
  id: string,
  aliases: string[],
  about: string,
  [typical, low, high]: Triple,
  [height, least, most]: Triple,
): VegetationRow => ({
  id,
  aliases,
  about,
  wetSiemensPerMetre: estimate(
    typical * 1e-6,
    [low * 1e-6, high * 1e-6],
    'S/m',
    'engineering estimate: contacts a metre times conductance a contact, averaged over a strand',
  ),
  usualHeightM: estimate(height, [least, most], 'm', 'engineering estimate: top of the stems that reach the wire'),
});

/** Growth that touches a strand, wet; the least certain numbers of all, meant to be fitted to readings. */
export const vegetation: VegetationRow[] = [
  growth('none', ['clear', 'sprayed'], 'Nothing touches the wire.', [0, 0, 0], [0, 0, 0]),
  growth('trace', ['a few stems'], 'A stem here and there.', [0.01, 0.003, 0.03], [0.5, 0.3, 0.8]),
  growth('light', ['light grass'], 'Thin grass on the wire.', [0.05, 0.02, 0.15], [0.6, 0.3, 0.9]),
  growth(
    'moderate',
    ['grass', 'moderate grass'],
    'Grass on the wire along most of it.',
    [0.2, 0.08, 0.6],
    [0.8, 0.4, 1.2],
  ),
  growth('heavy', ['heavy grass', 'weeds'], 'Thick grass and weeds.', [0.6, 0.25, 2], [1, 0.6, 1.4]),
  growth(
    'overgrown',
    ['brush', 'vines'],
    'Brush, vines or tall weeds: a stretch, seldom a whole fence.',
    [3, 1, 20],
    [1.3, 0.9, 2],
  ),
];

const relative = ([typical, low, high]: Triple, source: string): Estimate =>
  estimate(typical, [low, high], '1', source);

/** Conductance of growth relative to wet growth. */
export const growthWetness: GrowthWetness = {
  dry: relative([0.1, 0.05, 0.2], 'engineering estimate: wet green growth conducts 5 to 20 times better than dry'),
  damp: relative([0.4, 0.2, 0.8], 'engineering estimate: dew, between dry and wet'),
  wet: relative([1, 1, 1], 'the reference'),
};
