import { Pacer, type TaskOptions } from '../../engine/pacer.js';
import { pickConditions } from '../../fence/pick-conditions.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import { groupPrior, toZ } from '../meter/group-prior.js';
import { MeterScale, usualMeterPercent } from '../meter/meter-error.js';
import { MeterFence } from '../meter/meter-fence.js';
import { observe, type Probe, WireMap } from '../meter/observation.js';
import { latinHypercube } from '../spread/hypercube.js';
import type { ConditionSheet, ExpectedReading, ReadingsResult, SheetLine } from './result.js';
import { sheetPlaces } from './sheet-places.js';
import { readingsSentence } from './words.js';

/** What to ask of `expectedReadings`. */
export interface ExpectedReadingsOptions extends TaskOptions {
  /** Ids of the conditions; all where left out. */
  readonly conditions?: readonly string[];
  /** Standard deviation of a reading, percent of it; 5 where left out. */
  readonly meterErrorPercent?: number;
  /** A whole number; the same seed gives the same ranges. 1 where left out. */
  readonly seed?: number;
}

/** Re-solves a condition: settle the ends of a 90 % range to a few hundredths of its width. */
const draws = 400;
const errorKey = 'meter error';

/**
 * What a fence meter should show at every gate, corner, junction and end of a sound fence, and at posts between: typical
 * values, and the range in which nine readings of ten should lie. Volts are peak volts to earth, amps peak amps in the wire.
 *
 * The ranges are those of the tables, carried through by a Latin hypercube of full re-solves (one numeric pass a draw, not a
 * linear estimate), and the meter's own error. Amps hold the charging current that the network itself does not.
 *
 * Rejects with a `PlanError` for a condition that the plan does not have, and with the signal's reason when aborted.
 */
export async function expectedReadings(
  plan: ResolvedPlan,
  options: ExpectedReadingsOptions = {},
): Promise<ReadingsResult> {
  const { meterErrorPercent = usualMeterPercent, seed = 1 } = options;
  const picked = pickConditions(plan, options.conditions);
  const pacer = new Pacer(options);
  const conditions: ConditionSheet[] = [];
  for (const condition of picked) {
    const pause = async (done: number) => {
      if (pacer.due) await pacer.step((conditions.length + done) / picked.length);
    };
    conditions.push(await sheetOf(plan, condition, new MeterScale(meterErrorPercent), seed, pause));
  }
  options.onProgress?.(1);
  const isPicked = (id: string) => picked.some((condition) => condition.id === id);
  const faults = plan.faults.filter((fault) => fault.conditions?.some(isPicked) ?? true).length;
  return {
    format: 'postvolt expected readings',
    formatVersion: 1,
    title: plan.title,
    units: plan.units,
    sentence: readingsSentence(conditions, faults),
    faults,
    meterErrorPercent,
    draws,
    seed,
    conditions,
  };
}

async function sheetOf(
  plan: ResolvedPlan,
  condition: ResolvedCondition,
  scale: MeterScale,
  seed: number,
  pause: (done: number) => Promise<void>,
): Promise<ConditionSheet> {
  const meter = new MeterFence(plan, condition);
  const { layout } = meter.fence;
  const { list } = meter.groups;
  const wires = new WireMap(meter.open);
  const places = sheetPlaces(layout);
  const probes = places.map(({ run, post }) => {
    const top = wires.topStrand(run);
    const strands = [top, ...wires.hotStrands(run).filter((s) => s !== top)];
    return wires.probe(run, post, post === layout.runs[run]!.spans ? -1 : 1, strands);
  });
  const typical = readAll(meter, new Float64Array(list.length), probes);
  const volts = probes.map(() => new Float64Array(draws));
  const amps = probes.map(() => new Float64Array(draws));
  const drawn = latinHypercube(draws, seed);
  const prior = groupPrior(meter.groups, plan.calibration);
  for (let d = 0; d < draws; d++) {
    await pause(d / draws);
    const z = toZ(
      prior,
      Float64Array.from(list, ({ key }) => drawn(key).z[d]!),
    );
    const read = readAll(meter, z, probes);
    const error = (kind: 'volts' | 'amps') => drawn(`${errorKey} ${kind}`).z[d]!;
    for (let p = 0; p < probes.length; p++) {
      volts[p]![d] = read.volts[p]! + error('volts') * scale.sigma('volts', read.volts[p]!);
      amps[p]![d] = read.amps[p]! + error('amps') * scale.sigma('amps', read.amps[p]!);
    }
  }
  const lines = places.map(({ run: r, post, reason, name }, p): SheetLine => {
    const { run, strands, positionsM } = layout.runs[r]!;
    const { direction, branches } = probes[p]!;
    const sign = typical.amps[p]! < 0 ? -1 : 1;
    return {
      post: `${run.id}/${post}`,
      reason,
      name,
      run: run.id,
      postNumber: post,
      positionM: positionsM[post]!,
      strand: branches.length > 1 ? 'all' : strands[wires.topStrand(r)]!.id,
      wireTo: `${run.id}/${post + direction}`,
      flows: sign === 1 ? 'towards' : 'from',
      volts: rangeOf(volts[p]!, typical.volts[p]!),
      amps:
        branches.length === 0
          ? null
          : rangeOf(
              amps[p]!.map((a) => sign * a),
              sign * typical.amps[p]!,
            ),
    };
  });
  return { id: condition.id, name: condition.name, lines };
}

function readAll(
  meter: MeterFence,
  z: Float64Array,
  probes: readonly Probe[],
): { readonly volts: Float64Array; readonly amps: Float64Array } {
  meter.set(z);
  const { circuit, groups } = meter;
  const { volts } = circuit.solve();
  const charging = meter.chargingVolts(circuit);
  const charge = groups.chargingAmpsPerMetreVolt(z);
  const read = (kind: 'volts' | 'amps') =>
    Float64Array.from(probes, (probe) =>
      observe({ kind, probe }, volts, charging, charge, circuit.network.branchSiemens),
    );
  return { volts: read('volts'), amps: read('amps') };
}

function rangeOf(values: Float64Array, typical: number): ExpectedReading {
  const sorted = values.slice().sort();
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))]!;
  return { typical, low: Math.max(0, at(0.05)), high: at(0.95) };
}
