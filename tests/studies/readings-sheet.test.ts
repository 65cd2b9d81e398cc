import { type ResolvedPlan, solvePlan } from '@postvolt/core';
import { expectedReadings } from '@postvolt/core/studies';
import { describe, expect, test } from 'vitest';
import { chargingAmpsPerMetreVolt } from '../../packages/core/src/studies/meter/background.js';
import { scoringFarms } from '../scoring/farms.js';
import { exact, plainPlan } from '../support/fence.js';
import { groundedFarm } from './meter-farm.js';

const [line, branches] = [scoringFarms[0]!.plan, scoringFarms[1]!.plan];

describe('the sheet', () => {
  test('lists ends, junctions and posts between, and where each wire leads', async () => {
    const { conditions } = await expectedReadings(branches);
    const lines = conditions[0]!.lines;
    const of = (run: string) => lines.filter((l) => l.run === run).map((l) => `${l.postNumber} ${l.reason}`);
    expect(of('lane')).toEqual(['0 energizer', '15 between', '30 between', '44 between', '59 junction']);
    expect(of('top')).toEqual(['0 junction', '13 between', '25 between', '38 between', '50 end']);
    expect(lines.find((l) => l.post === 'lane/0')).toMatchObject({ strand: 'all', wireTo: 'lane/1', flows: 'towards' });
    expect(lines.find((l) => l.post === 'top/50')).toMatchObject({ strand: 'top', wireTo: 'top/49', flows: 'from' });
  });

  test('lists gate posts and the corners of a run’s line', async () => {
    const plan: ResolvedPlan = {
      ...line,
      gates: [
        {
          id: 'yard gate',
          run: 'line',
          post: 20,
          cable: { wire: '12.5 ga insulated cable', lengthM: 8 },
          joint: 'clamp',
          carriesGrounded: true,
        },
      ],
      runs: [
        {
          ...line.runs[0]!,
          // East for a kilometre and a half, a bend of a few degrees, then north for the same.
          line: [
            [10, 50],
            [10.0105, 50],
            [10.021, 50.0005],
            [10.021, 50.014],
          ],
        },
      ],
      rows: {
        ...line.rows,
        wires: { ...groundedFarm.rows.wires, ...line.rows.wires },
        joints: { ...line.rows.joints, clamp: { id: 'clamp', aliases: [], about: '', ohms: exact(0.1, 'Ω') } },
      },
    };
    plan.rows.wires['12.5 ga insulated cable'] = {
      ...plan.rows.wires['12.5 ga high-tensile']!,
      id: '12.5 ga insulated cable',
    };
    const { conditions } = await expectedReadings(plan);
    const reasons = conditions[0]!.lines.filter(({ reason }) => reason === 'gate' || reason === 'corner');
    expect(reasons.map(({ postNumber, reason }) => `${postNumber} ${reason}`)).toEqual([
      '20 gate',
      '21 gate',
      '100 corner',
    ]);
  });

  test('expects what the solved plan has, and the charging current of the fence beyond', async () => {
    const { conditions } = await expectedReadings(line);
    const strands = solvePlan(line).conditions[0]!.posts.flatMap((post) => post.strands);
    for (const { postNumber, volts, amps, flows } of conditions[0]!.lines) {
      const strand = strands.find(({ post }) => post === postNumber)!;
      expect(volts.typical / strand.voltsToEarth).toBeCloseTo(1, 9);
      const beyond = strands
        .filter(({ post }) => post > postNumber)
        .reduce((sum, s) => sum + s.voltsToEarth * (s.post === 200 ? 7.5 : 15), 0);
      const last = postNumber === 200;
      // At the end the wire is clamped on its last span; all that leaves there is the end's own.
      const expected = last
        ? strands.find(({ post }) => post === 199)!.spanAmps! +
          chargingAmpsPerMetreVolt.typical * 7.5 * strand.voltsToEarth
        : strand.spanAmps! + chargingAmpsPerMetreVolt.typical * beyond;
      expect(flows).toBe(last ? 'from' : 'towards');
      // The charging current's own drop takes a little off the leaks.
      expect(Math.abs(amps!.typical / expected - 1)).toBeLessThan(0.01);
    }
  });

  test('has the meter’s error alone as its range where every table value is sure', async () => {
    const plan = plainPlan();
    const [first] = (await expectedReadings(plan, { meterErrorPercent: 10 })).conditions[0]!.lines;
    const { typical, low, high } = first!.volts;
    const sigma = Math.hypot(Math.hypot(0.1, 0.02) * typical, 50);
    // Percentiles 5 and 95 of a normal stand 1.645 standard deviations from its middle; 400 even draws settle them to a few hundredths.
    expect((high - typical) / sigma).toBeCloseTo(1.645, 1);
    expect((typical - low) / sigma).toBeCloseTo(1.645, 1);
  });

  test('holds nine readings of ten of fences drawn by plain Monte Carlo', async () => {
    const { CaseMaker } = await import('../scoring/cases.js');
    const { Random } = await import('../../packages/core/src/studies/spread/random.js');
    const { normalQuantile } = await import('../../packages/core/src/studies/spread/normal-quantile.js');
    const { WireMap } = await import('../../packages/core/src/studies/meter/observation.js');
    const maker = new CaseMaker(line);
    const wires = new WireMap(maker.meter.open);
    const { lines } = (await expectedReadings(line)).conditions[0]!;
    const random = new Random('sheet');
    const inside = { volts: 0, amps: 0 };
    const fences = 300;
    const place = lines[2]!;
    const probe = wires.probe(0, place.postNumber, 1, [0]);
    for (let f = 0; f < fences; f++) {
      const read = maker
        .makeAt(
          Float64Array.from(maker.meter.groups.list, () => normalQuantile(random.next())),
          random,
          null,
        )
        .read(probe);
      if (read.volts >= place.volts.low && read.volts <= place.volts.high) inside.volts++;
      if (read.amps >= place.amps!.low && read.amps <= place.amps!.high) inside.amps++;
    }
    // Of 300 draws at 90 %, counts lie within 4 standard deviations of 270, ±21; displays round to a tenth.
    expect(Math.abs(inside.volts - 0.9 * fences)).toBeLessThan(21);
    expect(Math.abs(inside.amps - 0.9 * fences)).toBeLessThan(21);
  });

  test('is the same for the same seed, and answers in a sentence', async () => {
    const [a, b, c] = await Promise.all([
      expectedReadings(line, { seed: 4 }),
      expectedReadings(line, { seed: 4 }),
      expectedReadings(line, { seed: 5 }),
    ]);
    expect(a).toEqual(b);
    expect(a).not.toEqual(c);
    expect(a.sentence).toMatch(/^With typical values a sound fence reads \d\.\d kV or more at all 5 places/);
  });

  test('stops when it is told to', async () => {
    const stop = new AbortController();
    stop.abort(new Error('enough'));
    await expect(expectedReadings(line, { signal: stop.signal })).rejects.toThrow('enough');
  });
});
