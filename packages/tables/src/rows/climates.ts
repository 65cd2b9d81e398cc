import { estimate } from '../cell.js';
import type { ClimateMonth, ClimateRow } from '../climate-schema.js';
import { freeze } from '../freeze.js';

type Month = readonly [weathers: readonly string[], growth: string, heightFactor: number, temperatureC: number];

const heights = 'engineering estimate: height of an unmown fence line through its season';
const temperatures = 'engineering estimate from the bounds of the climate class, to be replaced by the farm’s own';

const month = ([weathers, growth, factor, celsius]: Month): ClimateMonth => ({
  weathers: [...weathers],
  growth,
  heightFactor: estimate(factor, [0.7 * factor, 1.3 * factor], '1', heights),
  temperatureC: estimate(celsius, [celsius - 8, celsius + 8], '°C', temperatures),
});

const climate = (
  id: string,
  aliases: string[],
  about: string,
  koppen: string,
  months: readonly Month[],
): ClimateRow => ({
  id,
  aliases,
  about,
  basis: 'common practice',
  source: 'common practice, no source: which weather and growth the months bring on a farm of that climate',
  koppen,
  months: months.map(month),
});

const showers = ['rain', 'dew'];
const showersAndDrought = ['rain', 'dew', 'dry spell'];
const drought = ['dry spell', 'dew on dry ground'];

/** Climates: what each month brings, January first, north of the equator. */
export const climates: readonly ClimateRow[] = freeze([
  climate('temperate', ['northern temperate'], 'Four seasons, frost in winter, rain in every month.', 'Cfb', [
    [['frost', 'snow'], 'trace', 0.5, 1],
    [['frost', 'thaw'], 'trace', 0.5, 2],
    [['rain', 'frost'], 'trace', 0.5, 5],
    [showers, 'light', 0.6, 9],
    [showers, 'moderate', 0.8, 13],
    [showers, 'moderate', 1, 17],
    [showersAndDrought, 'moderate', 1, 19],
    [showersAndDrought, 'moderate', 1, 19],
    [showers, 'moderate', 0.9, 15],
    [showers, 'light', 0.9, 10],
    [['rain', 'frost'], 'light', 0.7, 6],
    [['rain', 'frost'], 'trace', 0.6, 3],
  ]),
  climate('maritime', ['oceanic', 'coastal'], 'Mild and wet all year; grass grows into the winter.', 'Cfb', [
    [showers, 'light', 0.5, 5],
    [showers, 'light', 0.5, 5],
    [showers, 'light', 0.6, 7],
    [showers, 'moderate', 0.7, 8],
    [showers, 'heavy', 0.8, 11],
    [showers, 'heavy', 1, 14],
    [showers, 'heavy', 1, 16],
    [showers, 'heavy', 1, 16],
    [showers, 'moderate', 1, 14],
    [showers, 'moderate', 0.9, 11],
    [showers, 'light', 0.8, 8],
    [showers, 'light', 0.6, 6],
  ]),
  climate('snowy', ['mountain', 'continental'], 'Snow for months, a short green summer.', 'Dfb', [
    [['snow'], 'trace', 0.4, -8],
    [['snow'], 'trace', 0.4, -6],
    [['snow', 'thaw'], 'trace', 0.4, -2],
    [['thaw', 'rain'], 'trace', 0.4, 4],
    [showers, 'light', 0.6, 10],
    [showers, 'moderate', 0.9, 14],
    [showers, 'moderate', 1, 17],
    [showersAndDrought, 'moderate', 1, 16],
    [['rain', 'dew', 'frost'], 'light', 0.9, 11],
    [['rain', 'frost'], 'light', 0.7, 5],
    [['snow', 'thaw'], 'trace', 0.5, -1],
    [['snow'], 'trace', 0.4, -6],
  ]),
  climate('semi-arid', ['steppe', 'high plains', 'dry'], 'Thin grass, long dry spells, little rain.', 'BSk', [
    [['frost', 'fair'], 'trace', 0.4, 0],
    [['frost', 'fair'], 'trace', 0.4, 2],
    [['rain', 'fair'], 'trace', 0.4, 6],
    [['rain', 'fair'], 'light', 0.5, 11],
    [showers, 'light', 0.7, 16],
    [['rain', 'dry spell'], 'light', 0.8, 21],
    [drought, 'light', 0.8, 24],
    [drought, 'light', 0.8, 23],
    [drought, 'light', 0.7, 18],
    [['dew', 'fair'], 'trace', 0.6, 12],
    [['frost', 'fair'], 'trace', 0.5, 5],
    [['frost', 'fair'], 'trace', 0.4, 1],
  ]),
  climate('dry summer', ['mediterranean'], 'Green wet winters, summers without rain.', 'Csa', [
    [showers, 'light', 0.5, 8],
    [showers, 'light', 0.6, 9],
    [showers, 'moderate', 0.8, 11],
    [showers, 'moderate', 1, 14],
    [['dew', 'dry spell'], 'moderate', 1, 18],
    [drought, 'light', 0.9, 22],
    [drought, 'light', 0.8, 25],
    [drought, 'light', 0.8, 25],
    [drought, 'trace', 0.7, 22],
    [showers, 'light', 0.5, 17],
    [showers, 'light', 0.5, 12],
    [showers, 'light', 0.5, 9],
  ]),
  climate('warm humid', ['subtropical', 'humid'], 'Hot wet summers of rank growth, short mild winters.', 'Cfa', [
    [['rain', 'frost'], 'trace', 0.5, 7],
    [showers, 'light', 0.5, 9],
    [showers, 'light', 0.6, 13],
    [showers, 'moderate', 0.8, 17],
    [showers, 'heavy', 0.9, 21],
    [showers, 'heavy', 1, 25],
    [showers, 'heavy', 1, 27],
    [showersAndDrought, 'heavy', 1, 27],
    [showers, 'heavy', 1, 23],
    [showers, 'moderate', 0.9, 17],
    [showers, 'light', 0.8, 12],
    [['rain', 'frost'], 'trace', 0.6, 8],
  ]),
]);
