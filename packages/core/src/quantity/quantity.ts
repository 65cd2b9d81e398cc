import { awgDiameterM, steelWireGauges } from '@postvolt/tables';
import { either, fail, type QuantityFault, type QuantityOutcome, showFound, wordKind } from './fault.js';
import { type Kind, type KindName, kinds } from './kinds.js';
import { longestText, normalise, normaliseUnit } from './normalise.js';
import { scanNumber } from './scan-number.js';
import { convert } from './units.js';

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

/** Shows how a bare number is written, in the first units of its kind. */
const howToWrite = (number: string, { plain }: Kind): string =>
  `Write the unit: ${either(plain.map((unit) => `${number} ${unit}`))}.`;

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
export function readScalar(
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
      return fail('missing-unit', raw, wordKind(kind), howToWrite(String(raw).trim(), kind));
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
  if (/^(ga|gauge)\.?$/i.test(unitText))
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
export function textOf(value: unknown, kind: Kind): QuantityOutcome<string> {
  if (typeof value === 'number') {
    const hint = Number.isFinite(value) ? howToWrite(String(value), kind) : '';
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
