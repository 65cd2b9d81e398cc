import type { ResolvedCondition, ResolvedEnergizer } from '../plan/resolved.js';

/** Points [amps, volts] of an energizer's falling output curve; each load's volts over its ohms, derated. */
export function curvePoints(
  energizer: ResolvedEnergizer,
  condition: ResolvedCondition,
  at: (volts: ResolvedEnergizer['loads'][number]['volts']) => number = (volts) => volts.typical,
): [amps: number, volts: number][] {
  const { derating } = energizer;
  const factor = Object.hasOwn(derating, condition.id) ? derating[condition.id]! : 1;
  return energizer.loads.map(({ ohms, volts }) => {
    const peak = at(volts) * factor;
    return [ohms === null ? 0 : peak / ohms, peak];
  });
}
