import { formatLength, formatVolts } from '@postvolt/core';
import type { ConditionReach, ReachResult, ReachVariation } from '@postvolt/core/studies';
import type { Colours } from '../text/colours.js';
import { hang, plain, wrap } from '../text/lines.js';
import { table } from '../text/table.js';

interface Look {
  readonly width: number;
  readonly colours: Colours;
}

/** The longest fence for a person: the answer, condition by condition, then change by change. */
export function* showReach(result: ReachResult, look: Look): Generator<string> {
  const { colours, width } = look;
  yield `${wrap(result.sentence, width).map(colours.strong).join('\n')}\n\n`;
  yield `${plain(result.title)}; target ${formatVolts(result.target.volts)} ${result.target.of} (${plain(result.target.label)}).\n\n`;
  yield `${conditionTable(result, look)}\n\n`;
  yield* notes(result, look);
  if (result.variations.length === 0) return;
  const left = result.conditions.filter(({ id }) => !result.variationsIn.includes(id)).map(({ name }) => plain(name));
  if (left.length > 0)
    yield `${hang('  ', `Left out below, since no length satisfies it: ${left.join(', ')}.`, width)}\n\n`;
  yield `${variationTable(result, look)}\n`;
}

/** A length, or why there is none. */
function reachWords({ status, reachM }: Pick<ConditionReach, 'status' | 'reachM'>, { units }: ReachResult): string {
  if (status === 'never') return 'none';
  if (status === 'cut off') return 'cut off';
  return `${status === 'beyond' ? 'over ' : ''}${formatLength(reachM!, units, 2)}`;
}

const times = (factor: number | null): string => (factor === null ? '' : String(Number(factor.toPrecision(2))));

function conditionTable(result: ReachResult, { width, colours }: Look): string {
  const rows = result.conditions.map((condition) => ({
    cells: [
      condition.name,
      reachWords(condition, result),
      times(condition.factor),
      condition.weakestPost,
      formatVolts(condition.weakestVolts),
      formatVolts(condition.presentVolts),
    ],
    ...(condition.id === result.decides ? { style: colours.strong } : {}),
  }));
  return table(
    [
      { head: 'Condition', gives: true },
      { head: 'Holds up to', align: 'right' },
      { head: 'Times now', align: 'right' },
      { head: 'Weakest there', gives: true },
      { head: 'Volts', align: 'right' },
      { head: 'Now', align: 'right' },
    ],
    rows,
    { width, colours },
  );
}

/** Where a shorter fence falls short as well, and doubts that several conditions may share. */
function* notes({ conditions, units }: ReachResult, { width }: Look): Generator<string> {
  const length = (metres: number) => formatLength(metres, units, 2);
  for (const { name, holds } of conditions) {
    const first = holds[0];
    if (first === undefined || (holds.length === 1 && first.fromM < 0.01 * first.toM)) continue;
    const ranges = holds.map(({ fromM, toM }) => `${length(fromM)} to ${length(toM)}`).join(' and from ');
    yield `${hang('  ', `${plain(name)}: not at every shorter length; it holds from ${ranges}.`, width)}\n\n`;
  }
  const hints = conditions.flatMap(({ warnings }) => warnings.filter(({ code }) => shown.includes(code)));
  for (const hint of new Set(hints.map((issue) => issue.hint))) {
    const names = conditions.filter(({ warnings }) => warnings.some((issue) => issue.hint === hint));
    yield `${hang('  ', `${names.map(({ name }) => plain(name)).join(', ')}: ${hint}`, width)}\n\n`;
  }
}

/** Doubts about the volts of a long fence; others belong to `solve`. */
const shown: readonly string[] = ['long-clean-fence', 'beyond-curve'];

const heads: Readonly<Record<ReachVariation['kind'], string>> = {
  wire: 'Wire',
  'hot strands': 'Hot strands',
  'post spacing': 'Posts',
  'energizer place': 'Energizer',
};

function variationTable(result: ReachResult, { width, colours }: Look): string {
  const name = new Map(result.conditions.map((condition) => [condition.id, condition.name]));
  let last: ReachVariation['kind'] | null = null;
  const rows = result.variations.map((variation) => {
    const head = variation.kind === last ? '' : heads[variation.kind];
    last = variation.kind;
    return {
      cells: [
        head,
        `${variation.change}${variation.isPresent ? ' (as it is)' : ''}`,
        reachWords(variation, result),
        times(variation.factor),
        variation.decides === null ? '' : (name.get(variation.decides) ?? ''),
      ],
      ...(variation.isPresent ? { style: colours.strong } : {}),
    };
  });
  return table(
    [
      { head: 'Change' },
      { head: 'To', gives: true },
      { head: 'Holds up to', align: 'right' },
      { head: 'Times now', align: 'right' },
      { head: 'Decides', gives: true },
    ],
    rows,
    { width, colours },
  );
}
