import {
  comparison,
  type FigureOptions,
  faultCandidates,
  fenceMap,
  gradientBars,
  leakBars,
  months,
  spreadBars,
  voltsAlong,
  voltsBudgetBars,
  yearLines,
} from '@postvolt/report';
import type { Solved } from './plans.js';

const monthNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** Every figure of the package, filled from a solved plan as far as it can be and with invented studies beyond that. */
export function drawAll({ plan, result }: Solved): Record<string, (options: FigureOptions) => string> {
  const { target } = result;
  const condition = result.conditions[0]!;
  const names = result.conditions.map(({ name }) => name);
  const run = plan.runs[0]!;
  const band = {
    condition: condition.id,
    label: 'P10 to P90',
    posts: new Map(condition.posts.map(({ id }, i) => [id, { low: 1000 + i, high: 4000 + i }])),
  };
  return {
    voltsAlong: (options) => voltsAlong({ plan, result, band }, options),
    fenceMap: (options) => fenceMap({ plan, result }, options),
    leakBars: (options) => leakBars({ condition }, options),
    voltsBudgetBars: (options) => voltsBudgetBars({ result, condition }, options),
    gradientBars: (options) =>
      gradientBars(
        {
          postId: condition.posts[0]!.id,
          costs: [
            { label: run.id, volts: 420, lowVolts: 200, highVolts: 900, note: names[0]! },
            { label: 'a second lead-out', volts: -150 },
          ],
        },
        options,
      ),
    months: (options) =>
      months(
        {
          target,
          months: monthNames.map((label, i) => ({
            label,
            volts: 3000 + 900 * Math.cos(i / 2),
            lowVolts: 2000,
            highVolts: 5000,
            condition: names[Math.floor(i / 4) % names.length]!,
          })),
        },
        options,
      ),
    comparison: (options) =>
      comparison(
        {
          target,
          variants: [run.id, 'a longer name than fits on the line of a phone'].map((label) => ({
            label,
            note: '$40',
            readings: names.map((name, i) => ({ condition: name, volts: 2500 + 700 * i })),
          })),
        },
        options,
      ),
    yearLines: (options) =>
      yearLines(
        {
          target,
          series: [
            { label: run.id, points: [0, 5, 10].map((year) => ({ year, volts: 6000 - 300 * year })), replacedIn: [5] },
            { label: 'porcelain', points: [0, 5, 10].map((year) => ({ year, volts: 6000 - 20 * year })) },
          ],
        },
        options,
      ),
    faultCandidates: (options) =>
      faultCandidates(
        {
          plan,
          units: result.units,
          candidates: [
            { run: run.id, fromM: 10, toM: run.lengthM / 2, rank: 1, cause: 'branch on wire' },
            { run: run.id, fromM: run.lengthM, toM: run.lengthM, rank: 2, cause: 'bad splice' },
          ],
          readings: [
            { run: run.id, positionM: 0, volts: 3300 },
            { run: run.id, positionM: run.lengthM, volts: null },
          ],
        },
        options,
      ),
    spreadBars: (options) =>
      spreadBars(
        { target, rows: names.map((label) => ({ label, p10: 2000, p50: 3100, p90: 4500, chancePercent: 55 })) },
        options,
      ),
  };
}
