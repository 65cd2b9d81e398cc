import type { FenceNetwork } from '../../network/network.js';

/** By parameter: 1 where the fence's own elements are made of it, or the touching animal where `withAnimal`. */
export function usedParameters(fence: FenceNetwork, withAnimal: boolean): Uint8Array {
  const recipes = new Set(fence.elements.recipe);
  if (withAnimal) {
    for (const byPost of fence.animalToEarth) for (const recipe of byPost) recipes.add(recipe);
    recipes.add(fence.animalBetweenStrands);
  }
  const used = new Uint8Array(fence.parameters.length);
  for (const recipe of recipes)
    for (const { powers } of fence.recipes[recipe]!.terms) for (const { parameter } of powers) used[parameter] = 1;
  for (const { volts, ohms } of fence.sparkGaps) used[volts] = used[ohms] = 1;
  return used;
}
