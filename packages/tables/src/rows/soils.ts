import { estimate, handbook } from '../cell.js';
import type { Estimate } from '../estimate.js';
import type { GroundCoverRow, SoilRow, SoilState } from '../schema.js';

type OhmMetres = readonly [typical: number, low: number, high: number];
type Layers = readonly [topsoil: OhmMetres, deep: OhmMetres];

const ranges = 'soil resistivity ranges of IEEE Std 142, IEEE Std 80 and farm handbooks';
const seasons =
  'engineering estimate from those ranges: a dry season multiplies by 2 to 10, frost by 5 to 20, less at depth';

function layers(state: SoilState, [topsoil, deep]: Layers): SoilRow['states']['dry'] {
  const cell = ([typical, low, high]: OhmMetres): Estimate =>
    state === 'moist' || state === 'wet'
      ? handbook(typical, [low, high], 'Ω·m', ranges)
      : estimate(typical, [low, high], 'Ω·m', `${ranges}; ${seasons}`, { memory: true });
  return { topsoilOhmM: cell(topsoil), deepOhmM: cell(deep) };
}

const soil = (id: string, aliases: string[], about: string, states: Readonly<Record<SoilState, Layers>>): SoilRow => ({
  id,
  aliases,
  about,
  states: {
    dry: layers('dry', states.dry),
    moist: layers('moist', states.moist),
    wet: layers('wet', states.wet),
    frozen: layers('frozen', states.frozen),
  },
});

/** Soils: topsoil under hooves and posts, deeper soil round the rods. */
export const soils: SoilRow[] = [
  soil('clay', ['heavy clay', 'clay soil'], 'Clay and clay loam.', {
    dry: [
      [200, 80, 500],
      [80, 30, 200],
    ],
    moist: [
      [40, 20, 100],
      [35, 15, 80],
    ],
    wet: [
      [25, 10, 50],
      [25, 10, 50],
    ],
    frozen: [
      [400, 150, 1500],
      [70, 25, 300],
    ],
  }),
  soil('loam', ['silt', 'silt loam', 'good pasture soil'], 'Loam and silt, ordinary pasture soil.', {
    dry: [
      [400, 150, 1500],
      [160, 60, 500],
    ],
    moist: [
      [80, 30, 150],
      [80, 30, 150],
    ],
    wet: [
      [45, 20, 90],
      [50, 25, 100],
    ],
    frozen: [
      [800, 250, 3000],
      [160, 50, 600],
    ],
  }),
  soil('sand', ['sandy', 'sandy soil'], 'Sand and sandy loam.', {
    dry: [
      [3000, 1000, 5000],
      [1000, 300, 3000],
    ],
    moist: [
      [300, 100, 500],
      [250, 100, 500],
    ],
    wet: [
      [150, 60, 300],
      [150, 60, 300],
    ],
    frozen: [
      [3000, 1000, 10000],
      [600, 200, 2500],
    ],
  }),
  soil('gravel', ['gravelly', 'stony'], 'Gravel and stony ground.', {
    dry: [
      [4000, 2000, 10000],
      [3000, 1000, 8000],
    ],
    moist: [
      [1500, 500, 5000],
      [1500, 500, 5000],
    ],
    wet: [
      [800, 500, 2500],
      [800, 500, 2500],
    ],
    frozen: [
      [10000, 3000, 40000],
      [3000, 800, 15000],
    ],
  }),
  soil('rock', ['ledge', 'rocky'], 'Bare or broken rock.', {
    dry: [
      [6000, 2000, 20000],
      [4000, 1500, 15000],
    ],
    moist: [
      [3000, 1000, 10000],
      [3000, 1000, 10000],
    ],
    wet: [
      [2000, 1000, 6000],
      [2500, 1000, 8000],
    ],
    frozen: [
      [10000, 4000, 40000],
      [4000, 1500, 15000],
    ],
  }),
  soil(
    'loam over rock',
    ['thin soil', 'shallow soil'],
    'A spade or less of loam on rock: fair underfoot, poor for rods.',
    {
      dry: [
        [500, 150, 1500],
        [4000, 1500, 15000],
      ],
      moist: [
        [80, 30, 150],
        [2000, 800, 8000],
      ],
      wet: [
        [45, 20, 90],
        [1500, 600, 5000],
      ],
      frozen: [
        [1000, 300, 3000],
        [4000, 1500, 15000],
      ],
    },
  ),
  soil('peat', ['bog', 'marsh', 'muck'], 'Peat, muck and marsh.', {
    dry: [
      [120, 40, 500],
      [50, 15, 150],
    ],
    moist: [
      [30, 10, 80],
      [25, 8, 60],
    ],
    wet: [
      [20, 5, 40],
      [20, 5, 40],
    ],
    frozen: [
      [250, 80, 800],
      [40, 10, 150],
    ],
  }),
];

const cover = (id: string, aliases: string[], about: string, hoofOhms: Estimate): GroundCoverRow => ({
  id,
  aliases,
  about,
  hoofOhms,
});

/** What lies between the hooves and the soil. */
export const groundCovers: GroundCoverRow[] = [
  cover(
    'bare',
    ['none', 'bare soil'],
    'Hooves on the soil itself.',
    estimate(0, null, 'Ω', 'nothing between hoof and soil'),
  ),
  cover(
    'grass',
    ['pasture', 'turf'],
    'Grazed grass and a little litter.',
    estimate(50, [0, 500], 'Ω', 'engineering estimate: green stems and moist litter'),
  ),
  cover(
    'dry litter',
    ['straw', 'dry thatch'],
    'Straw, leaves or dead thatch, dry.',
    estimate(10e3, [1e3, 100e3], 'Ω', 'engineering estimate: a dry mat under the hooves'),
  ),
  cover(
    'crushed stone',
    ['gravel pad', 'stone'],
    'A hand of crushed stone at a gate or trough, wet.',
    handbook(4500, [3000, 8000], 'Ω', 'IEEE Std 80 crushed rock of 2000 to 5000 Ω·m under four hooves'),
  ),
  cover(
    'wet snow',
    ['slush'],
    'Thawing snow.',
    estimate(10e3, [2e3, 50e3], 'Ω', 'engineering estimate: between wet soil and dry snow'),
  ),
  cover(
    'dry snow',
    ['snow', 'packed snow'],
    'Dry or packed snow.',
    estimate(200e3, [100e3, 2e6], 'Ω', 'engineering estimate: 100 kΩ and more'),
  ),
  cover(
    'frozen crust',
    ['ice', 'frozen ground'],
    'Hard frozen bare ground or ice.',
    estimate(100e3, [20e3, 1e6], 'Ω', 'engineering estimate: dry hooves on ice'),
  ),
];
