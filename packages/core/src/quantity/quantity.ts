import { awgDiameterM, steelWireGauges } from '@postvolt/tables';
import { type Kind, type KindName, kinds } from './kinds.js';
import { longestText, normalise, normaliseUnit } from './normalise.js';
import { convert } from './units.js';

/** What is wrong with a quantity, as data; a plan's issue adds the place. */
export interface QuantityFault {
  readonly code: 'missing-unit' | 'bad-quantity' | 'wrong-unit' | 'out-of-range';
  readonly found: string;
  readonly expected: string;
  readonly hint: string;
}

/** A value in SI, or what is wrong with what was written. */
export type QuantityOutcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly fault: QuantityFault };

/** Bounds in SI; the kind's own hold where these are left out. */
export interface Limits {
  /** Lowest value allowed. */
  readonly least?: number;
  /** The value lies above this one. */
  readonly above?: number;
  readonly most?: number;
  /** A length may be written as a wire gauge: `12.5 ga`, `12 AWG`. */
  readonly gauge?: boolean;
}

/** A value with its range, SI. */
export interface RangedValue {
  readonly low: number;
  readonly typical: number;
  readonly high: number;
}

const numberStart =
  /^([+-]?)\s?(?:(\d+)(?: |-)(\d+)\/(\d+)|(\d+)\/(\d+)|(\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d*)?|\.\d+)(e[+-]?\d+)?)(?![\d.,])/i;

interface Scanned {
  readonly value: number;
  readonly rest: string;
}

/** The number at the start of a normalised text: `1,320`, `5/8`, `12 1/2`, `1e-7`; null where there is none. */
function scanNumber(text: string): Scanned | null {
  const match = numberStart.exec(text);
  if (match === null) return null;
  const [all, sign, whole, over, under, fractionOver, fractionUnder, decimal, exponent] = match;
  let value: number;
  if (whole !== undefined) value = Number(whole) + Number(over) / Number(under);
  else if (fractionOver !== undefined) value = Number(fractionOver) / Number(fractionUnder);
  else value = Number(`${decimal!.replaceAll(',', '')}${exponent ?? ''}`);
  return { value: sign === '-' ? -value : value, rest: text.slice(all.length).trimStart() };
}

/** Shows a value as it stood, short enough for a line. */
export function showFound(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return 'an empty value';
  if (typeof value === 'string') return value.length > 60 ? `"${value.slice(0, 57)}..."` : `"${value}"`;
  if (typeof value === 'number' || typeof value === 'boolean' || typeof value === 'bigint') return String(value);
  if (Array.isArray(value)) return `a list of ${value.length}`;
  return typeof value === 'object' ? 'a map' : `a ${typeof value}`;
}

const fail = (
  code: QuantityFault['code'],
  found: unknown,
  expected: string,
  hint = '',
): { ok: false; fault: QuantityFault } => ({
  ok: false,
  fault: { code, found: showFound(found), expected, hint },
});

/** `a length such as 1320 ft or 400 m` */
export const wordKind = ({ noun, examples }: Kind): string =>
  `${noun} such as ${examples.length === 1 ? examples[0] : `${examples.slice(0, -1).join(', ')} or ${examples.at(-1)}`}`;

/** A number of some unit in SI: the unit as written, or a usual one of the kind that differs only in case. */
function toSi(value: number, unitText: string, kind: Kind): { si: number; unit: string } | null {
  const unit = normaliseUnit(unitText);
  const exact = convert(value, unit, kind.si);
  if (exact !== null && !Number.isNaN(exact)) return { si: exact, unit };
  const sameLetters = kind.units.find((known) => known.toLowerCase() === unit.toLowerCase());
  const lenient = sameLetters === undefined ? null : convert(value, sameLetters, kind.si);
  return lenient === null ? null : { si: lenient, unit: sameLetters! };
}

/** One or more numbers with units, largest unit first (`5 ft 6 in`); `fallbackUnit` goes with a bare number. */
function readScalar(
  raw: unknown,
  text: string,
  kind: Kind,
  limits: Limits,
  fallbackUnit: string | null,
): QuantityOutcome<{ si: number; unit: string }> {
  let rest = text;
  let total = 0;
  let sign = 1;
  let unit: string | null = null;
  let smallest = Number.POSITIVE_INFINITY;
  for (let part = 0; rest !== ''; part++) {
    const scanned = scanNumber(rest);
    if (scanned === null) {
      const comma = /^[+-]?\d+,\d/.test(rest) ? 'Write a decimal point, and commas only between thousands.' : '';
      return fail('bad-quantity', raw, wordKind(kind), comma);
    }
    const unitText = /^[^\d]*?(?=\s*(?:[+-]?(?:\d|\.\d)|$))/.exec(scanned.rest)?.[0].trim() ?? '';
    rest = scanned.rest.slice(scanned.rest.indexOf(unitText) + unitText.length).trimStart();
    if (unitText === '' && fallbackUnit === null) {
      return fail('missing-unit', raw, wordKind(kind), `Write the unit: ${String(raw).trim()} ${kind.units[0]}.`);
    }
    const gauge = limits.gauge && part === 0 ? readGauge(scanned.value, unitText) : null;
    const read =
      gauge === null
        ? toSi(Math.abs(scanned.value), unitText === '' ? fallbackUnit! : unitText, kind)
        : { si: gauge, unit: 'mm' };
    if (read === null) return wrongUnit(raw, unitText, kind);
    // A zero offset only for °F and °C, whose sign belongs to the number.
    const si =
      kind === kinds.temperature ? toSi(scanned.value, unitText === '' ? fallbackUnit! : unitText, kind)!.si : read.si;
    if (part === 0) {
      sign = kind !== kinds.temperature && (scanned.value < 0 || Object.is(scanned.value, -0)) ? -1 : 1;
      unit = read.unit;
    } else if (kind !== kinds.length || scanned.value < 0 || si >= smallest) {
      return fail('bad-quantity', raw, wordKind(kind));
    }
    const one = kind === kinds.length ? convert(1, read.unit, kind.si) : null;
    smallest = one ?? 0;
    total += si;
  }
  if (unit === null) return fail('bad-quantity', raw, wordKind(kind));
  const si = sign * total;
  const outside = checkLimits(raw, si, unit, kind, limits);
  return outside ?? { ok: true, value: { si, unit } };
}

