import type { ClimateMonth, ClimateRow, WeatherRow } from './climate-schema.js';
import { findNamed } from './find-row.js';
import { climates } from './rows/climates.js';
import { weathers } from './rows/weathers.js';

/** The climate of this name or alias; undefined where there is none. */
export const findClimate = (name: string): ClimateRow | undefined => findNamed(climates, name);

/** The weather of this name or alias; undefined where there is none. */
export const findWeather = (name: string): WeatherRow | undefined => findNamed(weathers, name);

/** A climate's year from January on, shifted by six months south of the equator. */
export const monthsOf = ({ months }: ClimateRow, south: boolean): ClimateMonth[] =>
  months.map((_, i) => months[(i + (south ? 6 : 0)) % 12]!);
