import { insulatorStates, wetnesses } from '@postvolt/tables';
import { z } from 'zod';
import { name, place, quantity, ranged, share } from './fields.js';
import { rowName } from './row-fields.js';
import { cable } from './schema-energizer.js';

const run = name.describe('Name of the run.');
const ownName = name
  .describe('Name kept in results. Default: the kind of thing and its number, such as `fault 1`.')
  .optional();
const conditionNames = z.array(name).describe('Conditions in which it holds. Default: all.').optional();
const postField = place().describe('Post number, counted from 0, or a distance along the run such as `200 ft`.');
const spanField = place().describe('Span: number of the post before it, or a distance along the run.');

export const jumperSchema = z.strictObject({
  name: ownName,
  run,
  post: postField,
  strands: z.array(name).min(2).max(12).describe('Strands that it joins.'),
  joint: rowName('joints').describe('Row of the joints table. Default: a good jumper.').optional(),
});

export const switchSchema = z.strictObject({
  name: ownName,
  run,
  span: spanField,
  openIn: z
    .union([z.array(name), z.literal('all')])
    .default([])
    .describe('Conditions in which it stands open, or `all`. Default none: closed.'),
  joint: rowName('joints').describe('Of the closed switch. Default: a good switch.').optional(),
});

export const gateSchema = z.strictObject({
  name: ownName,
  run,
  span: spanField,
  cable: cable
    .partial()
    .default({})
    .describe('Cable under the gate. Default: the table’s under-gate cable, as long as the span and 4 ft more.'),
  joint: rowName('joints').describe('Where the strands are tied to the cable. Default: a good jumper.').optional(),
  carriesGrounded: z
    .boolean()
    .default(true)
    .describe('Whether a second cable carries the grounded strands. Default true.'),
});

export const linkSchema = z.strictObject({
  name: ownName,
  from: name.describe('Junction.'),
  to: name.describe('Junction.'),
  role: z.enum(['hot', 'grounded']).default('hot').describe('Which strands it joins. Default hot.'),
  ...cable.shape,
});

export const strandRodsSchema = z.strictObject({
  name: ownName,
  run,
  strand: name.describe('Grounded strand.'),
  every: quantity('length', { above: 0 })
    .describe('One rod at least this often along the run. Give this or `posts`.')
    .optional(),
  posts: z.array(place()).min(1).max(100_000).describe('Posts that have a rod.').optional(),
  length: quantity('length', { above: 0, most: 30 }).describe('Driven length of each rod. Default 6 ft.').optional(),
  diameter: quantity('length', { above: 0, most: 0.2, gauge: true })
    .describe('Diameter of each rod. Default 5/8 in.')
    .optional(),
});

/** Growth on the fence, as conditions and stretches state it. */
export const growthFields = {
  growth: rowName('vegetation').describe('Row of the vegetation table.').optional(),
  growthHeight: quantity('length', { most: 10 })
    .describe('Top of the growth; strands below it leak. Default: the usual height of the row.')
    .optional(),
};

export const stretchSchema = z.strictObject({
  name: ownName,
  run,
  from: quantity('length').describe('Start, from the start of the run. Default: the start.').optional(),
  to: quantity('length')
    .describe('End; posts before it belong to the stretch. Default: the end, its post included.')
    .optional(),
  strands: z.array(name).min(1).describe('Strands that it takes in. Default: all.').optional(),
  conditions: conditionNames,
  post: rowName('posts').describe('Row of the posts table.').optional(),
  soil: rowName('soils').describe('Row of the soils table.').optional(),
  wire: rowName('wires').describe('Row of the wires table.').optional(),
  insulator: rowName('insulators').describe('Line insulator.').optional(),
  insulatorState: z.enum(insulatorStates).describe('Age and dirt of the insulators.').optional(),
  fouledFraction: share().describe('Part of the posts whose insulators are fouled, such as `10 %`.').optional(),
  ...growthFields,
  growthWetness: z.enum(wetnesses).describe('Wetness of the growth.').optional(),
  leak: ranged('conductancePerLength').describe('Known leak per length of strand, in place of growth.').optional(),
  postWetness: z.enum(wetnesses).describe('Wetness of the posts.').optional(),
});

export const faultSchema = z.strictObject({
  name: ownName,
  kind: rowName('faults').describe('Row of the faults table.'),
  run,
  post: postField.optional(),
  span: spanField.optional(),
  strand: name.describe('Strand that it is on. Default: the first hot strand.').optional(),
  otherStrand: name.describe('The strand touched, for two strands together.').optional(),
  resistance: ranged('resistance').describe('Of the path that it makes or adds. Default: the table’s.').optional(),
  firesAt: ranged('voltage').describe('For a spark: the volts that make it fire. Default: the table’s.').optional(),
  conditions: conditionNames,
});
