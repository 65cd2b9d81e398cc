import { soilStates, wetnesses } from '@postvolt/tables';
import { z } from 'zod';
import { quantity } from './fields.js';
import { rowName } from './row-fields.js';
import { growthFields } from './schema-parts.js';

const wetness = z.enum(wetnesses);

/** Weather, season and growth under which the fence is reckoned. */
export const conditionSchema = z.strictObject({
  soil: z.enum(soilStates).default('moist').describe('State of the soil. Default moist.'),
  air: wetness.describe('Wetness of the film on insulators. Default: as `surface`.').optional(),
  surface: wetness.default('dry').describe('Wetness of posts and growth. Default dry.'),
  ...growthFields,
  groundCover: rowName('groundCovers')
    .describe('What lies under the animal’s hooves. Default: bare ground.')
    .optional(),
  temperature: quantity('temperature', { least: -60, most: 60 }).describe('Of the wire. Default 20 °C.').optional(),
});
