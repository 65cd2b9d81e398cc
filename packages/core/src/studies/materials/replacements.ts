import type { Money } from './price-list.js';

/** Years at whose start a thing is replaced, when it lasts so long and is wanted for so many years: multiples of its life. */
export function replacementYears(serviceYears: number, years: number): number[] {
  const count = Math.max(0, Math.ceil(years / serviceYears - 1e-9) - 1);
  return Array.from({ length: count }, (_, n) => (n + 1) * serviceYears);
}

/** Cost of the replacements: low where things last longest and cost least. */
export function replacementCost(each: Money, serviceYears: Money, years: number): Money {
  const at = (money: number, life: number) => money * replacementYears(life, years).length;
  return {
    low: at(each.low, serviceYears.high),
    typical: at(each.typical, serviceYears.typical),
    high: at(each.high, serviceYears.low),
  };
}
