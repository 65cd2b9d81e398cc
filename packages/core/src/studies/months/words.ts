import { formatVolts } from '../../quantity/format.js';
import type { MonthResult, MonthsResult } from './result.js';

/** Months as `March to May`, `July`, or `March, May and July`; `months` are positions in the year. */
export function wordMonths(names: readonly string[], months: readonly number[]): string {
  const isIn = new Set(months);
  const starts = months.filter((m) => !isIn.has((m + 11) % 12));
  if (starts.length === 0) return 'every month';
  const stretches = starts.map((start) => {
    let end = start;
    while (isIn.has((end + 1) % 12)) end = (end + 1) % 12;
    return end === start ? names[start]! : `${names[start]} to ${names[end]}`;
  });
  return stretches.length === 1 ? stretches[0]! : `${stretches.slice(0, -1).join(', ')} and ${stretches.at(-1)}`;
}

/** The year in a sentence: holds or not, the worst month, its cause, and the best month. */
export function monthsSentence(result: Omit<MonthsResult, 'sentence'>): string {
  const { months, target, holds, cause } = result;
  const names = months.map(({ month }) => month);
  const worst = months.find(({ month }) => month === result.worst)!;
  const best = months.find(({ month }) => month === result.best)!;
  const what = `${formatVolts(target.volts)} for ${target.label}`;
  const short = months.flatMap((month, i) => (month.holds ? [] : [i]));
  const verdict = holds ? `holds ${what} all year` : `falls short of ${what} in ${wordMonths(names, short)}`;
  const across = target.of === 'to earth' ? '' : ' across the animal';
  const { condition, weakest } = worst.weathers[0]!;
  const why =
    cause.volts < evenShare * worst.volts ? '' : `, where ${formatVolts(cause.volts)} are lost to ${cause.cause}`;
  const low = `${worst.month} is the worst month, with ${formatVolts(worst.volts)}${across} at ${weakest.postId} (${condition.name})${why}`;
  const flat = worst.volts >= best.volts * (1 - evenShare);
  const high = flat
    ? 'the other months are much the same'
    : `${best.month} is the best, with ${formatVolts(best.volts)}`;
  return `The fence ${verdict}: ${low}; ${high}.`;
}

/** Months that differ by less are much the same: less than a fence meter tells apart. */
const evenShare = 0.02;

/** Says where the ground starves the animal, which volts to earth do not show. */
export function starvedNotes(of: MonthsResult['target']['of'], months: readonly MonthResult[]): string[] {
  if (of === 'across the animal') return [];
  const starved = months.flatMap((month, i) => (month.weathers.some(({ starves }) => starves) ? [i] : []));
  const weathers = months.flatMap((month) => month.weathers.filter(({ starves }) => starves));
  if (weathers.length === 0) return [];
  const least = weathers.reduce((a, b) => (b.weakest.animalVolts < a.weakest.animalVolts ? b : a));
  const names = [...new Set(weathers.map(({ condition }) => condition.name))].join(', ');
  const when = wordMonths(
    months.map(({ month }) => month),
    starved,
  );
  const { animalVolts, voltsToEarth } = least.weakest;
  return [
    `In ${when} the ground starves the animal (${names}): as little as ${formatVolts(animalVolts)} across it where the wire has ${formatVolts(voltsToEarth)}. A grounded strand beside the hot one gives the current a better way back.`,
  ];
}
