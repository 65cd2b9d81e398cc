import {
  type ClimateRow,
  climates,
  findClimate,
  findWeather,
  monthsOf,
  type WeatherRow,
  weathers,
} from '@postvolt/tables';
import type { Issue } from '../issue.js';
import { showFound } from '../quantity/fault.js';
import { type CalendarRows, isSouth, monthConditions, monthNames } from './calendar.js';
import { defaults } from './defaults.js';
import type { Reporter } from './reporter.js';
import { growthOf } from './resolve-conditions.js';
import type { ResolvedCalendar, ResolvedCondition, ResolvedPlan } from './resolved.js';
import type { RowLookup } from './row-lookup.js';
import type { Plan } from './schema.js';
import { suggestion } from './suggest.js';

type Path = Issue['path'];
type MonthInput = NonNullable<NonNullable<Plan['months']>['january']>;

/** The calendar of a plan; null where it has none. */
export function resolveMonths(
  plan: Plan,
  places: Pick<ResolvedPlan, 'conditions' | 'junctions' | 'runs'>,
  book: RowLookup,
  report: Reporter,
): ResolvedCalendar | null {
  const { months } = plan;
  if (months === undefined) return null;
  const climate = climateOf(months.climate ?? defaults.climate, report);
  if (climate === null) return null;
  const atMost = months.growthAtMost;
  const kept = atMost === undefined ? '' : book.keep('vegetation', atMost, ['months', 'growthAtMost']);
  const mostGrowth = book.kept('vegetation', kept) ?? null;
  const rows: CalendarRows = {
    vegetation: (id) => book.kept('vegetation', book.keep('vegetation', id, ['months', 'climate']))!,
    groundCover: (id) => book.keep('groundCovers', id, ['months', 'climate']),
  };
  const south = months.hemisphere === undefined ? isSouth(places) : months.hemisphere === 'south';
  const usual = monthsOf(climate, south);
  return {
    climate: climate.id,
    months: monthNames.map((month, i) => {
      const input: MonthInput = months[month] ?? {};
      const path = ['months', month];
      if (typeof input === 'string') return [...named([input], places.conditions, path, report)];
      if (Array.isArray(input)) return [...named(input, places.conditions, path, report)];
      const { weather, growth, growthHeight, temperature } = input;
      return monthConditions(i, usual[i]!, rows, mostGrowth, {
        weathers: weather === undefined ? null : weathersOf([weather].flat(), [...path, 'weather'], report),
        growth: growth === undefined ? null : growthOf({ growth, growthHeight }, path, book, report),
        growthHeightM: growthHeight ?? null,
        temperatureC: temperature ?? null,
      });
    }),
  };
}

function climateOf(name: string, report: Reporter): ClimateRow | null {
  const found = findClimate(name);
  if (found !== undefined) return found;
  const known = climates.map(({ id }) => id);
  report.error('unknown-row', ['months', 'climate'], showFound(name), 'a row of the climates', suggestion(name, known));
  return null;
}

function weathersOf(names: readonly string[], path: Path, report: Reporter): WeatherRow[] {
  const found = names.flatMap((name) => {
    const weather = findWeather(name);
    if (weather !== undefined) return [weather];
    const known = weathers.map(({ id }) => id);
    report.error('unknown-row', path, showFound(name), 'a kind of weather', suggestion(name, known));
    return [];
  });
  return [...new Set(found)];
}

/** The plan's own conditions of these names. */
function named(
  names: readonly string[],
  conditions: readonly ResolvedCondition[],
  path: Path,
  report: Reporter,
): ResolvedCondition[] {
  const found = names.flatMap((name) => {
    const condition = conditions.find(({ id }) => id === name);
    if (condition !== undefined) return [condition];
    const known = conditions.map(({ id }) => id);
    const hint =
      findWeather(name) === undefined ? suggestion(name, known) : `For the weather write {weather: ${name}}.`;
    report.error('unknown-condition', path, showFound(name), 'the name of a condition', hint);
    return [];
  });
  return [...new Set(found)];
}
