import { type ConditionResult, formatAmps, formatNumber, formatPercent, type LeakShare } from '@postvolt/core';
import { type FigureOptions, figure, figureWidth, isNarrow } from '../look/figure.js';
import { barRows } from './bar-rows.js';

/** What the bars of a leak budget are drawn from. */
export interface LeakBarsInput {
  readonly condition: Pick<ConditionResult, 'name' | 'leaks'>;
  /** Bars before the small ones are put together; default 8. */
  readonly most?: number;
}

/** Largest leaks, and the rest as one. */
export function shownLeaks(leaks: readonly LeakShare[], most = 8): readonly LeakShare[] {
  if (leaks.length <= most) return leaks;
  const rest = leaks.slice(most - 1);
  const sum = (of: (leak: LeakShare) => number) => rest.reduce((total, leak) => total + of(leak), 0);
  const others = {
    kind: 'others',
    cause: `${rest.length} smaller leaks`,
    amps: sum((l) => l.amps),
    percent: sum((l) => l.percent),
    places: sum((l) => l.places),
  };
  return [...leaks.slice(0, most - 1), others];
}

/** Leak budget: what takes how much of the current that leaves the hot strands, largest first. */
export function leakBars({ condition, most }: LeakBarsInput, options: FigureOptions = {}): string {
  const leaks = shownLeaks(condition.leaks, most);
  const { drawing, height } = barRows(
    leaks.map(({ cause, amps, percent, places }) => ({
      label: cause,
      note: `${formatNumber(places, 9)} ${places === 1 ? 'place' : 'places'}`,
      to: percent,
      value: `${formatPercent(percent)}, ${formatAmps(amps)}`,
    })),
    { width: figureWidth(options), narrow: isNarrow(options), top: 6 },
  );
  const first = leaks[0];
  const words = leaks.map(({ cause, percent }) => `${cause} ${formatPercent(percent)}`).join('; ');
  return figure(
    {
      title: `Where the current leaks in ${condition.name}`,
      description:
        first === undefined ? 'Nothing leaks.' : `Bars of each cause's share of the leak, largest first: ${words}.`,
    },
    height,
    options,
    drawing,
  );
}
