import { readResolvedPlan, solvePlan } from '@postvolt/core';
import { applyFit, fit as fitTables, type MeterReadings, parseReadings, spread } from '@postvolt/core/studies';
import { describe, expect, test } from 'vitest';
import { endOfRange } from '../../packages/core/src/network/draw-value.js';
import { MeterScale } from '../../packages/core/src/studies/meter/meter-error.js';
import { MeterFence } from '../../packages/core/src/studies/meter/meter-fence.js';
import { type Observation, observe, WireMap } from '../../packages/core/src/studies/meter/observation.js';
import { normalQuantile } from '../../packages/core/src/studies/spread/normal-quantile.js';
import { Random } from '../../packages/core/src/studies/spread/random.js';
import { scoringFarms } from '../scoring/farms.js';
import { exact, plainPlan } from '../support/fence.js';

const branches = scoringFarms[1]!.plan;
const places: [post: string, towards: string][] = [
  ['home', 'lane'],
  ['lane/30', 'lane/31'],
  ['west/0', 'west/1'],
  ['west/40', 'west/41'],
  ['brook/0', 'brook/1'],
  ['slope/0', 'slope/1'],
  ['top/0', 'top/1'],
];

/** Readings of a fence whose groups stand at `z`, from full solves, with the meter's error if a source of it is given. */
function readAt(plan: typeof branches, z: (key: string) => number, random: Random | null): MeterReadings {
  const meter = new MeterFence(plan, plan.conditions[0]!);
  const truth = Float64Array.from(meter.groups.list, ({ key }) => z(key));
  meter.set(truth);
  const { volts } = meter.circuit.solve();
  const charging = meter.chargingVolts(meter.circuit);
  const wires = new WireMap(meter.open);
  const error = () => (random === null ? 1 : 1 + 0.05 * normalQuantile(random.next()));
  const readings = places.map(([post, towards]) => {
    const blank = parseReadings({ readings: [{ post, strand: 'all', amps: 1, towards }] }, plan).readings[0]!;
    const run = meter.fence.layout.runOf.get(blank.run)!;
    const probe = wires.probe(run, blank.postNumber, blank.direction, wires.hotStrands(run));
    const read = (kind: Observation['kind']) =>
      observe(
        { kind, probe },
        volts,
        charging,
        meter.groups.chargingAmpsPerMetreVolt(truth),
        meter.circuit.network.branchSiemens,
      ) * error();
    return { ...blank, volts: read('volts'), amps: read('amps') };
  });
  return { condition: 'usual', meterErrorPercent: 5, readings };
}

/** Sum of squares that the fit makes least, by a full solve of the plan from scratch. */
function costAt(plan: typeof branches, round: MeterReadings, z: ReadonlyMap<string, number>): number {
  const scale = new MeterScale(round.meterErrorPercent);
  const model = readAt(plan, (key) => z.get(key) ?? 0, null);
  let sum = 0;
  for (const value of z.values()) sum += value ** 2;
  round.readings.forEach(({ volts, amps }, i) => {
    sum += (scale.even('volts', volts!) - scale.even('volts', model.readings[i]!.volts!)) ** 2;
    sum += (scale.even('amps', amps!) - scale.even('amps', model.readings[i]!.amps!)) ** 2;
  });
  return sum;
}

describe('the fit', () => {
  const truth: Readonly<Record<string, number>> = {
    'growth|lane': 1.2,
    'growth|west': 1.3,
    'film|slope': -1,
    energizer: -0.8,
  };
  const round = readAt(branches, (key) => truth[key] ?? 0, new Random('fit 1'));
  const fitted = fitTables(branches, round);
  const placeOf = new Map(fitted.calibration.groups.map(({ key, shift }) => [key, shift]));

  test('is the least of the sum of squares: a search from scratch finds nothing lower', () => {
    // Pattern search over all groups (R. Hooke and T. A. Jeeves 1961), every point a network built and factored anew.
    let best = new Map(placeOf);
    let least = costAt(branches, round, best);
    const start = least;
    for (const step of [0.3, 0.1, 0.03]) {
      for (const key of best.keys()) {
        for (const by of [step, -step]) {
          const moved = new Map(best).set(key, Math.max(-endOfRange, Math.min(endOfRange, best.get(key)! + by)));
          const cost = costAt(branches, round, moved);
          if (cost < least) [best, least] = [moved, cost];
        }
      }
    }
    // The fit stops where a step wins less than a thousandth; the slopes leave the charging current's second order out.
    expect(start - least).toBeLessThan(0.02);
  });

  test('explains the readings, and says what it moved', () => {
    expect(fitted.fits).toBe(true);
    expect(fitted.misfit.after).toBeLessThan(fitted.misfit.before);
    expect(fitted.misfit.after).toBeLessThan(2 * fitted.readings.length);
    expect(placeOf.get('energizer')!).toBeLessThan(0);
    const energizer = fitted.groups.find(({ key }) => key === 'energizer')!;
    expect(energizer.told).toBe('well');
    expect(energizer.multiplier).toBeLessThan(1);
    expect(fitted.sentence).toMatch(/^The readings told something of \d+ of \d+ uncertain values; most moved is /);
  });

  test('keeps every group within its table’s range', () => {
    for (const { place, widthLeft } of fitted.groups) {
      expect(Math.abs(place)).toBeLessThanOrEqual(1 + 1e-12);
      expect(widthLeft).toBeGreaterThan(0);
      expect(widthLeft).toBeLessThanOrEqual(1);
    }
  });

  test('cannot tell apart what the readings see together only, nor what they do not see', () => {
    // One number of one run: its growth and its insulators leak alike.
    const single = { ...round, readings: round.readings.slice(3, 4) };
    const { groups } = fitTables(branches, single);
    const of = (key: string) => groups.find((group) => group.key === key)!;
    expect(of('film|brook').told).toBe('not');
    expect(of('joint|clamp' as string) ?? { told: 'not' }).toHaveProperty('told', 'not');
  });

  test('says so where no tables within their ranges can explain the readings', () => {
    const dead = { ...round, readings: round.readings.map((r) => ({ ...r, volts: r.volts! / 4 })) };
    const result = fitTables(branches, dead);
    expect(result.fits).toBe(false);
    expect(result.sentence).toMatch(/^No tables within their ranges explain the readings, so look for a fault/);
    expect(result.groups.some(({ atEnd }) => atEnd)).toBe(true);
  });

  test('leaves everything as it is without readings', () => {
    const result = fitTables(branches, { ...round, readings: [] });
    expect(result.groups.every(({ told, multiplier }) => told === 'not' && multiplier === 1)).toBe(true);
    expect(result.sentence).toBe('There are no readings, so the tables stay as they are.');
  });
});

