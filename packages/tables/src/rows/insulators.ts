import { estimate, years } from '../cell.js';
import type { InsulatorRow } from '../schema.js';
import { insulator } from './insulator-row.js';

/** A wire that touches one side of the body uses less than half of it. */
const oneSide = [2.5, 1.5, 3] as const;
/** A wire wrapped round the body uses most of it. */
const wrapped = [1.3, 1, 2] as const;

const dense = years(20, 15, 30);
const cheap = years(6, 3, 10);
const wood = ['wood', 'wood corner'];

const claw = {
  place: 'line',
  posts: ['wood', 'wood corner', 'composite', 'plastic'],
  path: 40,
  body: 20,
  spread: oneSide,
} as const;
const pin = {
  place: 'line',
  posts: ['wood', 'wood corner', 'composite', 'plastic', 'steel t-post'],
  path: 35,
  body: 16,
  spread: oneSide,
} as const;
const ring = { place: 'line', posts: ['wood', 'wood corner'], path: 35, body: 18, spread: [2, 1.3, 3] } as const;
const clip = { place: 'line', posts: ['steel t-post'], path: 30, body: 25, spread: oneSide } as const;

/** Insulators, and the staple that holds a grounded strand. */
export const insulators: InsulatorRow[] = [
  insulator({
    ...claw,
    id: 'nail-on claw',
    aliases: ['claw', 'dense claw', 'high-density claw', 'nail-on'],
    about: 'Nail-on claw of high-density plastic.',
    material: 'dense plastic',
    serviceYears: dense,
  }),
  insulator({
    ...claw,
    id: 'cheap nail-on claw',
    aliases: ['cheap claw', 'low-density claw'],
    about: 'Nail-on claw of cheap low-density plastic.',
    material: 'cheap plastic',
    path: 30,
    serviceYears: cheap,
  }),
  insulator({
    ...pin,
    id: 'pin',
    aliases: ['pin lock', 'dense pin', 'pin insulator', 'high-density pin'],
    about: 'Wire held by a pin, high-density plastic.',
    material: 'dense plastic',
    serviceYears: dense,
  }),
  insulator({
    ...pin,
    id: 'cheap pin',
    aliases: ['cheap pin insulator', 'low-density pin'],
    about: 'Wire held by a pin, cheap low-density plastic.',
    material: 'cheap plastic',
    path: 28,
    serviceYears: cheap,
  }),
  insulator({
    ...ring,
    id: 'screw-in ring',
    aliases: ['ring', 'ring insulator'],
    about: 'Ring on a wood screw, high-density plastic.',
    material: 'dense plastic',
    serviceYears: dense,
  }),
  insulator({
    ...ring,
    id: 'cheap screw-in ring',
    aliases: ['cheap ring'],
    about: 'Ring on a wood screw, cheap low-density plastic.',
    material: 'cheap plastic',
    path: 28,
    serviceYears: cheap,
  }),
  insulator({
    ...clip,
    id: 't-post clip',
    aliases: ['t-post insulator', 'dense t-post clip'],
    about: 'Snap-on clip for a steel T-post, high-density plastic.',
    material: 'dense plastic',
    serviceYears: dense,
  }),
  insulator({
    ...clip,
    id: 'cheap t-post clip',
    aliases: ['cheap t-post insulator'],
    about: 'Snap-on clip for a steel T-post, cheap low-density plastic.',
    material: 'cheap plastic',
    path: 22,
    serviceYears: cheap,
  }),
  insulator({
    id: 'fibreglass post clip',
    aliases: ['rod clip', 'fibreglass clip', 'rod post clip'],
    about: 'Wire clip on a fibreglass rod; the rod itself insulates, down to the ground line.',
    place: 'line',
    material: 'fibreglass clip',
    posts: ['fibreglass rod'],
    path: 600,
    body: 11,
    spread: [1, 0.5, 1.6],
    serviceYears: years(15, 8, 25),
  }),
  insulator({
    id: 'moulded hook',
    aliases: ['step-in hook', 'step-in clip'],
    about: 'Hook moulded on a plastic step-in post; the shaft insulates, down to the spike.',
    place: 'either',
    material: 'cheap plastic',
    posts: ['step-in'],
    path: 500,
    body: 15,
    spread: [1, 0.4, 1.6],
    serviceYears: cheap,
  }),
  insulator({
    id: 'wrap-around tube',
    aliases: ['tube', 'wrap-around', 'tube insulator'],
    about: 'Plastic tube round the post at ends and corners; both of its ends leak.',
    place: 'end',
    material: 'dense plastic',
    posts: wood,
    path: 15,
    body: 12,
    spread: [0.6, 0.3, 1.2],
    serviceYears: years(7, 5, 10),
  }),
  insulator({
    id: 'plastic strain',
    aliases: ['strain', 'strain insulator', 'plastic end strain', 'end strain'],
    about: 'Strain insulator of high-density plastic, in line with the wire at an end.',
    place: 'end',
    material: 'dense plastic',
    posts: [],
    path: 60,
    body: 25,
    spread: wrapped,
    serviceYears: dense,
  }),
  insulator({
    id: 'porcelain bullnose',
    aliases: ['bullnose', 'porcelain strain'],
    about: 'Large vitrified porcelain strain for ends and corners.',
    place: 'end',
    material: 'porcelain',
    posts: [],
    path: 55,
    body: 45,
    spread: wrapped,
    serviceYears: years(50, 30, 80),
  }),
  insulator({
    id: 'porcelain doughnut',
    aliases: ['doughnut', 'donut', 'porcelain donut', 'corner doughnut'],
    about: 'Vitrified porcelain ring on a tie wire, for corners and ends.',
    place: 'either',
    material: 'porcelain',
    posts: [],
    path: 30,
    body: 35,
    spread: wrapped,
    serviceYears: years(50, 30, 80),
  }),
  insulator({
    id: 'glazed ceramic',
    aliases: ['ceramic', 'ceramic knob', 'glazed ceramic knob', 'ceramic insulator'],
    about: 'Knob of porous ceramic under a glaze; sound until the glaze cracks.',
    place: 'either',
    material: 'glazed ceramic',
    posts: wood,
    path: 35,
    body: 35,
    spread: [1.6, 1, 2.5],
    serviceYears: years(15, 5, 30),
  }),
  {
    id: 'staple',
    aliases: ['bare staple', 'metal clip', 'wire tie'],
    about: 'Bare metal that holds a grounded strand.',
    place: 'either',
    material: 'metal',
    posts: [],
    formFactor: estimate(0, null, '1', 'no leakage path at all'),
    weatheredFilmFactor: estimate(1, null, '1', 'bare metal has no film'),
    crackedBodyOhms: null,
    contactOhms: estimate(1, [0.01, 100], 'Ω', 'engineering estimate: wire lying on metal, bright to rusty'),
    serviceYears: years(30, 15, 50),
  },
];
