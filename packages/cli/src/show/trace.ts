import { formatChance, formatLength, formatOhms, formatPercent, formatVolts } from '@postvolt/core';
import type { NextReading, TracedFault, TraceResult } from '@postvolt/core/studies';
import type { Colours } from '../text/colours.js';
import { hang, plain, wrap } from '../text/lines.js';
import { table } from '../text/table.js';
import { reading, readingUnit } from './meter-reading.js';

interface Look {
  readonly width: number;
  readonly colours: Colours;
}

/** Stretches and causes that are listed. */
const [mostStretches, mostCauses] = [6, 4];

/** A trace for a person: the answer, where and what the fault is, where to read next, and the readings. */
export function* showTrace(result: TraceResult, look: Look): Generator<string> {
  const { colours, width } = look;
  const { verdict, faults, next, readings, condition, meterErrorPercent } = result;
  yield `${wrap(result.sentence, width).map(colours.strong).join('\n')}\n\n`;
  yield `${hang('', `${plain(result.title)}, ${plain(condition.name)}; ${readings.length} numbers read, meter off by ${formatPercent(meterErrorPercent)} (standard deviation). A fault that costs the weakest post 5 % or more: ${formatChance(result.faultChance)}.`, width)}\n`;
  if (readings.length > 0 && verdict !== 'no sign') {
    for (const [f, fault] of faults.entries()) {
      const head = faults.length > 1 ? `${f === 0 ? 'First' : 'Second'} fault` : 'Where it would be';
      yield `\n${colours.strong(verdict === 'fault' && faults.length === 1 ? 'Where it is' : head)}\n`;
      yield `${stretchTable(fault, result, look)}\n`;
      yield `${hang('  What: ', causes(fault), width)}\n`;
    }
  }
  if (next !== null) yield `\n${colours.strong('Where to read next')}\n${wordNext(next, width)}\n`;
  if (readings.length > 0) yield `\n${readingTable(result, look)}\n`;
  if (!result.fits)
    yield `\n${hang('', 'Neither the tables within their ranges nor the faults above explain these readings well: read those that are far off again, and look whether the plan is as the fence is.', width)}\n`;
}

function stretchTable({ stretches }: TracedFault, result: TraceResult, { width, colours }: Look): string {
  const shown = stretches.slice(0, mostStretches);
  const rows = shown.map(({ chance: share, name, posts, lengthM }) => ({
    cells: [
      formatChance(share),
      name,
      posts === 1 ? '1 post' : `${posts} posts`,
      lengthM === 0 ? '' : formatLength(lengthM, result.units, 2),
    ],
  }));
  const rest = stretches.slice(mostStretches);
  if (rest.length > 0) {
    const sum = rest.reduce((total, stretch) => total + stretch.chance, 0);
    rows.push({ cells: [formatChance(sum), `${rest.length} more stretches`, '', ''] });
  }
  const elsewhere = 1 - stretches.reduce((total, stretch) => total + stretch.chance, 0);
  rows.push({ cells: [formatChance(elsewhere), 'anywhere else', '', ''] });
  return table(
    [{ head: 'Chance', align: 'right' }, { head: 'Stretch', gives: true }, { head: 'Posts' }, { head: 'Length' }],
    rows,
    { width, indent: '  ', colours },
  );
}

function causes({ causes: all, kinds, ohms, cost }: TracedFault): string {
  const likely = all.slice(0, mostCauses).map(({ cause, chance: share }) => `${cause} (${formatChance(share)})`);
  const sizes = [ohms.low, ohms.typical, ohms.high];
  const isSeries = kinds.series > Math.max(kinds.leak, kinds.contact);
  const size =
    ohms.typical === null
      ? 'The wire is parted, or as good as.'
      : `${isSeries ? 'In series' : 'To earth'} about ${formatOhms(ohms.typical)} (${sizes
          .map((o) => (o === null ? 'parted' : formatOhms(o)))
          .filter((_, i) => i !== 1)
          .join(' to ')}).`;
  const costs = `It costs the weakest post ${formatPercent(100 * cost)} of its volts.`;
  return `${likely.length === 0 ? '' : `${likely.join(', ')}. `}${size} ${costs}`;
}

function wordNext({ post, strand, wireTo, bits, volts, amps }: NextReading, width: number): string {
  const wire =
    wireTo === null
      ? ''
      : ` Clamp the wire that leads to ${wireTo}${strand === 'all' ? ', every hot strand, and add the amps up' : ''}.`;
  const range = `${formatVolts(volts.low)} to ${formatVolts(volts.high)}`;
  const current = amps === null ? '' : ` and ${amps.low.toFixed(1)} to ${amps.high.toFixed(1)} A that way`;
  return hang(
    '  ',
    `Post ${post}.${wire} Foreseen: ${range}${current.replaceAll('-', '−')}. The reading should tell ${bits.toFixed(1)} bits of the place (1 bit halves what is left).`,
    width,
  );
}

function readingTable({ readings, verdict }: TraceResult, { width, colours }: Look): string {
  const withFault = verdict !== 'no sign';
  const rows = readings.map(({ post, kind, read, withoutFault, withFaults, off }) => ({
    cells: [
      post,
      readingUnit(kind),
      reading(kind, read),
      reading(kind, withoutFault),
      ...(withFault ? [reading(kind, withFaults), `${off < 0 ? '−' : '+'}${Math.abs(off).toFixed(1)} s.d.`] : []),
    ],
  }));
  return table(
    [
      { head: 'Post', gives: true },
      { head: '' },
      { head: 'Read', align: 'right' },
      { head: 'Without a fault', align: 'right' },
      ...(withFault
        ? ([
            { head: 'With it', align: 'right' },
            { head: 'Off by', align: 'right' },
          ] as const)
        : []),
    ],
    rows,
    { width, colours },
  );
}
