import { formatPercent, formatSignedVolts, formatVolts } from '@postvolt/core';
import { type CompareResult, formatAmount, type InsulatorYears, type VariantResult } from '@postvolt/core/studies';
import type { Colours } from '../text/colours.js';
import { hang, plain, wrap } from '../text/lines.js';
import { table } from '../text/table.js';

interface Look {
  readonly width: number;
  readonly colours: Colours;
}

/** Variants side by side for a person: the answer, one line a variant, each condition, then the years. */
export function* showCompare(result: CompareResult, look: Look): Generator<string> {
  const { colours, width } = look;
  yield `${wrap(result.sentence, width).map(colours.strong).join('\n')}\n\n`;
  yield `${plain(result.title)}; target ${formatVolts(result.target.volts)} ${result.target.of} (${plain(result.target.label)}).\n\n`;
  yield `${variantTable(result, look)}\n\n`;
  yield `${hang('  ', `Costs are of materials in ${result.currency}, over the plan as it is; a year’s cost is of the whole fence, with replacements.`, width)}\n\n`;
  yield `${colours.strong('By condition')}\n${conditionTable(result, look)}\n`;
  if (result.years !== null) yield* showYears(result.years, result, look);
}

/** How to write into the plan the variant that gives most, where it was asked for in so many words; else nothing. */
export function showChangeHint(
  { variants }: CompareResult,
  path: string,
  asked: readonly string[],
  width: number,
): string {
  const best = variants.reduce((a, b) => (b.leastVolts > a.leastVolts ? b : a));
  if (best.isPresent || best.wonVolts < 1 || !asked.includes(best.name)) return '';
  const quoted = (word: string) => (/^[\w./-]+$/.test(word) ? word : `"${word.replaceAll('"', '\\"')}"`);
  // The command stays on one line, so that it can be copied.
  const command = plain(`postvolt change ${quoted(path)} --with ${quoted(best.name)} -o FILE`);
  return `\n${wrap(`To have "${best.name}" in the plan:`, width).join('\n')}\n  ${command}\n`;
}

const signed = (amount: number): string =>
  Math.abs(amount) < 0.5 ? '0' : `${amount > 0 ? '+' : ''}${formatAmount(amount)}`;

function variantTable({ variants }: CompareResult, { width, colours }: Look): string {
  const rows = variants.map((variant) => {
    const { name, leastVolts, wonVolts, holds, isPresent, costDifference, costPerYear } = variant;
    return {
      cells: [
        name,
        formatVolts(leastVolts),
        isPresent ? '' : formatSignedVolts(wonVolts),
        holds ? 'holds' : 'short',
        worstLeak(variant),
        isPresent ? '' : signed(costDifference.typical),
        formatAmount(costPerYear.typical),
      ],
      ...(isPresent ? { style: colours.strong } : {}),
    };
  });
  return table(
    [
      { head: 'Variant', gives: true },
      { head: 'Least', align: 'right' },
      { head: 'Won', align: 'right' },
      { head: '' },
      { head: 'Largest leak', gives: true },
      { head: 'Cost', align: 'right' },
      { head: 'A year', align: 'right' },
    ],
    rows,
    { width, colours },
  );
}

function worstLeak({ conditions, worst }: VariantResult): string {
  const [leak] = conditions.find(({ id }) => id === worst)!.leaks;
  return leak === undefined ? '' : `${leak.cause} ${formatPercent(leak.percent)}`;
}

function conditionTable({ variants }: CompareResult, { width, colours }: Look): string {
  const rows = variants.flatMap(({ name, conditions }) =>
    conditions.map(({ name: condition, weakest, marginVolts }, i) => ({
      cells: [
        i === 0 ? name : '',
        condition,
        weakest.postId,
        formatVolts(weakest.compared),
        formatSignedVolts(marginVolts),
      ],
    })),
  );
  return table(
    [
      { head: 'Variant', gives: true },
      { head: 'Condition', gives: true },
      { head: 'Weakest post', gives: true },
      { head: 'Volts', align: 'right' },
      { head: 'Margin', align: 'right' },
    ],
    rows,
    { width, colours },
  );
}

function* showYears(years: InsulatorYears, result: CompareResult, { width, colours }: Look): Generator<string> {
  const { variants, currency } = result;
  const condition = variants[0]!.conditions.find(({ id }) => id === years.condition)!.name;
  yield `\n${colours.strong(`Insulators through ${years.years} years, in ${plain(condition)}`)}\n`;
  const marks = [0, ...[0.3, 0.6, 1].map((part) => Math.round(part * years.years))];
  const shown = [...new Set(marks)];
  const rows = years.series.map(({ name, points, leastVolts, meanVolts, fallsShortIn, costPerYear }) => ({
    cells: [
      name,
      ...shown.map((year) => formatVolts(points[year]!.volts)),
      formatVolts(leastVolts),
      formatVolts(meanVolts),
      fallsShortIn === null ? 'never' : String(fallsShortIn),
      formatAmount(costPerYear.typical),
    ],
  }));
  const number = (head: string) => ({ head, align: 'right' as const });
  yield `${table(
    [
      { head: 'Insulators', gives: true },
      ...shown.map((year) => number(year === 0 ? 'New' : `Yr ${year}`)),
      number('Least'),
      number('Mean'),
      number('Short'),
      number('Cost'),
    ],
    rows,
    { width, colours },
  )}\n\n`;

  yield `${hang('  ', `Volts at the end of each year, before what is then replaced; short: the first year that does not hold; cost a year in ${currency}, of insulators and their replacement alone. How they age is an estimate.`, width)}\n`;
}
