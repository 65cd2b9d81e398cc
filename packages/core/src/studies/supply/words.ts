import { formatVolts } from '../../quantity/format.js';
import type { LeastOutput, SupplyResult } from './result.js';

/** The answer of `supply` in one sentence. */
export function supplySentence(result: Omit<SupplyResult, 'sentence'>): string {
  const { target, present, leastOutput, conditions, leastRods, mostRods } = result;
  const holding = `${formatVolts(target.volts)} for ${target.label}`;
  const ground = present.rods === null ? 'its measured ground' : `its ${wordRods(present.rods)}`;
  const { name, cutOff } = conditions.find(({ id }) => id === leastOutput.decides)!;
  if (leastOutput.voltsAt500 === null) {
    const why = cutOff ? 'a fault cuts posts off from the energizer' : 'the weakest post gets nothing of it';
    return `No output holds ${holding} in ${name}: ${why}.`;
  }
  if (present.holds) {
    const spare =
      leastRods !== null && present.rods !== null && leastRods < present.rods
        ? `, or ${wordRods(leastRods)} with the energizer it has`
        : '';
    return `The energizer's ${formatVolts(present.voltsAt500)} at 500 Ω holds ${holding} on ${ground}; ${wordOutput(leastOutput)} would do${spare}, decided by ${name}.`;
  }
  const rods =
    leastRods === null
      ? `no number of rods up to ${mostRods} makes the energizer that it has enough`
      : `the energizer that it has is enough with ${wordRods(leastRods)}`;
  return `To hold ${holding} on ${ground} the fence needs ${needed(result)} in place of ${formatVolts(present.voltsAt500)} at 500 Ω, decided by ${name}; ${rods}.`;
}

export const wordRods = (count: number): string => `${count} rod${count === 1 ? '' : 's'}`;

/** A generic class as it is said: `12 J`. */
export const wordClass = (id: string): string => id.replace(/ j$/, ' J');

/** `7.7 kV at 500 Ω (a 12 J)`; beyond the tables no figure that an energizer could have. */
function wordOutput({ voltsAt500, class: smallest }: LeastOutput): string {
  const kind = smallest === null ? 'no generic class does' : `generic class ${wordClass(smallest)}`;
  return `${formatVolts(voltsAt500!)} at 500 Ω (${kind})`;
}

function needed({ leastOutput, classes }: Omit<SupplyResult, 'sentence'>): string {
  if (!leastOutput.beyondTables) return wordOutput(leastOutput);
  const largest = classes.at(-1)!;
  const kind =
    leastOutput.class === null ? 'no generic class does' : `generic class ${wordClass(leastOutput.class)} does`;
  return `more on its own curve than any known energizer gives, ${formatVolts(largest.voltsAt500.high)} at 500 Ω at the most (${kind}),`;
}
