import { formatLength, formatOhms, formatPercent } from '../../quantity/format.js';
import type { NextReading, TracedFault, TraceResult } from './result.js';

type Traced = Omit<TraceResult, 'sentence'>;

/** A chance as people say it: `9 in 10`, `over 99 in 100`. */
export function wordChance(chance: number): string {
  if (chance > 0.99) return 'over 99 in 100';
  if (chance < 0.01) return 'under 1 in 100';
  return `${Math.round(100 * chance)} in 100`;
}

const kindWords = { leak: 'a leak', series: 'a fault in the wire', contact: 'strands touching' } as const;

/** The likeliest kind with its size: `a leak of about 110 Ω`, `a parted wire`. */
export function wordFault({ kinds, ohms }: TracedFault): string {
  const kind = likeliestKind(kinds);
  if (kind === 'series' && ohms.typical === null) return 'a parted wire';
  const size = ohms.typical === null ? '' : ` of about ${formatOhms(ohms.typical)}`;
  if (kind === 'series') return `a bad joint${size}`;
  return `${kindWords[kind]}${size}`;
}

export function likeliestKind(kinds: TracedFault['kinds']): keyof TracedFault['kinds'] {
  const order = ['leak', 'series', 'contact'] as const;
  return order.reduce((best, kind) => (kinds[kind] > kinds[best] ? kind : best));
}

/** `between north/12 and north/19 (0.2 mi)`; the first stretches where there are several. */
export function wordPlace({ stretches }: TracedFault, units: TraceResult['units']): string {
  const shown = stretches.slice(0, 2).map(({ name, lengthM }) => {
    if (lengthM === 0) return `at ${name}`;
    return `in ${name} (${formatLength(lengthM, units, 2)})`;
  });
  const more = stretches.length - shown.length;
  const rest = more > 0 ? `, or in ${more} more stretch${more === 1 ? '' : 'es'}` : '';
  return `${shown.join(' or ')}${rest}`;
}

/** Where to read next, as an order. */
export function wordNext({ post, strand, wireTo }: NextReading): string {
  if (wireTo === null) return `read kV next at ${post}`;
  return `read kV next at ${post}, and amps ${strand === 'all' ? 'of all hot strands added up' : ''} on the wire to ${wireTo}`.replace(
    '  ',
    ' ',
  );
}

/** The answer in a sentence. */
export function traceSentence({ verdict, faultChance, faults, next, units, readings }: Traced): string {
  const goOn = next === null ? '' : `; ${wordNext(next)}`;
  const first = faults[0];
  if (readings.length === 0) return `Nothing was read yet${goOn}.`;
  if (verdict === 'no sign' || first === undefined)
    return `The readings show no sign of a fault that matters (chance ${wordChance(faultChance)})${verdict === 'no sign' ? '' : goOn}.`;
  if (verdict === 'open')
    return `The readings leave open whether there is a fault (chance ${wordChance(faultChance)})${goOn}.`;
  const share = formatPercent(100 * first.fenceShare);
  const where = `${wordPlace(first, units)}, ${share} of the fence`;
  const second = faults[1];
  const also = second === undefined ? '' : `; a second, ${wordFault(second)}, ${wordPlace(second, units)}`;
  const end = next === null ? '; go and look' : goOn;
  return `There is a fault (${wordChance(faultChance)}): ${wordFault(first)} ${where}${also}${end}.`;
}
