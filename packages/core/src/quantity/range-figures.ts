import type { Estimate } from '@postvolt/tables';

const prefixes: readonly (readonly [number, string])[] = [
  [1e9, 'G'],
  [1e6, 'M'],
  [1e3, 'k'],
  [1, ''],
  [1e-3, 'm'],
  [1e-6, 'µ'],
  [1e-9, 'n'],
  [1e-12, 'p'],
];

/** Units that are said with a prefix: `2.51 mm`, `0.3 µS`. */
const scalable = /^(m|Ω|Ω\/m|Ω·m|S|S\/m|V|N|s)$/;

/** A value's low, typical and high and its unit as text, in one prefix that suits the typical one; three figures each. */
export function rangeFigures({
  low,
  typical,
  high,
  unit,
}: Estimate): Record<'low' | 'typical' | 'high' | 'unit', string> {
  const size = Math.abs(typical) || Math.abs(high);
  const fits = ([scale]: readonly [number, string]) => size >= scale * 0.9995;
  const [scale, prefix] =
    scalable.test(unit) && size > 0 ? (prefixes.find(fits) ?? prefixes.at(-1)!) : ([1, ''] as const);
  const figure = (value: number) =>
    Number((value / scale).toPrecision(3)).toLocaleString('en-US', { maximumSignificantDigits: 3 });
  return { low: figure(low), typical: figure(typical), high: figure(high), unit: unit === '1' ? '' : prefix + unit };
}
