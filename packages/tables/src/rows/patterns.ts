import { z } from 'zod';
import { bases } from '../estimate.js';

const strand = z.strictObject({ heightM: z.number().positive(), role: z.enum(['hot', 'grounded']) });

const spec = z.strictObject({
  /** From the ground up. */
  strands: z.array(strand).min(1),
  basis: z.enum(bases),
  source: z.string().min(1),
  fromMemory: z.boolean(),
});

/** A usual fence for an animal: how graziers build it, and what published specifications ask for where they differ. */
export const patternRowSchema = z.strictObject({
  id: z.string().min(1),
  /** Ids of the animals table. */
  animals: z.array(z.string()).min(1),
  use: z.enum(['permanent', 'temporary']),
  about: z.string(),
  practice: spec,
  /** Null where published specifications and practice agree, or none is known. */
  published: spec.nullable(),
});
/** A usual fence for an animal. */
export type PatternRow = z.infer<typeof patternRowSchema>;
/** Strands of a pattern, from the ground up, with basis and source. */
export type PatternSpec = z.infer<typeof spec>;

const inch = 0.0254;
const heights = (inches: readonly number[], grounded: readonly number[] = []) =>
  inches.map((height) => ({
    heightM: height * inch,
    role: grounded.includes(height) ? ('grounded' as const) : ('hot' as const),
  }));

const practice = (inches: readonly number[], grounded: readonly number[] = []): PatternSpec => ({
  strands: heights(inches, grounded),
  basis: 'common practice',
  source: 'common practice, no source',
  fromMemory: false,
});
const published = (inches: readonly number[], source: string, grounded: readonly number[] = []): PatternSpec => ({
  strands: heights(inches, grounded),
  basis: 'extension',
  source,
  fromMemory: true,
});

const practice382 =
  'USDA NRCS Conservation Practice Standard 382 (Fence) and state specifications under it, which differ from state to state';
const extension = 'extension services’ bulletins on high-tensile fence';

/** Fence patterns by animal; heights in practice vary a hand’s breadth either way with ground and stock. */
export const patterns: readonly PatternRow[] = [
  {
    id: 'cattle boundary',
    animals: ['cattle', 'long-haired cattle', 'calves'],
    use: 'permanent',
    about: 'Two hot strands; calves are stopped by the lower one.',
    practice: practice([20, 34]),
    published: published([14, 26, 38], `${practice382}: commonly three wires or more on a boundary`),
  },
  {
    id: 'trained cows',
    animals: ['trained dairy cows'],
    use: 'permanent',
    about: 'One hot strand at the height of the nose.',
    practice: practice([33]),
    published: null,
  },
  {
    id: 'bulls',
    animals: ['bulls'],
    use: 'permanent',
    about: 'Three hot strands.',
    practice: practice([18, 30, 42]),
    published: published([12, 22, 32, 42], `${practice382}: four wires or more for hard-to-hold cattle`),
  },
  {
    id: 'horses',
    animals: ['horses'],
    use: 'permanent',
    about: 'Three hot strands, the top one wide tape or rope so that it is seen.',
    practice: practice([20, 34, 50]),
    published: published([18, 30, 42, 54], `${extension}: four strands to 54 in`),
  },
  {
    id: 'sheep',
    animals: ['sheep', 'woolly sheep'],
    use: 'permanent',
    about: 'Five strands close together at the bottom; on dry ground the second and fourth are grounded.',
    practice: practice([6, 12, 19, 27, 38], [12, 27]),
    published: published([6, 11, 17, 24, 32, 42], `${practice382}: five or six wires for sheep`, [11, 24]),
  },
  {
    id: 'goats',
    animals: ['goats'],
    use: 'permanent',
    about: 'Five strands, the lowest near the ground: goats go under first.',
    practice: practice([6, 12, 20, 29, 40], [12]),
    published: published([6, 11, 16, 22, 30, 42], `${practice382}: five or six wires for goats`, [11]),
  },
  {
    id: 'pigs',
    animals: ['pigs'],
    use: 'permanent',
    about: 'Three low hot strands.',
    practice: practice([6, 14, 26]),
    published: null,
  },
  {
    id: 'deer',
    animals: ['deer'],
    use: 'permanent',
    about: 'Tall, hot and grounded strands in turn.',
    practice: practice([10, 20, 30, 40, 50, 62], [20, 40]),
    published: published(
      [8, 18, 28, 38, 48, 58, 68],
      `${extension}: seven strands and more against deer`,
      [18, 38, 58],
    ),
  },
  {
    id: 'predators',
    animals: ['predators'],
    use: 'permanent',
    about: 'Hot and grounded strands in turn, the lowest hot.',
    practice: practice([6, 12, 18, 25, 33, 42], [12, 25]),
    published: published(
      [5, 10, 15, 20, 26, 33, 42, 52],
      `${extension}: seven to nine strands against dogs and coyotes`,
      [10, 20, 33],
    ),
  },
  {
    id: 'moved, one strand',
    animals: ['cattle', 'long-haired cattle', 'trained dairy cows', 'bulls', 'horses'],
    use: 'temporary',
    about: 'One poly strand at the height of the nose.',
    practice: practice([32]),
    published: null,
  },
  {
    id: 'moved, two strands',
    animals: ['calves', 'goats', 'pigs'],
    use: 'temporary',
    about: 'Two poly strands.',
    practice: practice([12, 28]),
    published: null,
  },
  {
    id: 'moved, three strands',
    animals: ['sheep', 'woolly sheep', 'deer', 'predators'],
    use: 'temporary',
    about: 'Three poly strands.',
    practice: practice([8, 18, 30]),
    published: null,
  },
];
