import { formatNumber, formatPercent, formatVolts } from '@postvolt/core';
import type { Chance, ConditionSpread, PostSpread, SpreadResult } from '@postvolt/core/studies';
import type { Colours } from '../text/colours.js';
import { hang, plain, wrap } from '../text/lines.js';
import { table } from '../text/table.js';

interface Look {
  /** Every post, in place of the weakest of each run. */
  readonly all: boolean;
  readonly width: number;
  readonly colours: Colours;
}

/** Values and posts that a table shows where not all are asked for. */
const few = 8;

/** How sure the volts are, for a person: the answer, conditions side by side, then what matters and the posts of each. */
export function* showSpread(result: SpreadResult, look: Look): Generator<string> {
  const { colours, width } = look;
  yield `${wrap(result.sentence, width).map(colours.strong).join('\n')}\n\n`;
  const draws = `${formatNumber(result.draws, 6)} draws, seed ${result.seed}`;
  yield `${hang('', `${plain(result.title)}; target ${formatVolts(result.target.volts)} ${result.target.of} (${plain(result.target.label)}); ${draws}.`, width)}\n\n`;
  yield `${conditionTable(result, look)}\n`;
  if (result.conditions.length > 1)
    yield `${hang('', `In all ${result.conditions.length} conditions at once the target holds ${inDraws(result.chance)}.`, width)}\n`;
  for (const condition of result.conditions) {
    yield `\n${colours.strong(plain(condition.name))}\n`;
    yield `${mattersTable(condition, result, look)}\n\n`;
    yield `${postTable(condition, result, look)}\n`;
  }
  yield '\n';
  yield `${hang('', 'P10, P50, P90: 10, 50 and 90 of 100 draws lie below. The chances are those of the tables’ ranges, not of the weather or of faults.', width)}\n`;
}

/** `87 % (84 to 89 %)`. */
function chanceWords({ share, low, high }: Chance): string {
  if (share === 0 || share === 1) return share === 0 ? 'in no draw' : 'in all draws';
  const hundredths = (value: number) => Math.round(100 * value);
  return `${formatPercent(hundredths(share))} (${hundredths(low)} to ${hundredths(high)} %)`;
}

const inDraws = (chance: Chance): string =>
  chance.share === 0 || chance.share === 1 ? chanceWords(chance) : `in ${chanceWords(chance)} of draws`;

function conditionTable(result: SpreadResult, { width, colours }: Look): string {
  const rows = result.conditions.map(({ name, chance, weakest, weakestPosts }) => ({
    cells: [
      name,
      chanceWords(chance),
      formatVolts(weakest.p10),
      formatVolts(weakest.p50),
      formatVolts(weakest.p90),
      weakestPosts[0]!.id,
    ],
  }));
  return table(
    [
      { head: 'Condition', gives: true },
      { head: 'Target holds', align: 'right' },
      { head: 'P10', align: 'right' },
      { head: 'P50', align: 'right' },
      { head: 'P90', align: 'right' },
      { head: 'Weakest most often', gives: true },
    ],
    rows,
    { width, colours },
  );
}

function mattersTable(
  { influences }: ConditionSpread,
  { shareNoise }: SpreadResult,
  { all, width, colours }: Look,
): string {
  const clear = influences.filter(({ varianceShare }) => varianceShare >= shareNoise);
  const shown = all ? clear : clear.slice(0, few);
  if (shown.length === 0) return '  No uncertain value matters by itself.';
  const rows = shown.map(({ name, varianceShare, lowVolts, highVolts }) => ({
    cells: [formatPercent(Math.round(100 * varianceShare)), name, formatVolts(lowVolts), formatVolts(highVolts)],
  }));
  return table(
    [
      { head: 'Matters', align: 'right' },
      { head: 'Value', gives: true },
      { head: 'Where low', align: 'right' },
      { head: 'Where high', align: 'right' },
    ],
    rows,
    { width, indent: '  ', colours },
  );
}

function postTable(condition: ConditionSpread, { target }: SpreadResult, { all, width, colours }: Look): string {
  const volts = (post: PostSpread) => (target.of === 'to earth' ? post.voltsToEarth : post.animalVolts!);
  const posts = all ? condition.posts : weakestByRun(condition, (post) => volts(post).p50);
  const rows = posts.map((post) => {
    const { typical, p10, p50, p90 } = volts(post);
    return { cells: [post.id, ...[p10, p50, p90, typical].map(formatVolts)] };
  });
  const shown = table(
    [
      { head: 'Post', gives: true },
      { head: 'P10', align: 'right' },
      { head: 'P50', align: 'right' },
      { head: 'P90', align: 'right' },
      { head: 'All typical', align: 'right' },
    ],
    rows,
    { width, indent: '  ', colours },
  );
  const count = formatNumber(condition.posts.length, 7);
  const note = all
    ? `All ${count} posts.`
    : `${posts.length} of ${count} posts, the weakest of each run; --all shows every one.`;
  return `${shown}\n  ${note}`;
}

function weakestByRun({ posts }: ConditionSpread, volts: (post: PostSpread) => number): PostSpread[] {
  const weakest = new Map<string, PostSpread>();
  for (const post of posts) {
    const key = post.run ?? '';
    const held = weakest.get(key);
    if (held === undefined || volts(post) < volts(held)) weakest.set(key, post);
  }
  return [...weakest.values()].sort((a, b) => volts(a) - volts(b)).slice(0, few);
}
