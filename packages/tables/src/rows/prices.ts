import { estimate, years } from '../cell.js';
import type { Estimate } from '../estimate.js';
import { freeze } from '../freeze.js';
import type { PriceGroup, PriceRow, WorkRow } from '../price-schema.js';
import type { EnergizerRow } from '../schema.js';
import { energizers } from './energizers.js';

/** Nobody was asked for these: they give an order of size until the user's own stand in their place. */
const source = 'invented default rate, to be replaced by your own';

type Triple = readonly [typical: number, low: number, high: number];

const rate = ([typical, low, high]: Triple, unit: string): Estimate => estimate(typical, [low, high], unit, source);

const price = (
  group: PriceGroup,
  id: string,
  about: string,
  money: Triple,
  per: PriceRow['per'] = 'piece',
  serviceYears: Estimate | null = null,
): PriceRow => ({
  id,
  aliases: [],
  about,
  group,
  per,
  money: rate(money, per === 'metre' ? 'money/m' : 'money'),
  serviceYears,
});

const part = (id: string, about: string, money: Triple, life: Estimate, per: PriceRow['per'] = 'piece') =>
  price('parts', id, about, money, per, life);

/** Of an energizer by the joules of its class: a case and its works, and so much a joule. */
const energizer = ({ id, joules }: EnergizerRow): PriceRow => {
  const at = (fixed: number, perJoule: number) => Number((fixed + perJoule * joules).toPrecision(2));
  return price('energizers', id, `Energizer of the class ${id.replace(/ j$/, ' J')}.`, [
    at(80, 35),
    at(50, 20),
    at(120, 60),
  ]);
};

/** Prices by kind of thing, in units of money without a currency. */
export const prices: readonly PriceRow[] = freeze([
  price('wires', 'steel wire', 'Galvanized steel wire.', [0.12, 0.06, 0.25], 'metre'),
  price('wires', 'aluminium wire', 'Aluminium wire.', [0.2, 0.1, 0.4], 'metre'),
  price('wires', 'poly wire', 'Poly twine, tape, rope or braid.', [0.2, 0.08, 0.5], 'metre'),
  price('wires', 'insulated cable', 'Insulated lead-out and under-gate cable.', [1, 0.5, 2], 'metre'),
  price('posts', 'wood post', 'Wooden line post.', [10, 5, 18]),
  price('posts', 'steel post', 'Steel post.', [8, 5, 12]),
  price('posts', 'fibreglass post', 'Fibreglass rod.', [4, 2, 8]),
  price('posts', 'plastic post', 'Plastic step-in post.', [3, 2, 5]),
  price('posts', 'composite post', 'Post of wood flour and plastic.', [14, 9, 22]),
  price('insulators', 'dense plastic insulator', 'High-density plastic insulator.', [0.5, 0.3, 1]),
  price('insulators', 'cheap plastic insulator', 'Cheap low-density plastic insulator.', [0.25, 0.12, 0.4]),
  price('insulators', 'porcelain insulator', 'Vitrified porcelain insulator.', [2, 1, 4]),
  price('insulators', 'glazed ceramic insulator', 'Glazed ceramic knob.', [0.7, 0.4, 1.5]),
  price('insulators', 'fibreglass clip insulator', 'Wire clip on a fibreglass rod.', [0.3, 0.15, 0.6]),
  price('insulators', 'metal insulator', 'Staple or wire tie of a grounded strand.', [0.05, 0.02, 0.15]),
  ...energizers.map(energizer),
  part(
    'deep end post',
    'Single end, corner or gate post, set as deep as its top wire is high.',
    [25, 15, 40],
    years(25, 15, 40),
  ),
  part(
    'braced end',
    'Braced end or gate assembly: two posts, a rail and brace wire.',
    [75, 45, 120],
    years(25, 15, 40),
  ),
  part(
    'braced corner',
    'Braced corner assembly: three posts, two rails and brace wire.',
    [120, 75, 190],
    years(25, 15, 40),
  ),
  part('strainer', 'In-line wire strainer.', [4, 2, 8], years(20, 10, 30)),
  part('tension spring', 'Spring that keeps a strand tight.', [7, 4, 12], years(20, 10, 30)),
  part('ground rod', 'Ground rod, by its length.', [10, 6, 16], years(20, 10, 40), 'metre'),
  part('rod clamp', 'Clamp that joins the ground wire to a rod.', [3, 1.5, 5], years(15, 8, 25)),
  part('line clamp', 'Screwed clamp that joins wire to wire.', [1.5, 0.7, 3], years(15, 8, 25)),
  part('switch', 'Cut-out switch.', [12, 7, 20], years(15, 8, 25)),
  part('warning sign', 'Warning sign, black on yellow.', [3, 1.5, 6], years(10, 5, 15)),
]);

/** Price of an hour of work, in units of money without a currency. */
export const labourPerHour: Estimate = freeze(rate([25, 15, 45], 'money/h'));

const work = (id: string, about: string, hours: Triple, per: WorkRow['per'] = 'piece'): WorkRow => ({
  id,
  aliases: [],
  about,
  per,
  hours: rate(hours, per === 'metre' ? 'h/m' : 'h'),
});

/** Hours of work by the piece or the metre. */
export const works: readonly WorkRow[] = freeze([
  work('replace insulator', 'One line insulator: off, on, wire back.', [0.1, 0.05, 0.2]),
  work('replace end insulator', 'One end insulator: slack the strand, change it, strain again.', [0.4, 0.2, 0.8]),
  work('clear growth', 'Mow or spray under the fence.', [0.002, 0.001, 0.006], 'metre'),
  work('mend wire', 'Join a broken wire, or cut out a bad splice.', [0.5, 0.25, 1]),
  work('lift wire', 'Put a wire back on its insulator, or take off what touches it.', [0.3, 0.15, 0.8]),
  work('clear branch', 'Cut and drag off a branch.', [0.5, 0.2, 1.5]),
  work('remake joint', 'Clean the wire and put on a new clamp.', [0.25, 0.1, 0.5]),
  work('add rod', 'Drive a ground rod and clamp it on.', [0.5, 0.25, 1.5]),
  work('set post', 'Set one post.', [0.4, 0.1, 0.8]),
  work('build assembly', 'Build an end or corner assembly.', [3, 1.5, 5]),
  work('string wire', 'Run out and strain a strand.', [0.002, 0.001, 0.004], 'metre'),
  work('fit part', 'Fit a strainer, spring, clamp, switch, sign or energizer.', [0.2, 0.1, 0.5]),
]);
