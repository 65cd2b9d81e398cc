import { type ResolvedPlan, solvePlan } from '@postvolt/core';
import { findRow, standardTables } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { MeterFence, type PlacedFault } from '../../packages/core/src/studies/meter/meter-fence.js';
import { type Observation, WireMap } from '../../packages/core/src/studies/meter/observation.js';
import { predictReadings, predictWithSlopes } from '../../packages/core/src/studies/meter/reading-model.js';
import { Random } from '../../packages/core/src/studies/spread/random.js';
import { type Candidate, faultCandidates } from '../../packages/core/src/studies/trace/candidates.js';
import { placed } from '../../packages/core/src/studies/trace/linear-scan.js';
import { ReadingScan } from '../../packages/core/src/studies/trace/reading-scan.js';
import { scoringFarms } from '../scoring/farms.js';
import { exact } from '../support/fence.js';
import { groundedFarm } from './meter-farm.js';

const farms = [...scoringFarms, { name: 'grounded strand', plan: groundedFarm }];

/** Kilovolts and amps of all hot strands at a few posts of every run. */
function observationsOf(meter: MeterFence): Observation[] {
  const wires = new WireMap(meter.open);
  return meter.fence.layout.runs.flatMap(({ spans }, r) =>
    [0, Math.floor(spans / 3), spans - 1].flatMap((post): Observation[] => {
      const probe = wires.probe(r, post, 1, wires.hotStrands(r));
      return [
        { kind: 'volts', probe },
        { kind: 'amps', probe },
      ];
    }),
  );
}

describe('readings by rank-one updates against plans with the fault written in, built and factored from scratch', () => {
  /** The plan with a fault as a person would enter it. */
  function withFault(plan: ResolvedPlan, { kind, run, post, strand }: Candidate, ohms: number): ResolvedPlan {
    const layout = new MeterFence(plan, plan.conditions[0]!).fence.layout.runs[run]!;
    const [row, otherStrand] =
      kind === 'leak'
        ? ['wire on ground', null]
        : kind === 'contact'
          ? ['strands touching', layout.strands.find(({ role }) => role === 'grounded')!.id]
          : [Number.isFinite(ohms) ? 'bad splice' : 'broken wire', null];
    const fault = {
      id: 'fault',
      kind: row,
      run: layout.run.id,
      post,
      on: kind === 'series' ? ('span' as const) : ('post' as const),
      strand: layout.strands[strand]!.id,
      otherStrand,
      ohms: Number.isFinite(ohms) ? exact(ohms, 'Ω') : null,
      gapVolts: null,
      conditions: null,
    };
    const faultRows = { ...plan.rows.faults, [row]: findRow(standardTables, 'faults', row)! };
    return { ...plan, faults: [...plan.faults, fault], rows: { ...plan.rows, faults: faultRows } };
  }

  /** The engine keeps nine digits of what an update changes. */
  const tolerance = 1e-8;

  test.each(farms)('on $name', ({ plan }) => {
    const meter = new MeterFence(plan, plan.conditions[0]!);
    const observations = observationsOf(meter);
    const z = new Float64Array(meter.groups.list.length);
    meter.set(z);
    const scan = new ReadingScan(meter, z, observations, { withCharging: true });
    const random = new Random(plan.title);
    const candidates = faultCandidates(meter).filter(({ kind, run }) => kind !== 'series' || run >= 0);
    const [readings, charging] = [new Float64Array(observations.length), new Float64Array(observations.length)];
    const charge = meter.groups.chargingAmpsPerMetreVolt(z);
    for (let trial = 0; trial < 24; trial++) {
      const candidate = candidates[Math.floor(random.next() * candidates.length)]!;
      const ohms =
        candidate.kind === 'series' && trial % 2 === 0 ? Number.POSITIVE_INFINITY : 10 ** (4 * random.next());
      scan.read(placed(candidate, ohms), readings, charging);
      const { posts } = solvePlan(withFault(plan, candidate, ohms)).conditions[0]!;
      const strandsOf = (run: string, post: number) =>
        posts.flatMap((p) => p.strands.filter((s) => s.run === run && s.post === post && s.role === 'hot'));
      observations.forEach(({ kind, probe }, i) => {
        const strands = strandsOf(meter.fence.layout.runs[probe.run]!.run.id, probe.post);
        const volts = strands[0]!.voltsToEarth;
        const amps = strands.reduce((sum, { spanAmps }) => sum + spanAmps!, 0);
        const [found, expected, scale] =
          kind === 'volts' ? [readings[i]!, volts, 10_000] : [readings[i]! - charge * charging[i]!, amps, 10];
        expect(
          Math.abs(found - expected),
          `${candidate.kind} ${ohms} at ${candidate.run}/${candidate.post}`,
        ).toBeLessThan(tolerance * scale);
      });
    }
  });
});

