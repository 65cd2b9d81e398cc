const numberStart =
  /^([+-]?)\s?(?:(\d+)(?: |-)(\d+)\/(\d+)|(\d+)\/(\d+)|(\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d*)?|\.\d+)(e[+-]?\d+)?)(?![\d.,])/i;

/** A number and what stands after it. */
export interface Scanned {
  readonly value: number;
  readonly rest: string;
}

/** The number at the start of a normalised text: `1,320`, `5/8`, `12 1/2`, `1e-7`; null where there is none. */
export function scanNumber(text: string): Scanned | null {
  const match = numberStart.exec(text);
  if (match === null) return null;
  const [all, sign, whole, over, under, fractionOver, fractionUnder, decimal, exponent] = match;
  let value: number;
  if (whole !== undefined) value = Number(whole) + Number(over) / Number(under);
  else if (fractionOver !== undefined) value = Number(fractionOver) / Number(fractionUnder);
  else value = Number(`${decimal!.replaceAll(',', '')}${exponent ?? ''}`);
  return { value: sign === '-' ? -value : value, rest: text.slice(all.length).trimStart() };
}
