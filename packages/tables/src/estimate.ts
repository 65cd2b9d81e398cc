import { z } from 'zod';

/** Where a number comes from. `entered` marks a value that a user typed in place of a table's. */
export const bases = [
  'standard',
  'handbook',
  'extension',
  'common practice',
  'derived',
  'estimate',
  'entered',
] as const;

const bare = z.strictObject({
  /** Lowest value that would not surprise; equal to `typical` where the value is not in doubt. */
  low: z.number(),
  typical: z.number(),
  high: z.number(),
  /** SI unit symbol, `1` for a pure number. */
  unit: z.string(),
  basis: z.enum(bases),
  /** Publication, or the words "common practice, no source", or the reasoning of an estimate. */
  source: z.string().min(1),
  /** True where the value was written from memory of the source, not from the open text. */
  fromMemory: z.boolean(),
});

/** A value with its range, unit, basis and source: the cell of every reference table. */
export const estimateSchema = bare.refine((e) => e.low <= e.typical && e.typical <= e.high, {
  message: 'expected low <= typical <= high',
});

/** A value with its range, unit, basis and source. SI. */
export type Estimate = z.infer<typeof estimateSchema>;
/** Where a number comes from. */
export type Basis = (typeof bases)[number];

/** True where the range has any width. */
export const isUncertain = (e: Estimate): boolean => e.low < e.high;
