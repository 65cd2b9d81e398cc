import { formatVolts, type PlanResult } from '@postvolt/core';
import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import { type FigureOptions, figure, figureWidth, isNarrow, label } from '../look/figure.js';
import { lineAttributes, lineMark, lineStyle } from '../look/line-style.js';
import { paint } from '../look/theme.js';
import { el } from '../markup/element.js';
import { conditionKey } from './condition-key.js';
import { bottomTicks, niceScale, type Plot, targetLine, voltsAxis } from './scales.js';
import { targetWords, voltsName } from './words.js';

/** Volts at the weakest post year by year with one choice, such as one kind of insulator. */
export interface YearSeries {
  readonly label: string;
  readonly points: readonly { readonly year: number; readonly volts: number }[];
  /** Years at whose start the part is replaced. */
  readonly replacedIn?: readonly number[];
}

/** What volts year by year are drawn from. */
export interface YearLinesInput {
  readonly title?: string;
  readonly target: PlanResult['target'];
  readonly series: readonly YearSeries[];
}

/** Year by year: a line for each choice, with an open ring in the years in which it is replaced. */
export function yearLines(input: YearLinesInput, options: FigureOptions = {}): string {
  const narrow = isNarrow(options);
  const width = figureWidth(options);
  const series = input.series.filter(({ points }) => points.length > 0);
  const key = conditionKey(
    series.map((item, i) => ({ style: lineStyle(i), name: item.label, note: endWords(item) })),
    narrow ? width - 16 : 172,
  );
  const top = narrow ? key.height + 44 : 40;
  const plot: Plot = { left: 40, right: narrow ? width - 12 : width - 190, top, bottom: top + (narrow ? 220 : 270) };
  const points = series.flatMap((item) => item.points);
  const years = points.map(({ year }) => year);
  const [first, last] = [Math.min(...years, 0), Math.max(...years, 1)];
  const x = scaleLinear([first, last], [plot.left, plot.right]);
  const volts = points.map((point) => point.volts);
  const y = niceScale(Math.min(0, ...volts), Math.max(input.target.volts, ...volts), [plot.bottom, plot.top], 5);
  const path = line<{ year: number; volts: number }>(
    (point) => x(point.year),
    (point) => y(point.volts),
  ).digits(1);
  const ends = series.map((item) => item.points.at(-1)!);
  return figure(
    {
      title: input.title ?? 'Year by year',
      description: `Volts ${voltsName(input)} at the weakest post by year of service: ${series.map((item) => `${item.label} ${endWords(item)}`).join('; ')}. ${targetWords(input)}.`,
    },
    plot.bottom + 50,
    options,
    voltsAxis(y, plot, `kV ${voltsName(input)} at the weakest post`),
    bottomTicks(x, plot, (tick) => (Number.isInteger(tick) ? String(tick) : '')),
    label('years of service', plot.left, plot.bottom + 38, { role: 'soft' }),
    series.map((item, i) => el('path', { d: path([...item.points]) ?? '', ...lineAttributes(lineStyle(i), 2.2) })),
    // Over the lines, so that its words stay readable.
    targetLine(y, input.target.volts, targetWords(input), plot),
    series.map((item, i) =>
      (item.replacedIn ?? []).flatMap((year) => {
        const at = item.points.find((point) => point.year === year);
        if (at === undefined) return [];
        const { role } = lineStyle(i);
        const ring = el('circle', {
          cx: x(year),
          cy: y(at.volts),
          r: 5,
          'stroke-width': 2,
          ...paint({ fill: 'paper', stroke: role }),
        });
        return [el('g', {}, el('title', {}, `${item.label} replaced in year ${year}`), ring)];
      }),
    ),
    ends.map((end, i) => lineMark(lineStyle(i), x(end.year), y(end.volts), 64)),
    narrow
      ? el('g', { transform: 'translate(8 4)' }, key.stacked())
      : key.beside(
          plot,
          ends.map((end) => y(end.volts)),
        ),
  );
}

function endWords({ points, replacedIn = [] }: YearSeries): string {
  const [start, end] = [points[0]!, points.at(-1)!];
  const times = replacedIn.length === 0 ? '' : `; new ${replacedIn.length === 1 ? 'once' : `${replacedIn.length} ×`}`;
  return `${formatVolts(start.volts)} to ${formatVolts(end.volts)}${times}`;
}
