const inch = 0.0254;

/** Diameters in inches by Steel Wire Gauge (US; "Washburn & Moen"; ASTM A510), from memory. 12½ is the trade's. */
const steelInches: Readonly<Record<string, number>> = {
  '6': 0.192,
  '7': 0.177,
  '8': 0.162,
  '9': 0.1483,
  '10': 0.135,
  '11': 0.1205,
  '12': 0.1055,
  '12.5': 0.099,
  '13': 0.0915,
  '13.5': 0.086,
  '14': 0.08,
  '14.5': 0.076,
  '15': 0.072,
  '15.5': 0.067,
  '16': 0.0625,
  '17': 0.054,
  '18': 0.0475,
};

/** Diameter in metres of a steel wire gauge number; null for a number that the gauge does not have. */
export function steelGaugeM(gauge: number): number | null {
  const inches = steelInches[String(gauge)];
  return inches === undefined ? null : inches * inch;
}

/** Diameter in metres by American Wire Gauge, the gauge of copper cable (ASTM B258: 36 gauge is 0.005 in, ratio 92^(1/39)). */
export const awgM = (gauge: number): number => 0.005 * 92 ** ((36 - gauge) / 39) * inch;
