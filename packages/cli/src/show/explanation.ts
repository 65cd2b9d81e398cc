import {
  type ExplainedPart,
  type Explanation,
  formatAmps,
  formatOhms,
  formatPercent,
  formatVolts,
  rangeFigures as range,
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
    yield `${partTable(explanation.parts, options)}\n`;
    yield `${hang('  ', 'Share: of all that leaks, or of the volts lost on the way here.', width)}\n\n`;
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

/** Each value once, behind the numbers of the parts that stand on it. */
function* inputsOf(
  parts: readonly ExplainedPart[],
  { width, colours }: { width: number; colours: Colours },
): Generator<string> {
  const used = new Map<string, number[]>();
  for (const [i, { inputs }] of parts.entries()) {
    for (const input of inputs) {
      const words = wordInput(input);
      used.set(words, [...(used.get(words) ?? []), i + 1]);
    }
  }
  yield `${colours.strong('Where the values come from')}\n`;
  for (const [words, numbers] of used) {
    const lead = `  ${numbers.join(', ')}: `;
    yield `${hang(lead, words, width)}\n`;
  }
}

/** `nail-on claw, form factor: 1.6 (0.95 to 1.9); insulators: nail-on claw; derived; IEC 60507 ...` */
function wordInput(input: ExplainedPart['inputs'][number]): string {
  const { low, typical, high, unit } = range(input);
  const spread = input.low < input.high ? ` (${low} to ${high})` : '';
  const memory = input.fromMemory ? ', from memory' : '';
  return `${input.name}: ${`${typical}${spread} ${unit}`.trim()}; from ${input.from}; ${input.basis}: ${input.source}${memory}`;
}
