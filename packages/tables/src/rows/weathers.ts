import type { WeatherRow } from '../climate-schema.js';
import { freeze } from '../freeze.js';
import type { SoilState, Wetness } from '../schema.js';

const reasoning = 'engineering estimate: ';

const weather = (
  id: string,
  aliases: string[],
  about: string,
  soil: SoilState,
  surface: Wetness,
  groundCover: string,
  why: string,
): WeatherRow => ({
  id,
  aliases,
  about,
  basis: 'estimate',
  source: reasoning + why,
  soil,
  film: surface,
  post: surface,
  growth: surface,
  groundCover,
});

/** Kinds of weather, each moving film, wood, growth, soil and ground cover together. */
export const weathers: readonly WeatherRow[] = freeze([
  weather(
    'fair',
    ['dry day'],
    'A dry day on moist ground.',
    'moist',
    'dry',
    'grass',
    'surfaces dry within a day, the soil does not',
  ),
  weather(
    'dew',
    ['mist', 'fog', 'drizzle'],
    'A dewy morning, mist or drizzle.',
    'moist',
    'damp',
    'grass',
    'dew wets dust, bark and leaves but not the soil',
  ),
  weather(
    'rain',
    ['wet', 'storm'],
    'Rain for a day or more.',
    'wet',
    'wet',
    'grass',
    'rain wets film, wood, growth and soil alike',
  ),
  weather(
    'dry spell',
    ['drought', 'dry'],
    'Weeks without rain.',
    'dry',
    'dry',
    'bare',
    'growth dries and is grazed off; the topsoil dries before the deep soil',
  ),
  weather(
    'dew on dry ground',
    ['dew in drought'],
    'A dewy morning in a dry spell.',
    'dry',
    'damp',
    'bare',
    'a clear night wets surfaces whatever the soil',
  ),
  weather(
    'frost',
    ['black frost', 'hard frost'],
    'Frozen ground without snow.',
    'frozen',
    'dry',
    'frozen crust',
    'ice and frozen sap hardly conduct',
  ),
  weather(
    'snow',
    ['dry snow'],
    'Dry snow on frozen ground.',
    'frozen',
    'dry',
    'dry snow',
    'cold snow insulates wire, growth and hooves alike',
  ),
  weather(
    'thaw',
    ['wet snow', 'slush'],
    'Thawing snow.',
    'wet',
    'wet',
    'wet snow',
    'melting snow wets as rain does and lies on wet soil',
  ),
]);
