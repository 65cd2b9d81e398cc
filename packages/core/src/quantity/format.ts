import { convert } from './units.js';

/** Units of printed results. */
export type UnitSystem = 'imperial' | 'metric';

const perMetre = { ft: convert(1, 'm', 'ft')!, in: convert(1, 'm', 'in')!, mi: convert(1, 'm', 'mi')! };

/** A number to so many significant digits, without exponent or trailing zeros, commas between thousands. */
export function formatNumber(value: number, digits: number): string {
  if (!Number.isFinite(value)) return value > 0 ? 'unlimited' : 'unknown';
  const rounded = Number(value.toPrecision(digits));
  const decimals = rounded === 0 ? 0 : Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(rounded))));
  const [whole, fraction = ''] = Math.abs(rounded).toFixed(Math.min(decimals, 20)).split('.');
  const trimmed = fraction.replace(/0+$/, '');
  const grouped = whole!.replace(/\B(?=(\d{3})+$)/g, ',');
  return `${rounded < 0 ? '−' : ''}${grouped}${trimmed === '' ? '' : `.${trimmed}`}`;
}

const prefixes = [
  [1e9, 'G'],
  [1e6, 'M'],
  [1e3, 'k'],
  [1, ''],
  [1e-3, 'm'],
  [1e-6, 'µ'],
  [1e-9, 'n'],
] as const;

/** A value with the SI prefix that leaves one to three digits before the point. */
function formatSi(value: number, unit: string, digits: number): string {
  // Rounded first, so that 999.7 becomes 1 k and not 1,000.
  const size = Math.abs(Number(value.toPrecision(digits)));
  if (size === 0) return `0 ${unit}`;
  if (!Number.isFinite(size)) return `${formatNumber(value, digits)} ${unit}`;
  const [scale, prefix] = prefixes.find(([scale]) => size >= scale * (1 - 1e-12)) ?? prefixes.at(-1)!;
  return `${formatNumber(value / scale, digits)} ${prefix}${unit}`;
}

/** Volts as a fence meter reads them: kilovolts to one decimal, two digits below one kilovolt: `6.8 kV`, `840 V`. */
export function formatVolts(volts: number): string {
  const kilovolts = Number((volts / 1000).toFixed(1));
  if (Math.abs(Number(volts.toPrecision(2))) >= 1000) return `${formatNumber(kilovolts, 4)} kV`;
  if (Math.abs(volts) < 0.5) return '0 V';
  return `${formatNumber(Math.abs(volts) < 10 ? Math.round(volts) : volts, 2)} V`;
}

/** Volts beside a target: with as many digits as it takes to tell them from it, as in `1.996 kV` beside 2 kV. */
export function formatVoltsBeside(volts: number, targetVolts: number): string {
  const usual = formatVolts(volts);
  if (volts === targetVolts || usual !== formatVolts(targetVolts)) return usual;
  for (let digits = 3; ; digits++) {
    const text = `${Number((volts / 1000).toPrecision(digits))} kV`;
    if (digits === 9 || text !== `${Number((targetVolts / 1000).toPrecision(digits))} kV`) return text;
  }
}

/** A difference of volts with its sign, as in `+1.2 kV` and `−300 V`. */
export const formatSignedVolts = (volts: number): string => `${volts < 0 ? '−' : '+'}${formatVolts(Math.abs(volts))}`;

/** A chance from 0 to 1 as in `9 %`, and `under 1 %` or `over 99 %` at the ends. */
export const formatChance = (chance: number): string =>
  chance > 0.99 ? 'over 99 %' : chance < 0.01 ? 'under 1 %' : formatPercent(Math.round(100 * chance));

/** Ohms to two digits: `19 Ω`, `15 kΩ`, `∞`-like values as `unlimited Ω`. */
export const formatOhms = (ohms: number, digits = 2): string => formatSi(ohms, 'Ω', digits);

/** Amps to two digits: `1.4 A`, `35 mA`. */
export const formatAmps = (amps: number, digits = 2): string => formatSi(amps, 'A', digits);

/** Seconds to two digits: `120 µs`, `1.2 s`. */
export const formatSeconds = (seconds: number, digits = 2): string => formatSi(seconds, 's', digits);

/** Joules to two digits: `6 J`. */
export const formatJoules = (joules: number, digits = 2): string => formatSi(joules, 'J', digits);

/** Siemens per metre of strand to two digits: `0.2 µS/m`, `320 µS/mi`. */
export function formatLeakPerLength(siemensPerMetre: number, units: UnitSystem, digits = 2): string {
  return units === 'metric'
    ? formatSi(siemensPerMetre, 'S/m', digits)
    : formatSi(siemensPerMetre / perMetre.mi, 'S/mi', digits);
}

/** Ohms per metre of wire to two digits: `36 Ω/km`, `58 Ω/mi`. */
export function formatOhmsPerLength(ohmsPerMetre: number, units: UnitSystem, digits = 2): string {
  return units === 'metric'
    ? formatSi(ohmsPerMetre * 1000, 'Ω/km', digits)
    : formatSi(ohmsPerMetre / perMetre.mi, 'Ω/mi', digits);
}

/** Ohm-metres to two digits: `100 Ω·m`. */
export const formatResistivity = (ohmM: number, digits = 2): string => formatSi(ohmM, 'Ω·m', digits);

/** Percent to two digits, one decimal at most: `12 %`, `0.4 %`, `under 0.1 %`. */
export function formatPercent(percent: number): string {
  if (percent !== 0 && Math.abs(percent) < 0.1) return 'under 0.1 %';
  return `${formatNumber(Math.abs(percent) < 10 ? Number(percent.toFixed(1)) : Math.round(percent), 3)} %`;
}

/** A temperature to the degree: `10 °C`, `50 °F`. */
export function formatTemperature(celsius: number, units: UnitSystem): string {
  const [degrees, symbol] = units === 'metric' ? [celsius, '°C'] : [convert(celsius, 'degC', 'degF')!, '°F'];
  return `${formatNumber(Math.round(degrees), 4)} ${symbol}`;
}

/**
 * A length to three digits in the unit that a person would choose.
 *
 * Imperial: inches below 4 ft, miles from 1 mile, else feet. Metric: millimetres, centimetres below 1 m, metres, kilometres.
 */
export function formatLength(metres: number, units: UnitSystem, digits = 3): string {
  // Rounded first, so that a height entered as 4 ft or 1 km does not fall a hair short of its step.
  const size = Number(Math.abs(metres).toPrecision(12));
  const in3 = (value: number, unit: string) =>
    `${formatNumber(value, value >= 1000 ? Math.max(4, digits) : digits)} ${unit}`;
  if (units === 'imperial') {
    if (Number((size * perMetre.mi).toPrecision(12)) >= 1) return in3(metres * perMetre.mi, 'mi');
    if (Number((size * perMetre.ft).toPrecision(12)) >= 4 || size === 0) return in3(metres * perMetre.ft, 'ft');
    return in3(metres * perMetre.in, 'in');
  }
  if (size >= 1000) return in3(metres / 1000, 'km');
  if (size >= 1 || size === 0) return in3(metres, 'm');
  return size >= 0.01 ? in3(metres * 100, 'cm') : in3(metres * 1000, 'mm');
}

/** A place along a run, exact enough to find it again: feet or metres to six digits. */
export const formatPlace = (metres: number, units: UnitSystem): string =>
  units === 'imperial' ? `${formatNumber(metres * perMetre.ft, 6)} ft` : `${formatNumber(metres, 6)} m`;