describe('slopes by adjoint solves against differences of full solves', () => {
  /** So far below its range the charging current is nothing, and what the slopes leave out of it with it. */
  const noCharging = -40;
  /**
   * Central differences of 1e-4 bend by 1e-8 of a reading and lose 1e-12/1e-4 of the largest potentials in the network to
   * rounding; amps are differences of potentials over spans of half an ohm, so that much of kilovolts is some 1e-4 A.
   */
  const step = 1e-4;
  const allowed = (kind: Observation['kind'], reading: number) =>
    kind === 'volts' ? 1e-6 * Math.abs(reading) + 1e-4 : 1e-5 * Math.abs(reading) + 2e-4;

  function expectSlopes(meter: MeterFence, z: Float64Array, faults: readonly PlacedFault[]) {
    const observations = observationsOf(meter);
    const { readings, slopes } = predictWithSlopes(meter, observations, z, faults);
    expect(readings).toEqual(predictReadings(meter, observations, z, faults));
    meter.groups.list.forEach(({ key }, g) => {
      const at = (by: number) => {
        const moved = z.slice();
        moved[g]! += by;
        return predictReadings(meter, observations, moved, faults);
      };
      const [above, below] = [at(step), at(-step)];
      observations.forEach(({ kind }, i) => {
        const difference = (above[i]! - below[i]!) / (2 * step);
        expect(Math.abs(slopes.get(i, g) - difference), `${key}, ${kind} ${i}`).toBeLessThan(
          allowed(kind, readings[i]!),
        );
      });
    });
  }

  test.each(farms)('on $name, with a leak', ({ plan }) => {
    const meter = new MeterFence(plan, plan.conditions[0]!);
    const random = new Random(`slopes ${plan.title}`);
    const z = Float64Array.from(meter.groups.list, () => 2 * random.next() - 1);
    z[meter.groups.charging] = noCharging;
    const candidate = faultCandidates(meter).find(({ kind, post }) => kind === 'leak' && post === 7)!;
    expectSlopes(meter, z, [placed(candidate, 500)]);
  });

  test('with a wire parted, where the broken end’s own slope must not come in', () => {
    const { plan } = scoringFarms[0]!;
    const meter = new MeterFence(plan, plan.conditions[0]!);
    const z = new Float64Array(meter.groups.list.length).fill(0.3);
    z[meter.groups.charging] = noCharging;
    const candidate = faultCandidates(meter).find(({ kind, post }) => kind === 'series' && post === 150)!;
    expectSlopes(meter, z, [placed(candidate, Number.POSITIVE_INFINITY)]);
  });

  test('of the charging current itself', () => {
    const { plan } = scoringFarms[1]!;
    const meter = new MeterFence(plan, plan.conditions[0]!);
    const observations = observationsOf(meter);
    const z = new Float64Array(meter.groups.list.length).fill(0.2);
    const { slopes, readings } = predictWithSlopes(meter, observations, z);
    const g = meter.groups.charging;
    const moved = z.slice();
    moved[g]! += 1e-3;
    const above = predictReadings(meter, observations, moved);
    observations.forEach((_, i) => {
      // A logarithm's step of a thousandth bends by half a thousandth.
      expect(Math.abs((above[i]! - readings[i]!) / 1e-3 - slopes.get(i, g))).toBeLessThan(
        1e-3 * Math.abs(readings[i]!) + 1e-6,
      );
    });
  });
});

describe('the charging current that a meter clamps', () => {
  test('is that of the fence beyond, on a single line (current law)', () => {
    const { plan } = scoringFarms[0]!;
    const meter = new MeterFence(plan, plan.conditions[0]!);
    const observations = observationsOf(meter).filter(({ kind }) => kind === 'amps');
    const z = new Float64Array(meter.groups.list.length);
    const readings = predictReadings(meter, observations, z);
    const { posts } = solvePlan(plan).conditions[0]!;
    const strands = posts.flatMap((p) => p.strands).sort((a, b) => a.post - b.post);
    const spanM = 3000 / 200;
    const charge = meter.groups.chargingAmpsPerMetreVolt(z);
    observations.forEach(({ probe: { post } }, i) => {
      const beyond = strands
        .filter((s) => s.post > post)
        .reduce((sum, s) => sum + s.voltsToEarth * (s.post === 200 ? spanM / 2 : spanM), 0);
      // The charging current's own drop in the wire takes a little off the leaks beyond: under a hundredth here.
      const expected = strands.find((s) => s.post === post)!.spanAmps! + charge * beyond;
      expect(Math.abs(readings[i]! / expected - 1)).toBeLessThan(0.01);
    });
  });
});
