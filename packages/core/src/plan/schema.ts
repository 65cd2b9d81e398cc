import { z } from 'zod';
import { name, quantity } from './fields.js';
import { ownTables, rowName } from './row-fields.js';
import { conditionSchema } from './schema-conditions.js';
import { energizerSchema } from './schema-energizer.js';
import { buildSchema, junctionSchema, runSchema } from './schema-lines.js';
import { monthsSchema } from './schema-months.js';
import {
  faultSchema,
  gateSchema,
  jumperSchema,
  linkSchema,
  strandRodsSchema,
  stretchSchema,
  switchSchema,
} from './schema-parts.js';
import { pricesSchema } from './schema-prices.js';

const list = <T extends z.ZodType>(item: T, about: string) => z.array(item).max(100_000).describe(about).default([]);

/** The plan as a person writes it: names, and quantities with their units. */
export const planSchema = z.strictObject({
  formatVersion: z.literal(1).describe('Version of this format: 1.'),
  title: z.string().min(1).max(200).describe('Title of the plan.').default('Untitled fence'),
  units: z.enum(['imperial', 'metric']).describe('Units of printed results.'),
  target: z
    .union([
      z.string().min(1),
      z.strictObject({
        volts: quantity('voltage', { above: 0, most: 50_000 }).describe('Default: the animal’s target.').optional(),
        of: z
          .enum(['to earth', 'across the animal'])
          .default('to earth')
          .describe('What is compared: volts to earth, or volts across the animal touching there. Default to earth.'),
      }),
    ])
    .describe(
      'What the fence must hold at every post: an animal (its target in the table) or volts such as `3 kV`. Default: the animal.',
    )
    .optional(),
  animal: rowName('animals').describe('The animal that touches. Default: the target’s, else cattle.').optional(),
  soil: rowName('soils').describe('Row of the soils table.'),
  pulseFrequency: quantity('frequency', { least: 1, most: 1e6 })
    .describe(
      'Frequency that stands for the pulse in the wire’s resistance. Default: from the pulse width, else 5 kHz.',
    )
    .optional(),
  energizer: energizerSchema.describe('The energizer, its leads and its ground system.'),
  junctions: z
    .union([z.array(name).max(100_000), z.record(name, junctionSchema.nullable())])
    .describe('Places where runs meet or end: names, or a map from name to what is known of the place.'),
  builds: z.record(name, buildSchema).describe('Ways in which the fence is built, by name.'),
  runs: z.record(name, runSchema).describe('The fence, run by run, by name.'),
  jumpers: list(jumperSchema, 'Jumpers between strands of one post.'),
  switches: list(switchSchema, 'Switches that open the hot strands of a span.'),
  gates: list(gateSchema, 'Gates, each on a span, with a cable under it.'),
  cables: list(linkSchema, 'Cables from junction to junction.'),
  groundedRods: list(strandRodsSchema, 'Rods of grounded strands along the way.'),
  stretches: list(stretchSchema, 'Parts of a run where something else holds; later ones win over earlier ones.'),
  faults: list(faultSchema, 'Single faults.'),
  conditions: z
    .record(name, conditionSchema.nullable())
    .describe('Named conditions to reckon. Default: one called `usual`, of moist soil and dry surfaces without growth.')
    .default({ usual: null }),
  months: monthsSchema.describe('What each month of the year brings on this farm, for `postvolt months`.').optional(),
  prices: pricesSchema.describe('Own prices and rates of work, in place of invented default rates.').optional(),
  near: z
    .array(z.enum(['overhead line', 'buildings', 'public way', 'barbed wire']))
    .describe('What the fence comes near; brings up the cautions for it.')
    .default([]),
  tables: ownTables.describe('Own rows and corrections of the reference tables.').default({}),
});

/** A plan as it is written. */
export type PlanInput = z.input<typeof planSchema>;
/** A plan with its quantities read into SI and its defaults filled in; names are not yet looked up. */
export type Plan = z.output<typeof planSchema>;
