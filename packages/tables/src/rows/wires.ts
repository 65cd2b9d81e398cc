import { feet, practice, years } from '../cell.js';
import type { Estimate } from '../estimate.js';
import type { WireRow } from '../schema.js';
import { cables } from './cables.js';
import { aluminium, highTensileSteel } from './metals.js';
import { polyWires } from './poly-wires.js';
import { coat, solid, strength } from './solid-wire.js';
import { gaugeOf, highTensileCoil, metric, steelWires } from './steel-wires.js';

const aluminiumCoated = (size: string, diameterM: Estimate): WireRow =>
  solid(
    {
      id: `${size} aluminium-coated`,
      aliases: [`${size} aluminium-coated steel`, `${size} aluminium-coated high-tensile`],
      about: `${size} high-tensile steel wire with a dipped coat of aluminium.`,
      diameterM,
      coating: coat('aluminium', 0.092, 'ASTM A809, about 0.30 oz/ft² of aluminium'),
      serviceYears: years(35, 20, 60),
    },
    'steel',
    highTensileSteel,
    strength.highTensile,
    highTensileCoil,
  );

const aluminiumWire = (size: string, diameterM: Estimate): WireRow =>
  solid(
    {
      id: `${size} aluminium`,
      aliases: [`${size} aluminium wire`],
      about: `${size} solid aluminium wire: light and soft, and it carries the pulse far better than steel.`,
      diameterM,
      coating: null,
      serviceYears: years(30, 15, 50),
    },
    'aluminium',
    aluminium,
    strength.aluminium,
    practice(feet(1320), [feet(660), feet(4000)], 'm'),
  );

/** Fence wire, poly conductors and insulated cable. */
export const wires: WireRow[] = [
  ...steelWires,
  ...[12.5, 14].map((gauge) => aluminiumCoated(`${gauge} ga`, gaugeOf(gauge).diameterM)),
  aluminiumCoated('2.5 mm', metric(2.5)),
  ...[9, 12.5, 14].map((gauge) => aluminiumWire(`${gauge} ga`, gaugeOf(gauge).diameterM)),
  aluminiumWire('2.5 mm', metric(2.5)),
  ...polyWires,
  ...cables,
];
