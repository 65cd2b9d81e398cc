import { SourceCurve } from '../engine/source-curve.js';
import { deckNumber } from './deck-text.js';

/**
 * Amps of an energizer's whole output curve as an expression of the volts between its terminals, such as `V(a,b)`.
 *
 * Points are `[amps, volts]`, falling. A piecewise linear curve is the straight line through its first segment plus, for
 * every knee below which the volts have dropped, the change of slope there: (E0 − V)/R0 + Σ (1/Rk − 1/Rk−1)·max(0, Vk − V).
 * Both end slopes go on for ever, as the engine extends them.
 */
export function sourceExpression(points: readonly (readonly [amps: number, volts: number])[], across: string): string {
  const { volts, ohms, emfVolts } = new SourceCurve(points);
  const first = `(${deckNumber(emfVolts[0]!)} - ${across})/${deckNumber(ohms[0]!)}`;
  const bends = Array.from(ohms.subarray(1), (fall, k) => {
    const change = 1 / fall - 1 / ohms[k]!;
    return `${change < 0 ? '-' : '+'} ${deckNumber(Math.abs(change))}*max(0, ${deckNumber(volts[k + 1]!)} - ${across})`;
  });
  return [first, ...bends].join(' ');
}
