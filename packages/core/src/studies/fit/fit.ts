import type { Matrix } from 'ml-matrix';
import { pickConditions } from '../../fence/pick-conditions.js';
import { endOfRange } from '../../network/draw-value.js';
import type { Calibration } from '../../plan/calibration.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import { hotNodes } from '../../result/leaks.js';
import { chiSquared99 } from '../meter/chi-squared.js';
import { groupPrior } from '../meter/group-prior.js';
import { type MeasuredRound, measure } from '../meter/measure.js';
import { MeterScale } from '../meter/meter-error.js';
import { MeterFence } from '../meter/meter-fence.js';
import { WireMap } from '../meter/observation.js';
import { predictReadings } from '../meter/reading-model.js';
import type { MeterReadings } from '../meter/readings.js';
import { evenValues, type Measured, type Settled, settle } from '../meter/settle.js';
import { fittedGroups } from './fitted-groups.js';
import type { EntangledGroups, FitResult, FittedReading } from './result.js';
import { fitSentence } from './words.js';

/** Correlations from which on two groups are said to be known together only. */
const entangledFrom = 0.5;

/**
 * Calibrates the uncertain table values to what a fence meter read: bounded least squares, Gauss-Newton with damping, on the
 * groups of values that rise and fall together; the tables' ranges are their priors and their bounds. Volts are peak volts
 * to earth, amps peak amps in the wire.
 *
 * The range of a group afterwards is that of a normal at the fit (Laplace). A plan that was fitted before is fitted on from
 * where it stands. Throws a `PlanError` for a condition that the plan does not have.
 */
export function fit(plan: ResolvedPlan, readings: MeterReadings): FitResult {
  const [condition] = pickConditions(plan, [readings.condition]) as [ResolvedCondition];
  const meter = new MeterFence(plan, condition);
  const measured = measure(
    meter,
    new WireMap(meter.open),
    readings.readings,
    new MeterScale(readings.meterErrorPercent),
  );
  const { precision } = groupPrior(meter.groups, plan.calibration);
  const start = new Float64Array(meter.groups.list.length);
  const settled = settle(meter, measured, { precision, bound: endOfRange });
  const before = predictReadings(meter, measured.observations, start);
  const groups = fittedGroups(meter, settled);
  const result: Omit<FitResult, 'sentence'> = {
    format: 'postvolt fit',
    formatVersion: 1,
    title: plan.title,
    units: plan.units,
    condition: { id: condition.id, name: condition.name },
    meterErrorPercent: readings.meterErrorPercent,
    groups,
    entangled: entangledGroups(meter, settled),
    readings: fittedReadings(measured, before, settled.readings),
    misfit: { before: misfitOf(measured, before), after: settled.misfit },
    fits: measured.values.length === 0 || settled.misfit < chiSquared99(measured.values.length),
    weakestVolts: { before: weakestVolts(meter, start), after: weakestVolts(meter, settled.z) },
    calibration: calibrationOf(meter, settled),
  };
  const { format, formatVersion, title, units, ...rest } = result;
  return { format, formatVersion, title, units, sentence: fitSentence(result), ...rest };
}

function calibrationOf({ groups }: MeterFence, { z, covariance }: Settled): Calibration {
  const sigma = groups.list.map((_, g) => Math.sqrt(covariance.get(g, g)));
  return {
    groups: groups.list.map(({ key }, g) => ({ key, shift: z[g]!, spread: Math.min(1, sigma[g]!) })),
    correlation: groups.list.map((_, a) => groups.list.map((_, b) => correlation(covariance, a, b))),
  };
}

const correlation = (covariance: Matrix, a: number, b: number): number =>
  a === b
    ? 1
    : Math.max(
        -1,
        Math.min(
          1,
          (covariance.get(a, b) + covariance.get(b, a)) / 2 / Math.sqrt(covariance.get(a, a) * covariance.get(b, b)),
        ),
      );

function entangledGroups({ groups }: MeterFence, { covariance }: Settled): EntangledGroups[] {
  const found: EntangledGroups[] = [];
  groups.list.forEach(({ name: a }, i) => {
    groups.list.slice(0, i).forEach(({ name: b }, j) => {
      const value = correlation(covariance, i, j);
      if (Math.abs(value) >= entangledFrom) found.push({ names: [b, a], correlation: value });
    });
  });
  return found.sort((a, b) => Math.abs(b.correlation) - Math.abs(a.correlation));
}

function fittedReadings(measured: MeasuredRound, before: Float64Array, after: Float64Array): FittedReading[] {
  const [read, modelled] = [evenValues(measured, measured.values), evenValues(measured, after)];
  return measured.observations.map(({ kind }, i) => ({
    post: measured.posts[i]!,
    kind,
    read: measured.values[i]!,
    before: before[i]!,
    after: after[i]!,
    off: read[i]! - modelled[i]!,
  }));
}

function misfitOf(measured: Measured, readings: Float64Array): number {
  const even = evenValues(measured, measured.values);
  return evenValues(measured, readings).reduce((sum, reading, i) => sum + (even[i]! - reading) ** 2, 0);
}

function weakestVolts(meter: MeterFence, z: Float64Array): number {
  meter.set(z);
  const { volts } = meter.circuit.solve();
  const hot = hotNodes(meter.fence);
  let least = Number.POSITIVE_INFINITY;
  volts.forEach((value, node) => {
    if (hot[node] === 1 && Number.isFinite(meter.open.mendedDistanceM[node]!)) least = Math.min(least, value);
  });
  return least;
}
