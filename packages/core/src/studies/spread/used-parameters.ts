import { openBy } from '../../network/elements.js';
import type { FenceNetwork } from '../../network/network.js';

/** By parameter: 1 where the fence's own elements are made of it, or the touching animal where `withAnimal`. */
export function usedParameters(fence: FenceNetwork, withAnimal: boolean): Uint8Array {
  const formulas = new Set(fence.elements.formula.filter((_, e) => fence.elements.open[e] === openBy.nothing));
  if (withAnimal) {
    for (const byPost of fence.animalToEarth) for (const formula of byPost) formulas.add(formula);
    formulas.add(fence.animalBetweenStrands);
  }
  const used = new Uint8Array(fence.parameters.length);
  for (const formula of formulas)
    for (const { powers } of fence.formulas[formula]!.terms) for (const { parameter } of powers) used[parameter] = 1;
  for (const { volts, ohms } of fence.sparkGaps) used[volts] = used[ohms] = 1;
  return used;
}
