import { formatVolts, type VoltsBudget } from '@postvolt/core';

/** `9.5 kV open circuit; 1.6 kV lost inside the energizer, ..., 6.4 kV left at the weakest post.` */
export function wordBudget(budget: VoltsBudget, place: string): string {
  const parts = [
    [budget.insideEnergizer, 'lost inside the energizer'],
    [budget.groundSystem, 'in its ground system'],
    [budget.leadOut, 'in the lead-out'],
    [budget.wire, 'along the wire'],
  ] as const;
  const lost = parts
    .filter(([value]) => Math.abs(value) >= 1)
    .map(([value, where]) => `${formatVolts(value)} ${where}`);
  return `${formatVolts(budget.openVolts)} open circuit; ${[...lost, `${formatVolts(budget.leftAtWeakest)} left ${place}`].join(', ')}.`;
}
