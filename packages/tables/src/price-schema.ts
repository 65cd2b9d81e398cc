import { z } from 'zod';
import { estimateSchema } from './estimate.js';

/** What a price is for, and under which heading a plan gives its own. */
export const priceGroups = ['wires', 'posts', 'insulators', 'energizers', 'parts'] as const;
/** Heading of a price. */
export type PriceGroup = (typeof priceGroups)[number];

const row = z.strictObject({
  /** What a plan writes to name this row. */
  id: z.string().min(1),
  aliases: z.array(z.string()),
  /** One plain sentence for a person. */
  about: z.string(),
});

/** Price of a kind of thing; a plan's own price stands for a row of the tables or for a kind. */
export const priceRowSchema = row.extend({
  group: z.enum(priceGroups),
  per: z.enum(['metre', 'piece']),
  /** In any currency, `money` or `money/m`. */
  money: estimateSchema,
  /** Years of service of a part that no other table holds; null where another does. */
  serviceYears: estimateSchema.nullable(),
});

/** Hours that a piece of work takes one person, walking and tools included; `labour` is the price of an hour. */
export const workRowSchema = row.extend({
  per: z.enum(['metre', 'piece']),
  /** `h` or `h/m`. */
  hours: estimateSchema,
});

/** A row of the prices. */
export type PriceRow = z.infer<typeof priceRowSchema>;
/** A row of the work rates. */
export type WorkRow = z.infer<typeof workRowSchema>;
