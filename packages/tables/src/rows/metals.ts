import { estimate, handbook, standard } from '../cell.js';
import type { Estimate } from '../estimate.js';

/** What a conductor is made of. */
export interface Metal {
  readonly resistivityOhmM: Estimate;
  readonly relativePermeability: Estimate;
  /** Per kelvin, at 20 °C. */
  readonly temperatureCoefficient: Estimate;
}

const nonMagnetic = handbook(1, null, '1', 'non-magnetic metal, any handbook of physics');

/** Drawn high-carbon steel of high-tensile fence wire. */
export const highTensileSteel: Metal = {
  resistivityOhmM: estimate(0.18e-6, [0.17e-6, 0.19e-6], 'Ω·m', 'engineering estimate for drawn high-carbon steel'),
  relativePermeability: estimate(
    100,
    [50, 300],
    '1',
    'engineering estimate: steel at fence currents is not well known',
  ),
  temperatureCoefficient: estimate(0.0035, [0.003, 0.004], '1/K', 'engineering estimate for high-carbon steel'),
};

/** Low-carbon steel of soft fence wire. */
export const mildSteel: Metal = {
  resistivityOhmM: estimate(0.14e-6, [0.12e-6, 0.16e-6], 'Ω·m', 'engineering estimate for drawn low-carbon steel'),
  relativePermeability: estimate(150, [50, 500], '1', 'engineering estimate: softer steel magnetizes more easily'),
  temperatureCoefficient: estimate(0.0045, [0.004, 0.005], '1/K', 'engineering estimate for low-carbon steel'),
};

/** Annealed copper. */
export const copper: Metal = {
  resistivityOhmM: standard(0.017241e-6, null, 'Ω·m', 'IEC 60028, annealed copper at 20 °C'),
  relativePermeability: nonMagnetic,
  temperatureCoefficient: standard(0.00393, null, '1/K', 'IEC 60028'),
};

/** Hard-drawn aluminium; alloy fence wire conducts up to a fifth less. */
export const aluminium: Metal = {
  resistivityOhmM: standard(
    0.028264e-6,
    [0.028264e-6, 0.035e-6],
    'Ω·m',
    'IEC 60889, hard-drawn aluminium at 20 °C; up to 0.035 µΩ·m for alloy wire (estimate)',
  ),
  relativePermeability: nonMagnetic,
  temperatureCoefficient: standard(0.00403, null, '1/K', 'IEC 60889'),
};

/** Zinc of a galvanized coating. */
export const zincResistivity: Estimate = handbook(
  0.059e-6,
  [0.057e-6, 0.064e-6],
  'Ω·m',
  'handbooks of physics, zinc at 20 °C',
);
/** Aluminium of a dipped coating, which takes up some iron and silicon. */
export const aluminiumCoatResistivity: Estimate = estimate(
  0.03e-6,
  [0.028e-6, 0.04e-6],
  'Ω·m',
  'engineering estimate: aluminium with some iron and silicon from the dip',
);
