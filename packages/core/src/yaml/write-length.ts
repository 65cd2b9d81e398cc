/** A foot in metres, exactly (international yard and pound agreement of 1959). */
const footM = 0.3048;

/** A length as a plan writes it, to six digits or as many as are asked for: in feet or metres, whichever is shorter. */
export function writeLength(metres: number, digits = 6): string {
  const [feet, plain] = [metres / footM, metres].map((value) => String(Number(value.toPrecision(digits)))) as [
    string,
    string,
  ];
  return feet.length < plain.length ? `${feet} ft` : `${plain} m`;
}
