import { fail, type QuantityOutcome } from './fault.js';
import { type Kind, type KindName, kinds } from './kinds.js';
import { longestText, normalise } from './normalise.js';
import { type Limits, readQuantity, readScalar, textOf } from './quantity.js';
import { scanNumber } from './scan-number.js';

/** A value with its range, SI. */
export interface RangedValue {
  readonly low: number;
  readonly typical: number;
  readonly high: number;
}

const rangeForm = /^([^()]+)\(([^()]+)\)([^()]*)$/;

/**
 * Reads a quantity that may carry its range, `20 kohm (10 to 40)`, in the kind's SI unit.
 *
 * Without a range, low and high equal the typical value. Also takes `{low, typical, high}` of quantities.
 */
export function readRanged(value: unknown, kindName: KindName, limits: Limits = {}): QuantityOutcome<RangedValue> {
  const kind = kinds[kindName];
  if (typeof value === 'object' && value !== null && !Array.isArray(value))
    return readRangedMap(value, kindName, limits);
  const text = textOf(value, kind);
  if (!text.ok) return text;
  const match = rangeForm.exec(text.value);
  if (match === null) {
    const read = readScalar(value, text.value, kind, limits, null);
    return read.ok ? { ok: true, value: { low: read.value.si, typical: read.value.si, high: read.value.si } } : read;
  }
  const tail = match[3]!.trim();
  const typical = readScalar(value, match[1]!.trim(), kind, limits, tail === '' ? null : tail);
  if (!typical.ok) return typical;
  const ends = match[2]!.split(/ to |\.\.| - |(?<=\d)-(?=\d)/).map((end) => end.trim());
  if (ends.length !== 2)
    return fail('bad-quantity', value, `${kind.noun} with its range, such as ${exampleRange(kind)}`);
  const [low, high] = ends.map((end) => readScalar(value, end, kind, limits, tail === '' ? typical.value.unit : tail));
  if (!low!.ok) return low!;
  if (!high!.ok) return high!;
  return ordered(value, { low: low!.value.si, typical: typical.value.si, high: high!.value.si }, kind);
}

function readRangedMap(value: object, kindName: KindName, limits: Limits): QuantityOutcome<RangedValue> {
  const kind = kinds[kindName];
  const keys = Object.keys(value);
  const fields = value as Partial<Record<keyof RangedValue, unknown>>;
  if (keys.length !== 3 || !('low' in fields && 'typical' in fields && 'high' in fields)) {
    return fail('bad-quantity', value, `${kind.noun}, or its low, typical and high`, `Such as ${exampleRange(kind)}.`);
  }
  const [low, typical, high] = [fields.low, fields.typical, fields.high].map((end) =>
    readQuantity(end, kindName, limits),
  );
  if (!low!.ok) return low!;
  if (!typical!.ok) return typical!;
  if (!high!.ok) return high!;
  return ordered(value, { low: low!.value, typical: typical!.value, high: high!.value }, kind);
}

const exampleRange = (kind: Kind): string => {
  const unit = kind.units[0];
  return `20 ${unit} (10 to 40)`;
};

function ordered(raw: unknown, value: RangedValue, kind: Kind): QuantityOutcome<RangedValue> {
  if (value.low <= value.typical && value.typical <= value.high) return { ok: true, value };
  return fail('bad-quantity', raw, `${kind.noun} between the ends of its range`, `Such as ${exampleRange(kind)}.`);
}

/** Reads a pure number that may carry its range: 100, `100 (50 to 300)`, or `{low, typical, high}`. */
export function readRangedNumber(value: unknown, least = 0, most = 1e12): QuantityOutcome<RangedValue> {
  const expected = `a number from ${least} to ${most}, with or without its range, such as 100 or "100 (50 to 300)"`;
  const given: unknown[] = [];
  if (typeof value === 'number') given.push(value, value, value);
  else if (typeof value === 'string' && value.length <= longestText) {
    const text = normalise(value);
    const match = rangeForm.exec(text);
    const ends = match === null ? [text, text] : match[2]!.split(/ to |\.\.| - |(?<=\d)-(?=\d)/);
    const parts = match === null || match[3]!.trim() === '' ? [ends[0], match === null ? text : match[1], ends[1]] : [];
    for (const part of parts) {
      const scanned = part === undefined ? null : scanNumber(part.trim());
      given.push(scanned !== null && scanned.rest === '' ? scanned.value : Number.NaN);
    }
  } else if (typeof value === 'object' && value !== null && Object.keys(value).length === 3) {
    const { low, typical, high } = value as Partial<Record<keyof RangedValue, unknown>>;
    given.push(low, typical, high);
  }
  const [low, typical, high] = given;
  if (given.length !== 3 || !given.every((n) => typeof n === 'number' && Number.isFinite(n))) {
    return fail('bad-quantity', value, expected);
  }
  const ranged = { low, typical, high } as RangedValue;
  if (!(ranged.low <= ranged.typical && ranged.typical <= ranged.high)) {
    return fail('bad-quantity', value, 'a number between the ends of its range, such as "100 (50 to 300)"');
  }
  return ranged.low >= least && ranged.high <= most
    ? { ok: true, value: ranged }
    : fail('out-of-range', value, expected);
}
