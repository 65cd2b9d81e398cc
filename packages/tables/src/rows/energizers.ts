import { estimate, years } from '../cell.js';
import type { Estimate } from '../estimate.js';
import type { EnergizerRow } from '../schema.js';

const source =
  'engineering estimate of the class: three test loads as energizers are published by, no make in particular';

/** Volts within 15 % of the typical. */
const kilovolts = (kV: number): Estimate => estimate(kV * 1000, [kV * 850, kV * 1150], 'V', source);

interface Class {
  readonly id: string;
  readonly aliases: readonly string[];
  readonly about: string;
  readonly joules: number;
  /** Peak kilovolts: open circuit, into 500 ohms, into 100 ohms. */
  readonly kilovolts: readonly [open: number, at500: number, at100: number];
}

const energizer = ({ id, aliases, about, joules, kilovolts: [open, at500, at100] }: Class): EnergizerRow => ({
  id,
  aliases: [...aliases],
  about,
  joules,
  loads: [
    { ohms: null, volts: kilovolts(open) },
    { ohms: 500, volts: kilovolts(at500) },
    { ohms: 100, volts: kilovolts(at100) },
  ],
  serviceYears: years(10, 5, 15),
});

/** A class by its joules. */
const joule = (joules: number, about: string, open: number, at500: number, at100: number): EnergizerRow =>
  energizer({
    id: `${joules} J`.toLowerCase(),
    aliases: [`${joules} joule`, `${joules} joules`],
    about,
    joules,
    kilovolts: [open, at500, at100],
  });

/** Generic energizers by output class: three load volts each; the joules are a label. */
export const energizers: EnergizerRow[] = [
  energizer({
    id: 'small battery',
    aliases: ['0.1 j', 'strip grazer'],
    about: 'Pocket energizer on torch batteries, for one short strip.',
    joules: 0.1,
    kilovolts: [6, 1.1, 0.3],
  }),
  energizer({
    id: 'small solar',
    aliases: ['0.25 j', 'small solar energizer'],
    about: 'Small energizer with its own solar panel and battery.',
    joules: 0.25,
    kilovolts: [7, 1.9, 0.55],
  }),
  joule(0.5, 'Battery or solar energizer for a paddock.', 7.5, 2.7, 0.85),
  joule(1, 'Small mains or large solar energizer.', 8, 3.7, 1.3),
  joule(3, 'Mains energizer for a small farm.', 8.5, 5.8, 2.6),
  joule(6, 'Mains energizer for a farm.', 8.8, 7.2, 3.8),
  joule(12, 'Large mains energizer.', 9, 7.8, 5.3),
  joule(18, 'Large mains energizer for long or weedy fence.', 9.2, 8, 6.3),
  joule(25, 'Station energizer for many miles.', 9.5, 8.3, 7),
];
