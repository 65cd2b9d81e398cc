import { z } from 'zod';
import { share } from '../../plan/fields.js';

const blank = <T extends z.ZodType>(schema: T) => schema.nullable().optional();

/** One stop with a fence meter, as a person writes it down. A blank is as good as a key left out. */
export const meterReadingSchema = z.strictObject({
  /** `run/number`, or a junction. */
  post: z.string().min(1).max(200),
  /** Of which the kilovolts and amps are; `all` stands for every hot strand, its amps added up. */
  strand: blank(z.string().min(1).max(80)),
  kV: blank(z.number().min(0).max(50)),
  amps: blank(z.number().min(0).max(1000)),
  /** Which wire was clamped and which way its current flows: towards a post, junction or run, or from it. */
  towards: blank(z.string().min(1).max(200)),
  from: blank(z.string().min(1).max(200)),
});

/** What a person writes down on a round with a fence meter; blanks are rows not read. */
export const meterReadingsSchema = z.strictObject({
  format: z.literal('postvolt readings').optional(),
  formatVersion: z.literal(1).optional(),
  /** Id or name of the plan's condition that prevailed; may be left out where the plan has one only. */
  condition: blank(z.string().min(1)),
  /** Standard deviation of a reading as a share of it: `5 %`. */
  meterError: share(0.5).optional(),
  readings: z.array(meterReadingSchema).max(10_000),
});

/** Meter readings as a person writes them. */
export type MeterReadingsInput = z.input<typeof meterReadingsSchema>;
