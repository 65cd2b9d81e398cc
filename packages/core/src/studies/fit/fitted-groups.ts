import type { Estimate } from '@postvolt/tables';
import { calibratedRange, type Shift } from '../../network/calibrate.js';
import { endOfRange } from '../../network/draw-value.js';
import type { MeterFence } from '../meter/meter-fence.js';
import type { Settled } from '../meter/settle.js';
import type { FittedGroup, FittedValue, ValueRange } from './result.js';

/** Widths left below which a group was told well, or a little. */
const [well, little] = [0.5, 0.9];

/** Every group with its values before and after, those that the readings told most of first. */
export function fittedGroups(meter: MeterFence, { z, covariance, atBound }: Settled): FittedGroup[] {
  const { groups, fence } = meter;
  const members = new Map<number, { name: string; estimate: Estimate; from: string }[]>();
  fence.parameters.forEach(({ name, estimate, tableRow: from }, p) => {
    const group = groups.ofParameter[p]!;
    if (group >= 0) members.set(group, [...(members.get(group) ?? []), { name, estimate, from }]);
  });
  for (const { group, estimate, name, from } of groups.besides) members.set(group, [{ name, estimate, from }]);
  return groups.list
    .map(({ key, name, kind }, g): FittedGroup => {
      const widthLeft = Math.min(1, Math.sqrt(covariance.get(g, g)));
      const shift = { shift: z[g]!, spread: widthLeft };
      const values = (members.get(g) ?? []).map((member) => fittedValue(member, shift));
      const [first] = values;
      return {
        key,
        name,
        kind,
        place: z[g]! / endOfRange,
        widthLeft,
        multiplier: first === undefined ? 1 : first.after.typical / first.before.typical,
        told: widthLeft < well ? 'well' : widthLeft < little ? 'a little' : 'not',
        atEnd: atBound[g] === 1,
        values,
      };
    })
    .sort((a, b) => a.widthLeft - b.widthLeft);
}

function fittedValue(
  { name, estimate, from }: { name: string; estimate: Estimate; from: string },
  shift: Shift,
): FittedValue {
  const range = ({ low, typical, high }: ValueRange): ValueRange => ({ low, typical, high });
  return { name, unit: estimate.unit, from, before: range(estimate), after: range(calibratedRange(estimate, shift)) };
}
