import { soilStates } from '@postvolt/tables';
import { z } from 'zod';
import { name, quantity, ranged, share } from './fields.js';
import { rowName } from './row-fields.js';

/** A length of conductor off the fence. */
export const cable = z.strictObject({
  wire: rowName('wires').describe('Row of the wires table.').optional(),
  length: quantity('length', { above: 0, most: 20_000 }).describe('Length of the cable.'),
});

export const groundRods = z.strictObject({
  count: z.number().int().min(1).max(500).default(3).describe('Number of rods. Default 3.'),
  rod: rowName('rods')
    .describe('Row of the rods table; its length and diameter hold where they are not written.')
    .optional(),
  length: quantity('length', { above: 0, most: 30 }).describe('Driven length of each rod. Default 6 ft.').optional(),
  diameter: quantity('length', { above: 0, most: 0.2, gauge: true })
    .describe('Diameter of each rod. Default 5/8 in.')
    .optional(),
  spacing: quantity('length', { above: 0, most: 1000 })
    .describe('From rod to rod. Default: one rod length.')
    .optional(),
  layout: z.enum(['line', 'ring']).default('line').describe('How the rods stand. Default line.'),
});

export const groundResistance = z.union([
  ranged('resistance', { above: 0, most: 1e6 }),
  z.strictObject({
    resistance: ranged('resistance', { above: 0, most: 1e6 }).describe('Of the whole ground system to earth.'),
    measuredIn: z
      .enum(soilStates)
      .describe(
        'State of the soil that day; the value then follows the soil. Left out, it stays the same in every condition.',
      )
      .optional(),
  }),
]);

/** The energizer, its leads and its ground system. */
export const energizerSchema = z.strictObject({
  at: name.describe('Junction where its fence terminal is joined on.'),
  class: z
    .string()
    .min(1)
    .describe('Row of the energizers table, such as `6 J`: a generic class with ranges. Give this or `output`.')
    .optional(),
  output: z
    .record(z.string().min(1).max(40), ranged('voltage', { above: 0, most: 50_000 }))
    .describe('Peak volts by load, from its papers: `open` or a resistance such as `500 ohm`. Two points or more.')
    .optional(),
  joules: quantity('energy', { above: 0, most: 1000 })
    .describe('Output energy into 500 ohm, where known; checked against IEC 60335-2-76.')
    .optional(),
  pulseWidth: quantity('time', { above: 0, most: 1 })
    .describe('Width of the pulse, where known; also sets the frequency at which wire is reckoned.')
    .optional(),
  pulseInterval: quantity('time', { above: 0, most: 60 }).describe('From pulse to pulse, where known.').optional(),
  derating: z
    .record(z.string(), share())
    .describe('Part of the output left in a condition, by its name, such as `{winter: 80 %}` for a cold battery.')
    .default({}),
  leadOut: cable
    .describe('Cable from the fence terminal to the junction. Left out, the energizer hangs on the fence.')
    .optional(),
  groundLead: cable
    .describe('Cable from the ground terminal to the grounded strands. Left out, they join directly.')
    .optional(),
  groundRods: groundRods.describe('The rods. Give this or `groundResistance`.').optional(),
  groundResistance: groundResistance.describe('Measured resistance of the ground system, such as `35 ohm`.').optional(),
});
