import { calibratedRange, type Shift } from '../../network/calibrate.js';
import type { Calibration } from '../../plan/calibration.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import { energizerKey, sourceFactor } from '../spread/uncertain.js';
import type { FitResult } from './result.js';

/**
 * The plan with its tables as fitted: every study of it, in every condition, takes the calibrated values and what is left
 * of their ranges. A plan that was calibrated before is calibrated on: shifts add up in steps of the range that was left.
 */
export function applyFit(plan: ResolvedPlan, { calibration }: Pick<FitResult, 'calibration'>): ResolvedPlan {
  return {
    ...plan,
    energizer: { ...plan.energizer, loads: fittedLoads(plan, calibration) },
    calibration: plan.calibration === null ? calibration : calibratedOn(plan.calibration, calibration),
  };
}

/** The energizer's volts carry their calibration themselves: one factor at every load. */
function fittedLoads({ energizer }: ResolvedPlan, { groups }: Calibration): ResolvedPlan['energizer']['loads'] {
  const shift = groups.find(({ key }) => key === energizerKey);
  if (shift === undefined) return energizer.loads;
  const factor = calibratedRange(sourceFactor(energizer), shift);
  return energizer.loads.map(({ ohms, volts }) => ({
    ohms,
    volts: {
      ...volts,
      low: volts.typical * factor.low,
      typical: volts.typical * factor.typical,
      high: volts.typical * factor.high,
      basis: 'derived',
      source: `${volts.source}; calibrated by a fence meter's readings`,
    },
  }));
}

/** `first`, and what further readings have told since; groups that they do not know stay as they were, apart from them. */
function calibratedOn(first: Calibration, since: Calibration): Calibration {
  const before = new Map(first.groups.map((group) => [group.key, group]));
  const known = new Set(since.groups.map(({ key }) => key));
  const others = first.groups.filter(({ key }) => !known.has(key));
  const step = (group: Calibration['groups'][number]): Shift => {
    const own = before.get(group.key);
    if (own === undefined) return group;
    const { shift, spread } = own;
    return { shift: Math.max(-6, Math.min(6, shift + spread * group.shift)), spread: spread * group.spread };
  };
  const at = new Map(first.groups.map(({ key }, i) => [key, i]));
  const groups = [...since.groups.map((group) => ({ key: group.key, ...pick(step(group)) })), ...others];
  const inSince = since.groups.length;
  return {
    groups,
    correlation: groups.map((a, i) =>
      groups.map((b, j) => {
        if (i === j) return 1;
        if (i < inSince && j < inSince) return since.correlation[i]![j]!;
        return i >= inSince && j >= inSince ? first.correlation[at.get(a.key)!]![at.get(b.key)!]! : 0;
      }),
    ),
  };
}

const pick = ({ shift, spread }: Shift): Shift => ({ shift, spread });