describe('one uncertain value, in closed form', () => {
  /** A single leak: two spans to the far end, all resistances sure but the end insulator's film. */
  const volts = (film: number) => {
    // Source 500 Ω and ground 50 Ω; posts of 1000 Ω at 0, 10 and 20 m, spans of 100 Ω: a ladder of three leaks.
    const leak = 1 / (1 / film + 1000);
    const far = leak;
    const middle = leak + far / (1 + 100 * far);
    const near = leak + middle / (1 + 100 * middle);
    const atNear = 6000 / (1 + 550 * near);
    return { near: atNear, far: atNear / (1 + 100 * middle) / (1 + 100 * far) };
  };

  test('the film settles where reading and prior balance', () => {
    const plan = plainPlan();
    const range = { ...exact(1 / 2000, 'S'), low: 1 / 8000, high: 1 / 500 };
    plan.rows.films = Object.fromEntries(
      Object.entries(plan.rows.films).map(([id, row]) => [
        id,
        { ...row, siemens: { dry: range, damp: range, wet: range } },
      ]),
    );
    const truth = volts(1 / 1000);
    const round = parseReadings(
      {
        readings: [
          { post: 'a', kV: truth.near / 1000 },
          { post: 'b', kV: truth.far / 1000 },
        ],
      },
      plan,
    );
    const scale = new MeterScale(5);
    // Golden-section search of the closed form's own sum of squares.
    const cost = (z: number) => {
      const at = volts((1 / 2000) * 4 ** (z / endOfRange));
      return (
        z ** 2 +
        (scale.even('volts', at.near) - scale.even('volts', truth.near)) ** 2 +
        (scale.even('volts', at.far) - scale.even('volts', truth.far)) ** 2
      );
    };
    let [low, high] = [-endOfRange, endOfRange];
    for (let i = 0; i < 200; i++) {
      const [a, b] = [low + (high - low) / 3, high - (high - low) / 3];
      if (cost(a) < cost(b)) high = b;
      else low = a;
    }
    const film = fitTables(plan, round).calibration.groups.find(({ key }) => key === 'film|north')!;
    // A sum of squares within a thousandth of the least is within a fortieth of a standard deviation of it.
    expect(Math.abs(film.shift - low)).toBeLessThan(0.025);
  });
});

describe('a calibrated plan', () => {
  const round = readAt(
    branches,
    (key) => (key === 'growth|lane' ? 1.5 : key === 'energizer' ? -1 : 0),
    new Random('fit 2'),
  );
  const result = fitTables(branches, round);
  const calibrated = applyFit(branches, result);

  test('solves to what the fit says', () => {
    const weakest = solvePlan(calibrated).conditions[0]!.verdict.weakest.voltsToEarth;
    expect(weakest / result.weakestVolts.after).toBeCloseTo(1, 9);
    expect(result.weakestVolts.before / solvePlan(branches).conditions[0]!.verdict.weakest.voltsToEarth).toBeCloseTo(
      1,
      9,
    );
  });

  test('reads back from JSON as it is', () => {
    const outcome = readResolvedPlan(JSON.parse(JSON.stringify(calibrated)));
    expect(outcome).toEqual({ ok: true, value: calibrated, issues: [] });
  });

  test('is surer than the plan was', async () => {
    const width = async (plan: typeof branches) => {
      const { p10, p90 } = (await spread(plan, { draws: 400 })).conditions[0]!.weakest;
      return p90 - p10;
    };
    expect(await width(calibrated)).toBeLessThan(0.8 * (await width(branches)));
  });

  test('is calibrated on by further readings, and not moved by the same picture again', () => {
    const again = fitTables(
      calibrated,
      readAt(calibrated, () => 0, null),
    );
    for (const { place } of again.groups) expect(Math.abs(place)).toBeLessThan(0.02);
    const twice = applyFit(calibrated, again);
    const [once, then] = [calibrated.calibration!, twice.calibration!];
    expect(then.groups.map(({ key }) => key)).toEqual(once.groups.map(({ key }) => key));
    then.groups.forEach(({ spread: left }, g) => {
      expect(left).toBeLessThanOrEqual(once.groups[g]!.spread + 1e-12);
    });
    expect(solvePlan(twice).conditions[0]!.verdict.weakest.voltsToEarth).toBeCloseTo(
      solvePlan(calibrated).conditions[0]!.verdict.weakest.voltsToEarth,
      -2,
    );
  });
});
