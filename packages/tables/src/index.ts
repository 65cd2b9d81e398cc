export { derive, estimate } from './cell.js';
export { cellsOf, checkCells, checkRows, checkTables, type SomeTables, type TableIssue } from './check-tables.js';
export * from './climate-schema.js';
export * from './estimate.js';
export { type Extended, type Extension, extendTables } from './extend-tables.js';
export { findClimate, findWeather, monthsOf } from './find-climate.js';
export { findNamed, findRow, fitsPost, type RowOf, rowKey, type Tables } from './find-row.js';
export { feetOhmsPerOhmM, footResistance, type Stance } from './physics/foot-resistance.js';
export { cylinderFormFactor } from './physics/form-factor.js';
export { impulseLimit, impulseLimitAmps, impulseLimitAmpsRange, impulseLimits } from './physics/impulse-limit.js';
export {
  type Impedance,
  internalImpedance,
  type RoundWire,
  roundWireDcOhmsPerMetre,
  skinRatio,
} from './physics/internal-impedance.js';
export { earthReturnOhmsPerMetre, frequencyOfPulse, pulseFrequencyHz } from './physics/pulse.js';
export {
  mostRods,
  mutualOhmsPerOhmM,
  type Place,
  type RodArray,
  type RodLayout,
  rodArray,
  rodsAt,
  surfaceOhmsPerOhmM,
} from './physics/rod-array.js';
export { postContactOhmsPerOhmM, rodResistance } from './physics/rod-resistance.js';
export { airGapVolts, dirtySurfaceVolts, dirtySurfaceVoltsPerMetre } from './physics/spark-over.js';
export {
  type CoatedWire,
  coatedWireOhmsPerMetre,
  type WireOptions,
  wireDcOhmsPerMetre,
  wireOhmsPerMetre,
} from './physics/wire-ohms-per-metre.js';
export * from './price-schema.js';
export { climates } from './rows/climates.js';
export { awgDiameterM, type SteelWireGauge, steelWireGauges } from './rows/gauges.js';
export { aluminium, copper, highTensileSteel, type Metal, mildSteel, zincResistivity } from './rows/metals.js';
export * from './rows/patterns.js';
export { labourPerHour, prices, works } from './rows/prices.js';
export { rodFactors } from './rows/rod-factors.js';
export { weathers } from './rows/weathers.js';
export * from './schema.js';
export { standardTables } from './standard-tables.js';
