import { estimate, feet, practice, years } from '../cell.js';
import type { Estimate } from '../estimate.js';
import type { PostRow } from '../schema.js';

type Triple = readonly [typical: number, low: number, high: number];

interface Post {
  readonly id: string;
  readonly aliases: readonly string[];
  readonly about: string;
  readonly kind: PostRow['kind'];
  readonly dry: Triple;
  readonly damp: Triple;
  readonly wet: Triple;
  readonly buriedM: Triple;
  readonly contactRadiusM: Triple;
  readonly spacingFt: Triple;
  readonly serviceYears: Triple;
}

const ohms = ([typical, low, high]: Triple, why: string): Estimate =>
  estimate(typical, [low, high], 'Ω', `engineering estimate: ${why}`);

const why: Readonly<Record<PostRow['kind'], string>> = {
  wood: 'wood conducts by the water in it',
  steel: 'metal from the wire to the soil, with some rust and paint',
  fibreglass: 'an insulating rod of 10 MΩ at the very least, with a film of water',
  plastic: 'an insulating body of 10 MΩ at the very least, with a film of water',
  composite: 'wood flour in plastic, 10 MΩ at the very least',
};

const post = (row: Post): PostRow => ({
  id: row.id,
  aliases: [...row.aliases],
  about: row.about,
  kind: row.kind,
  throughOhms: {
    dry: ohms(row.dry, why[row.kind]),
    damp: ohms(row.damp, why[row.kind]),
    wet: ohms(row.wet, why[row.kind]),
  },
  buriedM: practice(row.buriedM[0], [row.buriedM[1], row.buriedM[2]], 'm'),
  contactRadiusM: estimate(
    row.contactRadiusM[0],
    [row.contactRadiusM[1], row.contactRadiusM[2]],
    'm',
    'engineering estimate: the round rod with the same contact',
  ),
  usualSpacingM: practice(feet(row.spacingFt[0]), [feet(row.spacingFt[1]), feet(row.spacingFt[2])], 'm'),
  serviceYears: years(...row.serviceYears),
});

const insulating = { dry: [1e9, 100e6, 10e9], damp: [100e6, 20e6, 1e9], wet: [30e6, 10e6, 300e6] } as const;

/** Posts, by what lies between the wire's attachment and the soil. */
export const posts: PostRow[] = [
  post({
    id: 'wood',
    aliases: ['wood line post', 'wooden post', 'wood post', 'timber'],
    about: 'Round or split wooden line post, 4 to 5 in across.',
    kind: 'wood',
    dry: [50e6, 10e6, 1e9],
    damp: [200e3, 50e3, 1e6],
    wet: [15e3, 3e3, 60e3],
    buriedM: [0.75, 0.5, 0.9],
    contactRadiusM: [0.055, 0.04, 0.07],
    spacingFt: [40, 20, 100],
    serviceYears: [20, 10, 35],
  }),
  post({
    id: 'wood corner',
    aliases: ['wood corner post', 'wood end post', 'wood brace post', 'strainer post'],
    about: 'Wooden corner, end or brace post, 6 to 8 in across and set deep.',
    kind: 'wood',
    dry: [30e6, 10e6, 1e9],
    damp: [120e3, 30e3, 600e3],
    wet: [9e3, 2e3, 40e3],
    buriedM: [1.05, 0.9, 1.2],
    contactRadiusM: [0.09, 0.075, 0.1],
    spacingFt: [660, 165, 1320],
    serviceYears: [25, 15, 40],
  }),
  post({
    id: 'steel t-post',
    aliases: ['t-post', 'tee post', 'steel post', 'steel'],
    about: 'Rolled steel T-post, a short ground rod of its own.',
    kind: 'steel',
    dry: [0.1, 0.01, 5],
    damp: [0.1, 0.01, 5],
    wet: [0.1, 0.01, 5],
    buriedM: [0.45, 0.4, 0.6],
    contactRadiusM: [0.0155, 0.012, 0.018],
    spacingFt: [30, 10, 50],
    serviceYears: [25, 15, 40],
  }),
  post({
    ...insulating,
    id: 'fibreglass rod',
    aliases: ['fibreglass', 'fibreglass post', 'fibreglass line post'],
    about: 'Fibreglass rod, 3/8 to 1/2 in, an insulator from top to ground.',
    kind: 'fibreglass',
    buriedM: [0.4, 0.3, 0.6],
    contactRadiusM: [0.0055, 0.0045, 0.0065],
    spacingFt: [40, 20, 80],
    serviceYears: [15, 8, 25],
  }),
  post({
    ...insulating,
    id: 'plastic',
    aliases: ['plastic post', 'recycled plastic'],
    about: 'Post of recycled plastic, 3 to 5 in across.',
    kind: 'plastic',
    buriedM: [0.7, 0.5, 0.8],
    contactRadiusM: [0.05, 0.035, 0.06],
    spacingFt: [40, 20, 80],
    serviceYears: [25, 15, 40],
  }),
  post({
    id: 'composite',
    aliases: ['composite post', 'wood-plastic post'],
    about: 'Drilled post of wood flour and plastic, 1.5 to 2 in across.',
    kind: 'composite',
    dry: [300e6, 50e6, 5e9],
    damp: [80e6, 15e6, 500e6],
    wet: [20e6, 10e6, 200e6],
    buriedM: [0.5, 0.4, 0.7],
    contactRadiusM: [0.021, 0.018, 0.026],
    spacingFt: [40, 20, 80],
    serviceYears: [20, 10, 30],
  }),
  post({
    ...insulating,
    id: 'step-in',
    aliases: ['step-in post', 'tread-in', 'tread-in post', 'temporary post'],
    about: 'Plastic step-in post on a steel spike, for fence that is moved.',
    kind: 'plastic',
    buriedM: [0.18, 0.12, 0.22],
    contactRadiusM: [0.004, 0.003, 0.005],
    spacingFt: [30, 15, 50],
    serviceYears: [6, 3, 10],
  }),
];
