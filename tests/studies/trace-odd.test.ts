import { parsePlan, type ResolvedPlan } from '@postvolt/core';
import { applyFit, expectedReadings, fit as fitTables, parseReadings, trace } from '@postvolt/core/studies';
import { describe, expect, test } from 'vitest';
import { MeterFence } from '../../packages/core/src/studies/meter/meter-fence.js';
import { type Observation, WireMap } from '../../packages/core/src/studies/meter/observation.js';
import { predictReadings } from '../../packages/core/src/studies/meter/reading-model.js';
import { faultCandidates } from '../../packages/core/src/studies/trace/candidates.js';
import { placed } from '../../packages/core/src/studies/trace/linear-scan.js';
import { scoringFarms } from '../scoring/farms.js';
import { groundedFarm } from './meter-farm.js';

const branches = scoringFarms[1]!.plan;

/** A fence of one run with a post at either end. */
const tiny: ResolvedPlan = parsePlan({
  formatVersion: 1,
  title: 'Tiny',
  units: 'metric',
  target: 'cattle',
  soil: 'loam',
  energizer: { at: 'a', class: '1 J', groundRods: { count: 2 } },
  junctions: ['a', 'b'],
  builds: { one: { post: 'wood', postSpacing: '10 m', wire: '12.5 ga', strands: [{ name: 'top', height: '90 cm' }] } },
  runs: { only: { from: 'a', to: 'b', length: '8 m', build: 'one' } },
  conditions: { usual: { soil: 'moist', surface: 'damp' } },
} as never);

describe('a trace on odd fences', () => {
  test('of a single span', async () => {
    const readings = parseReadings(
      {
        readings: [
          { post: 'a', kV: 0.4 },
          { post: 'b', kV: 0.4 },
        ],
      },
      tiny,
    );
    const { verdict, faults } = await trace(tiny, readings);
    expect(verdict).toBe('fault');
    expect(faults[0]!.fenceShare).toBe(1);
  });

  test('with readings of zero everywhere', async () => {
    const readings = parseReadings(
      { readings: ['home', 'lane/30', 'ridge'].map((post) => ({ post, kV: 0 })) },
      branches,
    );
    const result = await trace(branches, readings);
    expect(result.verdict).toBe('fault');
    expect(JSON.stringify(result)).not.toContain('NaN');
    for (const { cost, kinds } of result.faults) {
      expect(cost).toBeGreaterThan(0);
      expect(kinds.leak + kinds.series + kinds.contact).toBeCloseTo(1, 9);
    }
  });

  test('with readings that no fence could give, says that nothing explains them', async () => {
    const readings = parseReadings(
      {
        readings: [
          { post: 'home', kV: 2 },
          { post: 'lane/30', kV: 9 },
          { post: 'fork', kV: 1 },
          { post: 'ridge', kV: 9 },
        ],
      },
      branches,
    );
    expect((await trace(branches, readings)).fits).toBe(false);
  });

  test('where a part is cut off near the energizer, and something else is wrong besides', async () => {
    const readings = parseReadings(
      {
        readings: [
          { post: 'home', strand: 'all', kV: 5.4, amps: 20, towards: 'lane' },
          { post: 'fork', kV: 4.6 },
          { post: 'slope/3', kV: 0, amps: 0, towards: 'slope/4' },
          { post: 'ridge', kV: 0 },
          { post: 'west/50', strand: 'all', kV: 3.5, amps: 14, towards: 'west/51' },
          { post: 'creek', kV: 3.2 },
        ],
      },
      branches,
    );
    const result = await trace(branches, readings);
    expect(result.verdict).toBe('fault');
    expect(JSON.stringify(result)).not.toMatch(/NaN|"cost":null/);
  });

  test('whose plan names a ticking insulator, taken as not firing', async () => {
    const plan = parsePlan({
      formatVersion: 1,
      title: 'Ticking',
      units: 'metric',
      target: 'cattle',
      soil: 'loam',
      energizer: { at: 'a', class: '3 J', groundRods: { count: 3 } },
      junctions: ['a', 'b'],
      builds: {
        one: {
          post: 'steel t-post',
          postSpacing: '10 m',
          wire: '12.5 ga',
          strands: [{ name: 'top', height: '90 cm' }],
        },
      },
      runs: { only: { from: 'a', to: 'b', length: '200 m', build: 'one' } },
      faults: [{ name: 'tick', kind: 'ticking insulator', run: 'only', post: 8, strand: 'top' }],
      conditions: { usual: { soil: 'moist', surface: 'damp' } },
    } as never);
    const { conditions } = await expectedReadings(plan);
    const [line] = conditions[0]!.lines;
    const readings = parseReadings({ readings: [{ post: line!.post, kV: line!.volts.typical / 1000 }] }, plan);
    expect((await trace(plan, readings)).verdict).not.toBe('fault');
    expect(fitTables(plan, readings).fits).toBe(true);
  });

  test('between a hot and a grounded strand', async () => {
    const meter = new MeterFence(groundedFarm, groundedFarm.conditions[0]!);
    const wires = new WireMap(meter.open);
    const touching = faultCandidates(meter).find(
      ({ kind, run, post }) => kind === 'contact' && run === 0 && post === 20,
    )!;
    const stops = [0, 10, 18, 24];
    const probes = stops.map((post) => wires.probe(0, post, 1, wires.hotStrands(0)));
    const read = (kind: Observation['kind']) =>
      predictReadings(
        meter,
        probes.map((probe) => ({ kind, probe })),
        new Float64Array(meter.groups.list.length),
        [placed(touching, 1)],
      );
    const [volts, amps] = [read('volts'), read('amps')];
    const readings = parseReadings(
      {
        readings: stops.map((post, i) => ({
          post: `north/${post}`,
          strand: 'all',
          kV: Math.max(0, volts[i]! / 1000),
          amps: Math.abs(amps[i]!),
          [amps[i]! < 0 ? 'from' : 'towards']: `north/${post + 1}`,
        })),
      },
      groundedFarm,
    );
    const { faults, verdict } = await trace(groundedFarm, readings);
    expect(verdict).toBe('fault');
    const [found] = faults;
    expect(found!.stretches[0]!.pieces).toContainEqual(expect.objectContaining({ run: 'north' }));
    expect(found!.stretches.some(({ pieces }) => pieces.some((p) => p.fromPost <= 20 && p.toPost >= 20))).toBe(true);
    // The current goes home by the grounded strand, so that the ground rods rise less than a leak of that size would have them.
    expect(found!.kinds.contact).toBeGreaterThan(found!.kinds.leak);
    expect(found!.causes[0]!.cause).toBe('strands touching');
  });

  test('calibrated by readings of a good day, knows the fence better', async () => {
    const sheet = (await expectedReadings(branches)).conditions[0]!.lines;
    const good = parseReadings(
      {
        readings: sheet.map(({ post, strand, volts, amps, wireTo, flows }) => ({
          post,
          strand,
          kV: volts.typical / 1000,
          ...(amps === null ? {} : { amps: amps.typical, [flows]: wireTo }),
        })),
      },
      branches,
    );
    const calibrated = applyFit(branches, fitTables(branches, good));
    const low = parseReadings(
      {
        readings: [
          { post: 'home', kV: 6.2 },
          { post: 'ridge', kV: 5.6 },
        ],
      },
      branches,
    );
    const [before, after] = await Promise.all([trace(branches, low), trace(calibrated, low)]);
    expect(after.faultChance).toBeGreaterThan(before.faultChance);
  });
});
