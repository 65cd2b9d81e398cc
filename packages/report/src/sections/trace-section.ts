import {
  formatChance,
  formatLength,
  formatNumber,
  formatPercent,
  formatVolts,
  type ResolvedPlan,
} from '@postvolt/core';
import type { MeterReadings, TraceResult } from '@postvolt/core/studies';
import { faultCandidatesInput } from '../data/fault-figure.js';
import { faultCandidates } from '../figures/fault-candidates.js';
import type { ReportSection } from '../page/report.js';
import { numeric } from '../page/table.js';

/** What a fence meter's readings say of faults: where they may be, and where to read next. */
export function traceSection(plan: ResolvedPlan, readings: MeterReadings, traced: TraceResult): ReportSection {
  const { condition, faults, verdict, units } = traced;
  const isShown = verdict !== 'no sign' && traced.readings.length > 0;
  return {
    title: 'What the meter says',
    lead: traced.sentence,
    figures: isShown
      ? [
          {
            caption: `Where the fault may be in ${condition.name}, likeliest first, and what was read`,
            draw: (options) => faultCandidates(faultCandidatesInput(plan, traced, readings), options),
          },
        ]
      : [],
    tables: [
      ...(isShown ? faults : []).map(({ stretches, cost }, f) => ({
        caption: `${faults.length === 1 ? 'The fault' : f === 0 ? 'The first fault' : 'The second fault'}, which costs the weakest post ${formatPercent(100 * cost)} of its volts`,
        columns: [{ head: 'Stretch' }, numeric('Chance'), numeric('Posts'), numeric('Length')],
        rows: stretches.map(({ name, chance, posts, lengthM }) => [
          name,
          formatChance(chance),
          formatNumber(posts, 7),
          lengthM === 0 ? '' : formatLength(lengthM, units, 2),
        ]),
      })),
      {
        caption: `Readings in ${condition.name}`,
        columns: [
          { head: 'Post' },
          numeric('Read'),
          numeric('Without a fault'),
          ...(isShown ? [numeric('With it')] : []),
        ],
        rows: traced.readings.map(({ post, kind, read, withoutFault, withFaults }) => [
          post,
          wordReading(kind, read),
          wordReading(kind, withoutFault),
          ...(isShown ? [wordReading(kind, withFaults)] : []),
        ]),
      },
    ].filter(({ rows }) => rows.length > 0),
  };
}

const wordReading = (kind: 'volts' | 'amps', value: number): string =>
  kind === 'volts' ? formatVolts(value) : `${value.toFixed(1).replace('-', '−')} A`;
