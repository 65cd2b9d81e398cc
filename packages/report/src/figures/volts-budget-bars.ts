import { type ConditionResult, formatVolts, type PlanResult } from '@postvolt/core';
import { type FigureOptions, figure, figureWidth, isNarrow } from '../look/figure.js';
import { type BarRow, barRows } from './bar-rows.js';
import { targetWords } from './words.js';

/** What the bars of a volts budget are drawn from. */
export interface VoltsBudgetInput {
  readonly result: Pick<PlanResult, 'target'>;
  readonly condition: Pick<ConditionResult, 'name' | 'voltsBudget' | 'verdict'>;
}

/** The parts of a volts budget in the order of the way, with their names; those that take nothing are left out. */
export function budgetParts({ condition }: VoltsBudgetInput): { readonly name: string; readonly volts: number }[] {
  const { insideEnergizer, groundSystem, leadOut, wire } = condition.voltsBudget;
  return [
    { name: 'lost inside the energizer', volts: insideEnergizer },
    { name: 'lost in its ground system', volts: groundSystem },
    { name: 'lost in the lead-out', volts: leadOut },
    { name: 'lost along the wire', volts: wire },
  ].filter(({ volts }) => Math.abs(volts) >= 1);
}

/** Where the open-circuit volts go on the way to the weakest post: each loss hangs where the one before it ended. */
export function voltsBudgetBars(input: VoltsBudgetInput, options: FigureOptions = {}): string {
  const { result, condition } = input;
  const { openVolts, leftAtWeakest } = condition.voltsBudget;
  const parts = budgetParts(input);
  let level = openVolts;
  const losses = parts.map(({ name, volts }): BarRow => {
    const from = level;
    level -= volts;
    return { label: name, from, to: level, value: formatVolts(volts), role: 'barSoft' };
  });
  const left = `left at the weakest post, ${condition.verdict.weakest.postId}`;
  const rows: BarRow[] = [
    { label: 'open circuit', to: openVolts, value: formatVolts(openVolts) },
    ...losses,
    { label: left, to: leftAtWeakest, value: formatVolts(leftAtWeakest), bold: true },
  ];
  // The target is no mark on this scale where it speaks of volts across an animal.
  const mark = result.target.of === 'to earth' ? { at: result.target.volts, words: targetWords(result) } : null;
  const { drawing, height } = barRows(rows, {
    width: figureWidth(options),
    narrow: isNarrow(options),
    top: 4,
    ...(mark === null ? {} : { mark }),
  });
  const words = parts.map(({ name, volts }) => `${formatVolts(volts)} ${name}`).join(', ');
  return figure(
    {
      title: `Where the volts go in ${condition.name}`,
      description: `Of ${formatVolts(openVolts)} at open circuit ${words}; ${formatVolts(leftAtWeakest)} are ${left}.`,
    },
    height,
    options,
    drawing,
  );
}
