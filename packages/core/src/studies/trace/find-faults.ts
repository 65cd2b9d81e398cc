import { chiSquared99 } from '../meter/chi-squared.js';
import type { PlacedFault } from '../meter/meter-fence.js';
import type { Measured } from '../meter/settle.js';
import { placed } from './linear-scan.js';
import type { Located } from './locate.js';

/** A second fault is looked for where the readings lie further off than one time in a hundred, and taken at odds of a hundred. */
const secondOdds = Math.log(100);

/** A fault that was located, at its likeliest place and size. */
export interface Found {
  readonly located: Located;
  readonly fault: PlacedFault;
}

/** The likeliest hypothesis of a look. */
export function foundBy(located: Located): Found {
  const { candidate } = located.scores.hypotheses[located.scores.best]!;
  return { located, fault: placed(candidate, located.groups.ohms) };
}

/** The first fault, and a second where one alone does not fit; each then looked for again beside the other. */
export async function withSecond(
  first: Found,
  { values }: Measured,
  look: (base: readonly PlacedFault[], from: number, to: number) => Promise<Located>,
): Promise<readonly Found[]> {
  const n = values.length;
  if (n < 3 || first.located.logBayes < secondOdds || first.located.groups.misfit < chiSquared99(n)) return [first];
  let second = foundBy(await look([first.fault], 0.3, 0.4));
  if (second.located.logBayes < secondOdds) return [first];
  const again = foundBy(await look([second.fault], 0.4, 0.55));
  second = foundBy(await look([again.fault], 0.55, 0.7));
  return [again, second];
}
