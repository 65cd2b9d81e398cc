import { z } from 'zod';
import { bases, estimateSchema } from './estimate.js';
import { soilStates, wetnesses } from './schema.js';

const row = z.strictObject({
  id: z.string().min(1),
  aliases: z.array(z.string()),
  /** One plain sentence for a person. */
  about: z.string(),
  basis: z.enum(bases),
  source: z.string().min(1),
});
const wetness = z.enum(wetnesses);

/** A kind of weather, and all that it moves together: film, wood, growth, soil and what lies under the hooves. */
export const weatherRowSchema = row.extend({
  soil: z.enum(soilStates),
  film: wetness,
  post: wetness,
  growth: wetness,
  /** Row of the ground covers. */
  groundCover: z.string(),
});

const month = z.strictObject({
  /** Rows of the weathers that come most weeks of the month; the fence must stand each of them. */
  weathers: z.array(z.string()).min(1),
  /** Row of the vegetation table: what stands in a fence line that nobody mows or sprays. */
  growth: z.string(),
  /** Height of its top as a multiple of the row's usual height. */
  heightFactor: estimateSchema,
  /** Of the wire: the month's mean. */
  temperatureC: estimateSchema,
});

/** A year, January first, as it comes north of the equator; south of it the months are shifted by six. */
export const climateRowSchema = row.extend({
  /** Climate class after Köppen, to find the row that is like one's own farm. */
  koppen: z.string(),
  months: z.array(month).length(12),
});

/** A row of the table of weather. */
export type WeatherRow = z.infer<typeof weatherRowSchema>;
/** A row of the table of climates. */
export type ClimateRow = z.infer<typeof climateRowSchema>;
/** What one month of a climate brings. */
export type ClimateMonth = ClimateRow['months'][number];
