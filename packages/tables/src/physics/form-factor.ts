import { positive } from '../guard.js';

/**
 * Form factor of a leakage path along a cylinder, a pure number: path over circumference, L/(πD).
 *
 * The current is taken to spread round the whole circumference; a conductor that touches one side raises the factor two
 * to three times. The film's resistance is the form factor over its layer conductance. Source: IEC 60507 and
 * IEC TS 60815-1 define both (F = ∫ dl/(πD(l))).
 */
export const cylinderFormFactor = (pathM: number, diameterM: number): number =>
  positive('pathM', pathM) / (Math.PI * positive('diameterM', diameterM));
