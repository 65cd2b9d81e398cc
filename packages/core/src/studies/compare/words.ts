import { formatVolts } from '../../quantity/format.js';
import { formatMoney } from '../materials/format-money.js';
import type { CompareResult, VariantResult } from './result.js';

/** The answer of `compare` in one sentence. */
export function compareSentence({ variants, target, currency, years }: Omit<CompareResult, 'sentence'>): string {
  const [present, ...others] = variants as [VariantResult, ...VariantResult[]];
  const goal = `${formatVolts(target.volts)} for ${target.label}`;
  const now = `As it is the weakest post has ${formatVolts(present.leastVolts)} in ${conditionName(present)}, which ${present.holds ? 'holds' : 'falls short of'} ${goal}`;
  if (others.length === 0) return years === null ? `${now}.` : `${now}; ${yearsClause(years, currency)}.`;
  const best = others.reduce((a, b) => (b.leastVolts > a.leastVolts ? b : a));
  if (best.wonVolts < 1) return `${now}; none of the ${others.length} variants gives it more.`;
  const dearer = best.costDifference.typical;
  const cost =
    Math.abs(dearer) < 0.5
      ? 'for no more materials'
      : `for ${formatMoney({ ...best.costDifference, typical: Math.abs(dearer) }, currency)} ${dearer > 0 ? 'more' : 'less'} in materials`;
  return `${now}; of ${others.length} variant${others.length === 1 ? '' : 's'} "${best.name}" gives it most, ${formatVolts(best.leastVolts)} (${best.holds ? 'holds' : 'falls short'}), ${cost}.`;
}

const conditionName = ({ conditions, worst }: VariantResult): string => conditions.find(({ id }) => id === worst)!.name;

function yearsClause({ series, years }: NonNullable<CompareResult['years']>, currency: string): string {
  const best = series.reduce((a, b) => (b.leastVolts > a.leastVolts ? b : a));
  return `over ${years} years "${best.name}" keeps most, ${formatVolts(best.leastVolts)} at the least, for ${formatMoney(best.costPerYear, currency)} a year`;
}
