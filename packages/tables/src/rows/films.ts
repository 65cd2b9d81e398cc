import { estimate } from '../cell.js';
import type { Estimate } from '../estimate.js';
import type { FilmRow, InsulatorState } from '../schema.js';

type Microsiemens = readonly [typical: number, low: number, high: number];

const cell = ([typical, low, high]: Microsiemens): Estimate =>
  estimate(
    typical * 1e-6,
    [low * 1e-6, high * 1e-6],
    'S',
    'engineering estimate of the layer conductance that IEC 60507 and IEC TS 60815-1 define',
  );

const film = (
  id: InsulatorState,
  aliases: string[],
  about: string,
  dry: Microsiemens,
  damp: Microsiemens,
  wet: Microsiemens,
): FilmRow => ({ id, aliases, about, siemens: { dry: cell(dry), damp: cell(damp), wet: cell(wet) } });

const dusty: readonly [Microsiemens, Microsiemens, Microsiemens] = [
  [0.01, 0.001, 0.1],
  [2, 0.3, 10],
  [2, 0.3, 10],
];

/** Film on an insulator, siemens a square; rain wets as fully as dew and washes some of the dirt away. */
export const films: FilmRow[] = [
  film('new', ['clean'], 'Clean surface.', [0.001, 0.0001, 0.01], [0.03, 0.003, 0.3], [0.3, 0.05, 1.5]),
  film('aged', ['dusty', 'old'], 'Some years of dust.', ...dusty),
  film('fouled', ['bird-fouled', 'dirty'], 'Bird droppings across the path.', [0.2, 0.02, 2], [8, 1, 40], [20, 5, 100]),
  film('cracked', [], 'Dusty surface of a cracked body; what leaks through the body is added.', ...dusty),
  film(
    'salt',
    ['salty', 'salt-laden'],
    'Salt from sea spray or a winter road.',
    [0.3, 0.03, 3],
    [30, 8, 100],
    [30, 5, 100],
  ),
];
