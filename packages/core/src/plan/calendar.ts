import {
  type ClimateMonth,
  type ClimateRow,
  findWeather,
  monthsOf,
  type VegetationRow,
  type WeatherRow,
} from '@postvolt/tables';
import type { ResolvedCalendar, ResolvedCondition, ResolvedPlan } from './resolved.js';

/** The months as a plan names them. */
export const monthNames = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
] as const;

/** What a month has in place of its climate's; null leaves it. */
export interface MonthChanges {
  readonly weathers: readonly WeatherRow[] | null;
  readonly growth: ResolvedCondition['growth'] | null;
  readonly growthHeightM: number | null;
  readonly temperatureC: number | null;
}

export const noChanges: MonthChanges = { weathers: null, growth: null, growthHeightM: null, temperatureC: null };

/** Looks up rows that a calendar names. */
export interface CalendarRows {
  readonly vegetation: (id: string) => VegetationRow;
  readonly groundCover: (id: string) => string;
}

/** The year of a climate. `mostGrowth` caps it at a row of the vegetation table, as mowing or spraying does. */
export function climateCalendar(
  climate: ClimateRow,
  rows: CalendarRows,
  options: { readonly south: boolean; readonly mostGrowth: VegetationRow | null },
): ResolvedCalendar {
  const months = monthsOf(climate, options.south).map((month, i) =>
    monthConditions(i, month, rows, options.mostGrowth, noChanges),
  );
  return { climate: climate.id, months };
}

/** Conditions that one month brings, one a weather; `index` counts from January. */
export function monthConditions(
  index: number,
  month: ClimateMonth,
  rows: CalendarRows,
  mostGrowth: VegetationRow | null,
  changes: MonthChanges,
): ResolvedCondition[] {
  const usual = rows.vegetation(month.growth);
  const leak = (row: VegetationRow) => row.wetSiemensPerMetre.typical;
  const grown = mostGrowth !== null && leak(mostGrowth) < leak(usual) ? mostGrowth : usual;
  const { vegetation, heightM } = changes.growth ?? {
    vegetation: grown.id,
    heightM: month.heightFactor.typical * grown.usualHeightM.typical,
  };
  const weathers = changes.weathers ?? month.weathers.map((id) => findWeather(id)!);
  return weathers.map((weather) => ({
    id: `${monthNames[index]}, ${weather.id}`,
    name: weather.id,
    soil: weather.soil,
    film: weather.film,
    post: weather.post,
    growthWetness: weather.growth,
    growth: { vegetation, heightM: changes.growthHeightM ?? heightM },
    groundCover: rows.groundCover(weather.groundCover),
    temperatureC: changes.temperatureC ?? month.temperatureC.typical,
  }));
}

/** True where the places that a plan gives lie south of the equator. */
export function isSouth({ junctions, runs }: Pick<ResolvedPlan, 'junctions' | 'runs'>): boolean {
  const place = junctions.find(({ at }) => at !== null)?.at ?? runs.find(({ line }) => line !== null)?.line?.[0];
  return place !== undefined && place[1] < 0;
}
