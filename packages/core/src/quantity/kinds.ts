/** A kind of quantity: the SI unit it is kept in, how people say it, and bounds beyond which it is a slip of the pen. */
export interface Kind {
  /** In mathjs's spelling. */
  readonly si: string;
  /** Unit symbol kept with a value, as the tables write it. */
  readonly symbol: string;
  /** With its article, as it stands in an error. */
  readonly noun: string;
  readonly examples: readonly [string, ...string[]];
  /** Usual units, found whatever the case of their letters. */
  readonly units: readonly string[];
  /** Units in which a bare number is shown how to be written. */
  readonly plain: readonly [string, ...string[]];
  readonly least: number;
  readonly most: number;
}

const kind = (
  si: string,
  symbol: string,
  noun: string,
  examples: readonly [string, ...string[]],
  units: string,
  [least, most]: readonly [number, number],
): Kind => ({
  si,
  symbol,
  noun,
  examples,
  units: units.split(' '),
  plain: symbol === 'm' ? ['ft', 'm'] : [examples[0].replace(/^\S+ /, '')],
  least,
  most,
});

/** Kinds of quantity that a plan holds. */
export const kinds = {
  length: kind(
    'm',
    'm',
    'a length',
    ['1320 ft', '0.8 mi', '400 m', '5 ft 6 in'],
    'ft in mi yd m km cm mm um',
    [0, 1e6],
  ),
  resistance: kind('ohm', 'Ω', 'a resistance', ['35 ohm', '20 kΩ'], 'ohm kohm Gohm', [0, 1e15]),
  voltage: kind('V', 'V', 'a voltage', ['9.2 kV', '3000 V'], 'V kV', [0, 1e5]),
  resistancePerLength: kind(
    'ohm/m',
    'Ω/m',
    'a resistance per length',
    ['36 ohm/km', '58 ohm/mi', '0.05 ohm/m'],
    'ohm/m ohm/km ohm/mi ohm/ft',
    [0, 1e6],
  ),
  resistivity: kind('ohm m', 'Ω·m', 'a resistivity', ['100 ohm m', '0.18 uohm m'], 'ohm*m ohm*cm', [0, 1e9]),
  conductance: kind('S', 'S', 'a conductance', ['0.3 uS'], 'S uS nS', [0, 1e6]),
  conductancePerLength: kind(
    'S/m',
    'S/m',
    'a conductance per length',
    ['0.2 uS/m', '320 uS/mi'],
    'S/m uS/m uS/km uS/mi uS/ft nS/m',
    [0, 1],
  ),
  time: kind('s', 's', 'a time', ['120 us', '1.2 s'], 's ms us', [0, 1e4]),
  frequency: kind('Hz', 'Hz', 'a frequency', ['5 kHz'], 'Hz kHz', [0, 1e9]),
  energy: kind('J', 'J', 'an energy', ['6 J'], 'J kJ', [0, 1e4]),
  temperature: kind('degC', '°C', 'a temperature', ['10 °C', '50 °F'], 'degC degF', [-273.15, 1000]),
  force: kind('N', 'N', 'a force', ['4 kN', '900 lbf'], 'N kN lbf', [0, 1e7]),
  years: kind('year', 'year', 'a time in years', ['20 years'], 'year', [0, 1000]),
} as const satisfies Record<string, Kind>;

/** Name of a kind of quantity. */
export type KindName = keyof typeof kinds;
