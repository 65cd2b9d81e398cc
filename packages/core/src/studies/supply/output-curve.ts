import type { EnergizerRow } from '@postvolt/tables';
import { SourceCurve } from '../../engine/source-curve.js';
import { curvePoints } from '../../network/curve.js';
import type { ResolvedCondition, ResolvedEnergizer } from '../../plan/resolved.js';

type Loads = EnergizerRow['loads'] | ResolvedEnergizer['loads'];

/** Curve of an energizer, or of a generic class in its place, derated as the plan's is in a condition. */
export const curveOf = (
  energizer: ResolvedEnergizer,
  condition: ResolvedCondition,
  loads: Loads = energizer.loads,
): SourceCurve => new SourceCurve(curvePoints({ ...energizer, loads: [...loads] }, condition));

/** Volts at 500 Ω of an energizer's curve as it is labelled, before any derating. */
export function voltsAt500(loads: Loads, end: 'low' | 'typical' | 'high' = 'typical'): number {
  const points = loads.map(({ ohms, volts }): [number, number] => [ohms === null ? 0 : volts[end] / ohms, volts[end]]);
  return new SourceCurve(points).meet(1 / 500, 0, { volts: 0, amps: 0, segment: 0 }).volts;
}
