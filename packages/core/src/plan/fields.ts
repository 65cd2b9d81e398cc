import { z } from 'zod';
import type { QuantityFault, QuantityOutcome } from '../quantity/fault.js';
import { type Kind, type KindName, kinds } from '../quantity/kinds.js';
import { type Limits, readQuantity } from '../quantity/quantity.js';
import { type RangedValue, readRanged, readRangedNumber } from '../quantity/ranged.js';
import { readShare } from '../quantity/share.js';

/** What a plan may write for a value that carries a range. */
export type RangedInput = string | { low: string; typical: string; high: string };
/** The same for a pure number. */
export type RangedNumberInput = number | string | RangedValue;

/** A field read by one of the quantity readers; the reader's fault travels in the issue's params. */
export function read<Out, In>(
  reader: (value: unknown) => QuantityOutcome<Out>,
  jsonSchema: Record<string, unknown>,
): z.ZodType<Out, In> {
  return z
    .unknown()
    .meta(jsonSchema)
    .transform((value, context) => {
      const outcome = reader(value);
      if (outcome.ok) return outcome.value;
      context.addIssue({ code: 'custom', message: outcome.fault.expected, params: { fault: outcome.fault } });
      return z.NEVER;
    }) as unknown as z.ZodType<Out, In>;
}

/** The fault that a quantity reader left in a zod issue, if it was one. */
export function faultOf(issue: z.core.$ZodIssue): QuantityFault | null {
  if (issue.code !== 'custom') return null;
  return (issue.params as { fault?: QuantityFault } | undefined)?.fault ?? null;
}

/** Examples of a kind that lie within the limits of a field. */
function examplesOf(kindName: KindName, limits: Limits): string[] {
  const kind: Kind = kinds[kindName];
  const fitting = kind.examples.filter((example) => readQuantity(example, kindName, limits).ok);
  return fitting.length > 0 ? fitting : [`${(limits.most ?? kind.most) / 2} ${kind.si}`];
}

const string = (kind: KindName, limits: Limits) => ({ type: 'string', examples: examplesOf(kind, limits) });

/** A text with a unit, as a number in SI. */
export const quantity = (kind: KindName, limits: Limits = {}): z.ZodType<number, string> =>
  read((value) => readQuantity(value, kind, limits), string(kind, limits));

/** A text with a unit and maybe a range, as low, typical and high in SI. */
export const ranged = (kind: KindName, limits: Limits = {}): z.ZodType<RangedValue, RangedInput> =>
  read((value) => readRanged(value, kind, limits), {
    anyOf: [
      string(kind, limits),
      {
        type: 'object',
        properties: { low: { type: 'string' }, typical: { type: 'string' }, high: { type: 'string' } },
        required: ['low', 'typical', 'high'],
        additionalProperties: false,
      },
    ],
  });

/** A pure number and maybe a range. */
export const rangedNumber = (least: number, most: number): z.ZodType<RangedValue, RangedNumberInput> =>
  read((value) => readRangedNumber(value, least, most), {
    anyOf: [
      { type: 'number', minimum: least, maximum: most },
      { type: 'string', examples: [exampleBetween(least, most)] },
      {
        type: 'object',
        properties: { low: { type: 'number' }, typical: { type: 'number' }, high: { type: 'number' } },
        required: ['low', 'typical', 'high'],
        additionalProperties: false,
      },
    ],
  });

/** A number and its range, well inside the limits. */
function exampleBetween(least: number, most: number): string {
  const typical = least > 0 ? Math.sqrt(least * most) : most / 10;
  const [low, middle, high] = [typical / 2, typical, 3 * typical].map((value) => Number(value.toPrecision(2)));
  return `${middle} (${low} to ${high})`;
}

/** A percentage or a fraction of one, up to `most`. */
export const share = (most = 1): z.ZodType<number, string | number> =>
  read((value) => readShare(value, most), {
    anyOf: [
      { type: 'string', examples: ['15 %'] },
      { type: 'number', minimum: 0, maximum: most },
    ],
  });

/** Where on a run: a post's number, or metres from the run's start. */
export type Place = { readonly post: number } | { readonly atM: number };

function readPlace(value: unknown): QuantityOutcome<Place> {
  if (typeof value === 'number' && Number.isInteger(value) && value >= 0) return { ok: true, value: { post: value } };
  const read = readQuantity(value, 'length');
  if (read.ok) return { ok: true, value: { atM: read.value } };
  const expected = 'a post number counted from 0, or a distance along the run such as 200 ft';
  return { ok: false, fault: { ...read.fault, expected, hint: '' } };
}

/** A post by its number counted from 0, or by a distance along the run. */
export const place = (): z.ZodType<Place, number | string> =>
  read(readPlace, {
    anyOf: [
      { type: 'integer', minimum: 0 },
      { type: 'string', examples: ['200 ft'] },
    ],
  });

/** Name of a run, junction, build, strand or condition: it is the id kept in results. */
export const name = z
  .string()
  .min(1)
  .max(80)
  .regex(/^[^\s/\p{C}](?:[^/\p{C}]*[^\s/\p{C}])?$/u, 'a name without slashes, and no space at its ends');

/** [longitude, latitude] in degrees. */
export const position = z.tuple([z.number().min(-180).max(180), z.number().min(-90).max(90)]);