/** Metres of `12.5 ga` or `12 AWG`; null for other units and for numbers that the gauge lacks. */
function readGauge(value: number, unitText: string): number | null {
  if (/^(ga|gauge|swg)\.?$/i.test(unitText))
    return steelWireGauges.find(({ gauge }) => gauge === value)?.diameterM.typical ?? null;
  if (/^awg$/i.test(unitText)) return awgDiameterM(value);
  return null;
}

function wrongUnit(raw: unknown, unitText: string, kind: Kind): { ok: false; fault: QuantityFault } {
  if (/^(ga|gauge)\.?$/i.test(unitText))
    return fail('wrong-unit', raw, wordKind(kind), 'A gauge names a wire, not a length.');
  const known = convert(1, normaliseUnit(unitText), kind.si);
  const hint =
    known === null
      ? `No unit is written ${showFound(unitText)}.`
      : `${showFound(unitText)} is not the unit of ${kind.noun}.`;
  return fail('wrong-unit', raw, wordKind(kind), hint);
}

function checkLimits(
  raw: unknown,
  si: number,
  unit: string,
  kind: Kind,
  limits: Limits,
): { ok: false; fault: QuantityFault } | null {
  const least = limits.least ?? kind.least;
  const most = limits.most ?? kind.most;
  const inUnit = (limit: number) => `${Number(convert(limit, kind.si, unit)!.toPrecision(4))} ${unit}`;
  if (!Number.isFinite(si)) return fail('out-of-range', raw, wordKind(kind));
  if (limits.above !== undefined && !(si > limits.above))
    return fail('out-of-range', raw, `${kind.noun} above ${inUnit(limits.above)}`);
  if (si < least) return fail('out-of-range', raw, `${kind.noun} of at least ${inUnit(least)}`);
  if (si > most) return fail('out-of-range', raw, `${kind.noun} of at most ${inUnit(most)}`);
  return null;
}

/** Text of a quantity, or why it cannot be one. */
function textOf(value: unknown, kind: Kind): QuantityOutcome<string> {
  if (typeof value === 'number') {
    const hint = Number.isFinite(value) ? `Write the unit: ${value} ${kind.units[0]}.` : '';
    return fail(Number.isFinite(value) ? 'missing-unit' : 'bad-quantity', value, wordKind(kind), hint);
  }
  if (typeof value !== 'string') return fail('bad-quantity', value, wordKind(kind));
  if (value.length > longestText) return fail('bad-quantity', value, wordKind(kind));
  return { ok: true, value: normalise(value) };
}

/**
 * Reads a quantity such as `5 ft 6 in` or `9.2 kV` as a number of the kind's SI unit.
 *
 * Never throws; a bare number, an unknown unit, a unit of another kind and a value out of bounds come back as a fault.
 */
export function readQuantity(value: unknown, kindName: KindName, limits: Limits = {}): QuantityOutcome<number> {
  const kind = kinds[kindName];
  const text = textOf(value, kind);
  if (!text.ok) return text;
  const read = readScalar(value, text.value, kind, limits, null);
  return read.ok ? { ok: true, value: read.value.si } : read;
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

/** Reads a share: `15 %` or a bare 0.15, from 0 to `most`. */
export function readShare(value: unknown, most = 1): QuantityOutcome<number> {
  const expected = `a share from 0 to ${most * 100} %, such as 15 %`;
  if (typeof value !== 'number' && typeof value !== 'string') return fail('bad-quantity', value, expected);
  const text = typeof value === 'number' ? String(value) : value.length > longestText ? '' : normalise(value);
  const scanned = scanNumber(text);
  if (scanned === null || (scanned.rest !== '' && scanned.rest !== '%')) return fail('bad-quantity', value, expected);
  const share = scanned.rest === '%' ? scanned.value / 100 : scanned.value;
  if (!(share >= 0 && share <= most)) {
    return fail(
      'out-of-range',
      value,
      expected,
      share > 1 && scanned.rest === '' ? `Did you mean ${scanned.value} %?` : '',
    );
  }
  return { ok: true, value: share };
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
