import { z } from 'zod';
import { name, quantity } from './fields.js';
import { rowName } from './row-fields.js';
import { growthFields } from './schema-parts.js';

const named = z.string().min(1).max(80);

const month = z.union([
  name,
  z.array(name).min(1).max(31),
  z.strictObject({
    weather: z
      .union([named, z.array(named).min(1).max(31)])
      .describe('Weather that the month brings, one or more: fair, dew, rain, dry spell, frost, snow, thaw ...')
      .optional(),
    ...growthFields,
    temperature: quantity('temperature', { least: -60, most: 60 }).describe('Of the wire.').optional(),
  }),
]);

const about = (text: string) =>
  month
    .describe(
      `What ${text} brings: conditions of this plan by name, or what differs from the climate. Default: the climate’s.`,
    )
    .optional();

/** The farm's year: a climate, and what this farm's months have in its place. */
export const monthsSchema = z.strictObject({
  climate: named.describe('Row of the climates: temperate, maritime, snowy ... Default temperate.').optional(),
  hemisphere: z
    .enum(['north', 'south'])
    .describe('Default: by the latitude of the places in the plan, else north.')
    .optional(),
  growthAtMost: rowName('vegetation')
    .describe('What mowing or spraying keeps the growth to. Default: it grows as the climate has it.')
    .optional(),
  january: about('January'),
  february: about('February'),
  march: about('March'),
  april: about('April'),
  may: about('May'),
  june: about('June'),
  july: about('July'),
  august: about('August'),
  september: about('September'),
  october: about('October'),
  november: about('November'),
  december: about('December'),
});
