export { derive, estimate } from './cell.js';
export { cellsOf, checkTables, type TableIssue } from './checkTables.js';
export * from './estimate.js';
export { type Extended, type Extension, extendTables } from './extendTables.js';
export { findRow, type RowOf, rowKey, type Tables } from './findRow.js';
export { feetOhmsPerOhmM, footResistance, type Stance } from './physics/footResistance.js';
export { cylinderFormFactor } from './physics/formFactor.js';
export { impulseLimit, impulseLimitAmps, impulseLimitAmpsRange, impulseLimits } from './physics/impulseLimit.js';
export {
  type Impedance,
  internalImpedance,
  type RoundWire,
  roundWireDcOhmsPerMetre,
  skinRatio,
} from './physics/internalImpedance.js';
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
} from './physics/rodArray.js';
export { postContactOhmsPerOhmM, rodResistance } from './physics/rodResistance.js';
export { airGapVolts, dirtySurfaceVolts, dirtySurfaceVoltsPerMetre } from './physics/sparkOver.js';
export {
  type CoatedWire,
  coatedWireOhmsPerMetre,
  type WireOptions,
  wireDcOhmsPerMetre,
  wireOhmsPerMetre,
} from './physics/wireOhmsPerMetre.js';
export { awgDiameterM, type SteelWireGauge, steelWireGauges } from './rows/gauges.js';
export { aluminium, copper, highTensileSteel, type Metal, mildSteel, zincResistivity } from './rows/metals.js';
export { rodFactors } from './rows/rodFactors.js';
export * from './schema.js';
export { standardTables } from './standardTables.js';
