import type { ResolvedPlan } from '../../plan/resolved.js';
import { formatLength, formatNumber } from '../../quantity/format.js';
import { formatMoney, formatMoneyRange } from './format-money.js';
import type { MaterialLine, MaterialsResult } from './result.js';

/** The answer of `materials` in one sentence. */
export function materialsSentence(result: Omit<MaterialsResult, 'sentence'>): string {
  const { lines, units, cost, currency, lifeCycle } = result;
  const of = (group: MaterialLine['group']) => lines.filter((line) => line.group === group);
  const sum = (some: readonly MaterialLine[]) => some.reduce((total, { need }) => total + need, 0);
  const wire = of('wire');
  const coils = wire.reduce((total, line) => total + (line.coils?.count ?? 0), 0);
  const parts = [
    `${formatLength(sum(wire), units)} of wire and cable${coils > 0 ? ` (${count(coils, 'coil')})` : ''}`,
    count(sum(of('posts')), 'line post'),
    count(sum(of('ends and corners')), 'end or corner', 'ends and corners'),
    count(sum(of('insulators')), 'insulator'),
  ];
  return `The fence takes ${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}: about ${formatMoney(cost, currency)} (${formatMoneyRange(cost)}) to buy, and ${formatMoney(lifeCycle.costPerYear, currency)} a year over ${formatNumber(lifeCycle.years, 3)} years.`;
}

const count = (n: number, one: string, many = `${one}s`): string => `${formatNumber(n, 7)} ${n === 1 ? one : many}`;

/** What the list leaves out or takes for granted. */
export function materialsNotes(plan: ResolvedPlan, lines: readonly MaterialLine[]): string[] {
  const notes: string[] = [];
  const invented = lines.filter(({ price }) => price !== null && price.basis !== 'entered').length;
  if (invented > 0)
    notes.push(
      `${invented} of ${lines.length} prices are invented default rates: put your own in the plan under \`prices\`.`,
    );
  if (plan.energizer.ground.kind === 'measured')
    notes.push('The ground system was measured, so its rods are not in the list.');
  if (plan.gates.length > 0) notes.push('The gates themselves are not in the list, only their ends and cables.');
  if (plan.energizer.row === null) notes.push('The energizer is no class of the table, so it has no price here.');
  return notes;
}

/** What the plan takes of a line, in the plan's units: `4.2 mi`, `84`. */
export const wordNeed = ({ per, need }: MaterialLine, units: MaterialsResult['units']): string =>
  per === 'metre' ? formatLength(need, units) : formatNumber(need, 7);

/** What is to be bought of a line: `3 × 4,000 ft` of coils, `120 ft` of cable, `84`. */
export function wordBought({ coils, per, buy }: MaterialLine, units: MaterialsResult['units']): string {
  if (coils !== null) return `${coils.count} × ${formatLength(coils.coilM, units)}`;
  return per === 'metre' ? formatLength(buy, units) : formatNumber(buy, 7);
}
