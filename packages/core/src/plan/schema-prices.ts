import { z } from 'zod';
import { fail, type QuantityOutcome } from '../quantity/fault.js';
import { readQuantity } from '../quantity/quantity.js';
import { type RangedValue, readRangedNumber } from '../quantity/ranged.js';
import { type RangedNumberInput, read } from './fields.js';

/** A rate by the piece, or by so many metres. */
export interface Rate extends RangedValue {
  /** Metres that it is for; null by the piece. */
  readonly perM: number | null;
}

const expected = 'a number, or one for a length such as `95 per 4000 ft`; with its range `95 (80 to 120)`';

function readRate(value: unknown): QuantityOutcome<Rate> {
  const match = typeof value === 'string' ? /^(.{1,60}?)\s+per\s+(.{1,30})$/.exec(value.trim()) : null;
  const number = readRangedNumber(match === null ? value : match[1], 0, 1e9);
  if (!number.ok) return fail(number.fault.code, value, expected, number.fault.hint);
  if (match === null) return { ok: true, value: { ...number.value, perM: null } };
  const length = match[2]!.trim();
  const metres = readQuantity(/^\d/.test(length) ? length : `1 ${length}`, 'length', { above: 0 });
  return metres.ok
    ? { ok: true, value: { ...number.value, perM: metres.value } }
    : fail(metres.fault.code, value, expected, metres.fault.hint);
}

const rate = read<Rate, RangedNumberInput>(readRate, {
  anyOf: [
    { type: 'number', minimum: 0 },
    { type: 'string', examples: ['95 per 4000 ft', '9 (7 to 12)'] },
    {
      type: 'object',
      properties: { low: { type: 'number' }, typical: { type: 'number' }, high: { type: 'number' } },
      required: ['low', 'typical', 'high'],
      additionalProperties: false,
    },
  ],
});

const rates = (about: string) => z.record(z.string().min(1).max(80), rate).describe(about).default({});

/** Own prices and rates of work. */
export const pricesSchema = z.strictObject({
  currency: z.string().min(1).max(20).describe('Word that stands behind amounts, such as `dollars`.').default('money'),
  wires: rates('By row or kind, for a length: `12.5 ga: 95 per 4000 ft`, `steel wire: 0.1 per m`.'),
  posts: rates('By row or kind, each: `wood: 9`, `steel post: 7`.'),
  insulators: rates('By row or kind, each: `nail-on claw: 0.55`, `porcelain insulator: 2`.'),
  energizers: rates('By class, each: `6 J: 320`.'),
  parts: rates('Ends, corners, strainers, springs, rods, clamps, switches, signs: `strainer: 4`.'),
  labour: rate.describe('Price of an hour of work.').optional(),
  hours: rates('Hours of work: `replace insulator: 0.1`, `clear growth: 1 per 500 m`.'),
});
