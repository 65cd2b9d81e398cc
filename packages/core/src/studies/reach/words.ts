import { formatLength, formatVolts } from '../../quantity/format.js';
import { wordConditions } from '../../result/words.js';
import type { ConditionReach, ReachResult } from './result.js';

/** The answer of `reach` in one sentence. */
export function reachSentence(result: Omit<ReachResult, 'sentence'>): string {
  const { conditions, target, units, run, presentM, reachM, factor, decides } = result;
  // Two digits: the tables support no more.
  const length = (metres: number) => formatLength(metres, units, 2);
  const stretched = run === null ? 'The fence' : `Run ${run}`;
  const holding = `${formatVolts(target.volts)} for ${target.label}`;
  const every = wordConditions(conditions);
  const deciding = conditions.find(({ id }) => id === decides);
  if (deciding === undefined)
    return `${stretched} can be ${length(result.mostM)} long, the longest that was looked at, and the fence still holds ${holding} in ${every}.`;
  const atNone = `At no length ${run === null ? '' : `of run ${run} `}does the fence hold ${holding} in ${deciding.name}`;
  if (deciding.status === 'cut off') return `${atNone}: a fault cuts posts off from the energizer.`;
  if (reachM === null || factor === null)
    return `${atNone}: however short, its weakest post, ${deciding.weakestPost}, has ${formatVolts(deciding.weakestVolts)}.`;
  const times = `${length(reachM)} ${run === null ? 'in all' : 'long'}, ${wordFactor(factor)} its present ${formatLength(presentM, units)}`;
  const decided = conditions.length === 1 ? '' : `; ${deciding.name} decides`;
  return `${stretched} can be ${times}, and the fence still holds ${holding} in ${every}${decided}${gapWords(deciding, length)}.`;
}

/** `1.4 times`, `0.6 of`. */
function wordFactor(factor: number): string {
  const figure = Number(factor.toPrecision(2));
  return factor < 1 ? `${figure} of` : `${figure} times`;
}

/** Says where a shorter fence falls short too. */
function gapWords({ holds }: ConditionReach, length: (metres: number) => string): string {
  if (holds.length === 1 && holds[0]!.fromM < 0.01 * holds[0]!.toM) return '';
  const ranges = holds.map(({ fromM, toM }) => `${length(fromM)} to ${length(toM)}`);
  return ` (not at every shorter length: it holds from ${ranges.join(' and from ')})`;
}
