import { estimate, practice, years } from '../cell.js';
import type { WireRow } from '../schema.js';

interface Poly {
  readonly id: string;
  readonly aliases?: readonly string[];
  readonly about: string;
  readonly ohmsPerMetre: readonly [typical: number, low: number, high: number];
  readonly breakingLoadN: readonly [typical: number, low: number, high: number];
  readonly coilM: readonly [typical: number, low: number, high: number];
}

/** Fine metal filaments wear and break: the high ends stand for a conductor some seasons old. */
const poly = ({
  id,
  aliases = [],
  about,
  ohmsPerMetre: [ohms, least, most],
  breakingLoadN: [load, weak, strong],
  coilM: [coil, short, long],
}: Poly): WireRow => ({
  id,
  aliases: [...aliases],
  about,
  kind: 'poly',
  diameterM: null,
  resistivityOhmM: null,
  relativePermeability: null,
  temperatureCoefficient: null,
  coating: null,
  ohmsPerMetre: estimate(
    ohms,
    [least, most],
    'Ω/m',
    'engineering estimate from the number and metal of the filaments; they break with wear',
  ),
  insulationVolts: null,
  breakingLoadN: estimate(
    load,
    [weak, strong],
    'N',
    'engineering estimate from the number and kind of the plastic strands',
  ),
  coilM: practice(coil, [short, long], 'm'),
  serviceYears: years(5, 2, 10),
});

/** Twine, tape, braid and rope of plastic with fine metal filaments. */
export const polyWires: WireRow[] = [
  poly({
    id: 'poly twine',
    aliases: ['polywire', 'poly wire', 'light poly twine'],
    about: 'Twine with three to six stainless filaments, for short strips.',
    ohmsPerMetre: [6, 2, 15],
    breakingLoadN: [700, 400, 1200],
    coilM: [200, 200, 500],
  }),
  poly({
    id: 'mixed poly twine',
    aliases: ['mixed polywire', 'heavy poly twine'],
    about: 'Twine with stainless and tinned copper filaments, for longer strips.',
    ohmsPerMetre: [0.3, 0.1, 1],
    breakingLoadN: [1000, 700, 1800],
    coilM: [400, 200, 1000],
  }),
  poly({
    id: 'poly tape 12 mm',
    aliases: ['poly tape', 'polytape', 'half inch poly tape'],
    about: 'Narrow tape with stainless filaments, for short visible strips.',
    ohmsPerMetre: [5, 1.5, 12],
    breakingLoadN: [700, 400, 1200],
    coilM: [200, 200, 400],
  }),
  poly({
    id: 'poly tape 40 mm',
    aliases: ['wide poly tape', '1.5 in poly tape'],
    about: 'Wide tape with stainless and copper filaments, for horses.',
    ohmsPerMetre: [0.15, 0.05, 1],
    breakingLoadN: [2500, 1500, 4500],
    coilM: [200, 200, 400],
  }),
  poly({
    id: 'poly braid',
    aliases: ['polybraid', 'braided twine'],
    about: 'Braided cord with stainless and copper filaments, for strips that are moved often.',
    ohmsPerMetre: [0.25, 0.1, 2],
    breakingLoadN: [1500, 900, 2500],
    coilM: [400, 200, 800],
  }),
  poly({
    id: 'poly rope 6 mm',
    aliases: ['poly rope', 'polyrope'],
    about: 'Quarter-inch rope with stainless and copper filaments, for horses.',
    ohmsPerMetre: [0.3, 0.08, 4],
    breakingLoadN: [4000, 2000, 6000],
    coilM: [200, 200, 400],
  }),
];
