import { Pacer, type TaskOptions } from '../../engine/pacer.js';
import { type OpenFence, openFence } from '../../fence/open-fence.js';
import { layOut } from '../../network/layout.js';
import { monthNames } from '../../plan/calendar.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import { weakestPost } from '../../result/verdict.js';
import { starvedShare } from '../../result/warnings.js';
import { lossesByCause } from '../costs.js';
import { type CalendarOptions, yearOf } from './calendar-of.js';
import type { MonthResult, MonthsResult, SeasonCost, WeatherVolts } from './result.js';
import { monthsSentence, starvedNotes } from './words.js';

export interface MonthsOptions extends CalendarOptions, TaskOptions {}

/** One weather solved: kept for the worst and the best only. */
interface Solved extends WeatherVolts {
  readonly node: number;
}

/**
 * The volts at the weakest post month by month, through a year of weather and growth; the worst month and its cause.
 *
 * The year is the plan's own calendar, or a climate's. A month brings one weather or more and counts by the worst of them;
 * weathers that are alike in two months are solved once. The cause is found by taking each leak, the wire and the ground
 * away in turn (`lossesByCause`) in the worst weather of the year and in the best, at the weakest post of the worst.
 *
 * Volts are peak volts. Rejects with a `PlanError` for an unknown climate or growth, and with the signal's reason when
 * it is aborted.
 */
export async function months(plan: ResolvedPlan, options: MonthsOptions = {}): Promise<MonthsResult> {
  const year = yearOf(plan, options);
  const pacer = new Pacer(options);
  const layout = layOut(year.plan);
  const own = new Set(plan.conditions.map(({ id }) => id));
  const solve = (condition: ResolvedCondition): OpenFence => openFence(year.plan, condition, { layout });
  const known = new Map<string, Omit<Solved, 'condition'>>();
  const results: MonthResult[] = [];
  const nodes = new Map<WeatherVolts, number>();
  for (const [m, conditions] of year.calendar.months.entries()) {
    const weathers: WeatherVolts[] = [];
    for (const condition of conditions) {
      const key = sameness(condition, own);
      let found = known.get(key);
      if (found === undefined) {
        if (pacer.due) await pacer.step(m / (12 + costShare));
        const fence = solve(condition);
        const { node, holds } = fence.lowest();
        // The ground keeps more of the volts there than the plan's animal gets.
        const starves = fence.animal.bodyShare[node]! < starvedShare;
        found = { weakest: weakestPost(fence), node, starves, holds };
        known.set(key, found);
      }
      const { node, ...volts } = found;
      const weather = { condition, ...volts };
      nodes.set(weather, node);
      weathers.push(weather);
    }
    results.push(monthResult(m, weathers));
  }
  const worst = results.reduce((a, b) => (b.volts < a.volts ? b : a));
  const best = results.reduce((a, b) => (b.volts > a.volts ? b : a));
  const fairest = results
    .map(({ weathers }) => weathers.at(-1)!)
    .reduce((a, b) => (b.weakest.compared > a.weakest.compared ? b : a));
  await pacer.step(12 / (12 + costShare));
  const costs = seasonCosts(
    solve(worst.weathers[0]!.condition),
    solve(fairest.condition),
    nodes.get(worst.weathers[0]!)!,
  );
  options.onProgress?.(1);
  const result = {
    format: 'postvolt months',
    formatVersion: 1,
    title: plan.title,
    units: plan.units,
    target: plan.target,
    calendar: { from: year.from, climate: year.calendar.climate },
    holds: results.every(({ holds }) => holds),
    months: results,
    worst: worst.month,
    best: best.month,
    // The wire is the same all year; it costs more where other things draw more through it.
    cause: costs.find(({ kind }) => kind !== 'wire')!,
    costs,
    notes: starvedNotes(plan.target.of, results),
  } as const;
  return { ...result, sentence: monthsSentence(result) };
}

/** Months that the two lists of costs count for in the progress. */
const costShare = 2;

/** Text that two conditions share where they give the same volts; stretches, faults and switches know the plan's own by id. */
function sameness(condition: ResolvedCondition, own: ReadonlySet<string>): string {
  const { id, soil, film, post, growthWetness, growth, groundCover, temperatureC } = condition;
  const name = own.has(id) ? id : '';
  return JSON.stringify([
    name,
    soil,
    film,
    post,
    growthWetness,
    growth.vegetation,
    growth.heightM,
    groundCover,
    temperatureC,
  ]);
}

function monthResult(m: number, found: readonly WeatherVolts[]): MonthResult {
  const name = monthNames[m]!;
  const month = name[0]!.toUpperCase() + name.slice(1);
  const weathers = [...found].sort((a, b) => a.weakest.compared - b.weakest.compared);
  return {
    month,
    label: month.slice(0, 3),
    volts: weathers[0]!.weakest.compared,
    bestVolts: weathers.at(-1)!.weakest.compared,
    holds: weathers.every(({ holds }) => holds),
    weathers,
  };
}

/** What costs a node its volts in the worst weather, by the rise over the best; kinds are compared, since rows change with the season. */
function seasonCosts(worst: OpenFence, best: OpenFence, node: number): SeasonCost[] {
  const most = new Map<string, number>();
  for (const { kind, volts } of lossesByCause(best, node)) most.set(kind, Math.max(volts, most.get(kind) ?? 0));
  return lossesByCause(worst, node)
    .map((cost) => ({ ...cost, atBestVolts: most.get(cost.kind) ?? 0 }))
    .sort((a, b) => b.volts - b.atBestVolts - (a.volts - a.atBestVolts));
}
