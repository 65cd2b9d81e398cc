import {
  type ExplainedPart,
  type Explanation,
  formatAmps,
  formatOhms,
  formatPercent,
  formatVolts,
} from '@postvolt/core';
import type { Colours } from '../text/colours.js';
import { hang, plain, wrap } from '../text/lines.js';
import { table } from '../text/table.js';
import { wordBudget } from './volts-budget.js';

/** Why a post reads what it reads, for a person: the sentence, each resistance, and where each value comes from. */
export function* showExplanations(
  explanations: readonly Explanation[],
  options: { readonly width: number; readonly colours: Colours; readonly conditionName: (id: string) => string },
): Generator<string> {
  const { width, colours } = options;
  for (const [i, explanation] of explanations.entries()) {
    if (i > 0) yield '\n';
    yield `${wrap(explanation.sentence, width).map(colours.strong).join('\n')}\n\n`;
    yield `${colours.strong(`${plain(explanation.postId)} in ${plain(options.conditionName(explanation.condition))}`)}\n`;
    yield `${strandTable(explanation, options)}\n`;
    yield `${hang('  Volts  ', wordBudget(explanation.voltsBudget, 'here'), width)}\n\n`;
    yield `${partTable(explanation.parts, options)}\n\n`;
    yield* inputsOf(explanation.parts, options);
  }
}

function strandTable({ post }: Explanation, { width, colours }: { width: number; colours: Colours }): string {
  const rows = post.strands.map((strand) => ({
    cells: [
      strand.strand,
      strand.status,
      formatVolts(strand.voltsToEarth),
      formatVolts(strand.animalVolts),
      formatAmps(strand.animalAmps),
      formatOhms(strand.sourceOhms),
      formatAmps(strand.leakAmps),
    ],
  }));
  return table(
    [
      { head: 'Strand', gives: true },
      { head: '' },
      { head: 'To earth', align: 'right' },
      { head: 'On animal', align: 'right' },
      { head: 'Through it', align: 'right' },
      { head: 'Source', align: 'right' },
      { head: 'Leak', align: 'right' },
    ],
    rows,
    { width, indent: '  ', colours },
  );
}

function partTable(parts: readonly ExplainedPart[], { width, colours }: { width: number; colours: Colours }): string {
  const rows = parts.map((part, i) => ({
    cells: [
      String(i + 1),
      part.what,
      formatOhms(part.ohms),
      part.lowOhms < part.highOhms ? `${formatOhms(part.lowOhms)} to ${formatOhms(part.highOhms)}` : '',
      formatVolts(part.volts),
      formatAmps(part.amps),
      formatPercent(part.percent),
    ],
  }));
  return table(
    [
      { head: '', align: 'right' },
      { head: 'Resistance of', gives: true },
      { head: 'Ohms', align: 'right' },
      { head: 'Range' },
      { head: 'Volts', align: 'right' },
      { head: 'Amps', align: 'right' },
      { head: 'Share', align: 'right' },
    ],
    rows,
    { width, indent: '  ', colours },
  );
}

function* inputsOf(
  parts: readonly ExplainedPart[],
  { width, colours }: { width: number; colours: Colours },
): Generator<string> {
  yield `${colours.strong('Where the values come from')}\n`;
  for (const [i, { inputs }] of parts.entries()) {
    for (const input of inputs) {
      const figure = (value: number) => Number(value.toPrecision(3)).toString();
      const unit = input.unit === '1' ? '' : ` ${input.unit}`;
      const range = input.low < input.high ? ` (${figure(input.low)} to ${figure(input.high)})` : '';
      const memory = input.fromMemory ? ', from memory' : '';
      const words = `${input.name} ${figure(input.typical)}${range}${unit}; ${input.from}; ${input.basis}: ${input.source}${memory}`;
      yield `${hang(`  ${String(i + 1).padStart(2)}  `, words, width)}\n`;
    }
  }
}
