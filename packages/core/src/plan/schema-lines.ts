import { insulatorStates } from '@postvolt/tables';
import { z } from 'zod';
import { name, position, quantity } from './fields.js';
import { rowName } from './row-fields.js';

const state = z.enum(insulatorStates);
const perPost = z.number().int().min(1).max(20);

/** A named place where runs meet. */
export const junctionSchema = z.strictObject({
  at: position.describe('[longitude, latitude] in degrees.').optional(),
  through: z
    .boolean()
    .default(false)
    .describe(
      'True where one fence passes by on line insulators. Default false: every strand ends on an end insulator.',
    ),
  post: rowName('posts')
    .describe('Row of the posts table. Default: the post of the first run that ends there.')
    .optional(),
});

/** One wire of a build. */
export const strandSchema = z.strictObject({
  name: name
    .describe('Name of the strand, such as `top`. Default: `strand 1`, counted from the top of the list.')
    .optional(),
  height: quantity('length', { most: 5 }).describe('Above the ground.'),
  wire: rowName('wires').describe('Row of the wires table. Default: the build’s.').optional(),
  role: z
    .enum(['hot', 'grounded'])
    .default('hot')
    .describe('Energized, or joined to the ground terminal. Default hot.'),
  insulator: rowName('insulators')
    .describe('On line posts. Default: the build’s; for a grounded strand a bare metal attachment.')
    .optional(),
  insulatorState: state.describe('Age and dirt of the line insulators. Default: the build’s.').optional(),
  insulatorsPerPost: perPost.default(1).describe('Insulators side by side on each line post. Default 1.'),
  endInsulator: rowName('insulators').describe('At ends and corners. Default: the build’s.').optional(),
  endInsulatorState: state.describe('Age and dirt of the end insulators. Default: the build’s.').optional(),
  endInsulatorsPerPost: perPost.default(1).describe('Insulators side by side at each end. Default 1.'),
});

/** How a fence is built: post and strands. */
export const buildSchema = z.strictObject({
  post: rowName('posts').describe('Row of the posts table.'),
  postSpacing: quantity('length', { above: 0, most: 1000 })
    .describe('From post to post. Default: the usual spacing of the post’s row.')
    .optional(),
  wire: rowName('wires').describe('Of every strand that names none.').optional(),
  insulator: rowName('insulators')
    .describe('Line insulator of every hot strand that names none. Default: a dense plastic one that fits the post.')
    .optional(),
  insulatorState: state.default('new').describe('Age and dirt of the line insulators. Default new.'),
  endInsulator: rowName('insulators')
    .describe('End insulator of every hot strand that names none. Default: the first of the table made for ends.')
    .optional(),
  endInsulatorState: state.describe('Age and dirt of the end insulators. Default: as the line insulators.').optional(),
  ties: z
    .enum(['both', 'from', 'to', 'none'])
    .default('both')
    .describe('Ends of a run at which all hot strands are tied to each other. Default both.'),
  strands: z.array(strandSchema).min(1).max(12).describe('From one to twelve.'),
});

/** A stretch of fence between two junctions. */
export const runSchema = z.strictObject({
  from: name.describe('Junction at post 0.'),
  to: name.describe('Junction at the last post.'),
  length: quantity('length', { above: 0 })
    .describe(
      'Length of the run. Give this or `line`; with neither, it is straight between two junctions that have coordinates.',
    )
    .optional(),
  line: z
    .array(position)
    .min(2)
    .max(100_000)
    .describe('Corners as [longitude, latitude], from `from` to `to`; measured along the ellipsoid (WGS84).')
    .optional(),
  postSpacing: quantity('length', { above: 0, most: 1000 })
    .describe('Equal spans no longer than this. Default: the build’s.')
    .optional(),
  posts: z
    .array(quantity('length'))
    .max(1_000_000)
    .describe(
      'Place of every post from the start of the run, in place of a spacing; both ends are put in where they are left out.',
    )
    .optional(),
  build: name.describe('Name of the build.').optional(),
});
