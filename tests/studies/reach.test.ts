import { PlanError, parsePlan, type ResolvedPlan, solvePlan } from '@postvolt/core';
import { reach, supply } from '@postvolt/core/studies';
import { readPlanText } from '@postvolt/core/yaml';
import { scenario } from '@postvolt/scenarios';
import { describe, expect, test } from 'vitest';
import { calibrated } from '../../packages/core/src/network/calibrate.js';
import { FenceOfLength } from '../../packages/core/src/studies/reach/fence-of-length.js';
import { exact, plainPlan, plainValues, strand } from '../support/fence.js';
import { bisect, farm, type Lengths, marginOf } from './stretched-farm.js';

const relative = (actual: number, expected: number) => Math.abs(actual / expected - 1);
const silent = { variations: false } as const;

const demo = (): ResolvedPlan => {
  const read = readPlanText(scenario('demo farm').plan);
  if (!read.ok) throw new Error('the demo farm does not read');
  return read.value;
};

describe('a uniform fence, in closed form (telegrapher’s equations at zero frequency; any text on transmission lines)', () => {
  const { ohmsPerMetre, insulatorOhms, postOhms, groundOhms, openVolts, sourceOhms } = plainValues;
  const spacingM = 10;
  const leak = 1 / (insulatorOhms + postOhms);

  /**
   * Far end of a ladder of N spans with a full leak at every post, behind source and ground: with cosh γ = 1 + RG/2 the leaks
   * of the posts add up to G sinh((N+1)γ)/(2 sinh(γ/2) cosh((N+½)γ)) as the first post sees them.
   */
  function farEnd(lengthM: number, spans: number): number {
    const R = (ohmsPerMetre * lengthM) / spans;
    const gamma = Math.acosh(1 + (R * leak) / 2);
    const all = Math.cosh((spans + 0.5) * gamma);
    const draw = (leak * Math.sinh((spans + 1) * gamma)) / (2 * Math.sinh(gamma / 2));
    return (openVolts * Math.cosh(gamma / 2)) / (all + (sourceOhms + groundOhms) * draw);
  }

  /** Walks post by post to the last that holds, then halves within its span. */
  function closedForm(targetVolts: number): { readonly metres: number; readonly by: string } {
    let spans = 1;
    while (farEnd(spans * spacingM, spans) >= targetVolts) spans++;
    const full = (spans - 1) * spacingM;
    if (spans > 1 && farEnd(full, spans) < targetVolts) return { metres: full, by: 'one more post' };
    let [low, high] = [full, spans * spacingM];
    while (high - low > 1e-12 * high) {
      const middle = (low + high) / 2;
      if (farEnd(middle, spans) >= targetVolts) low = middle;
      else high = middle;
    }
    return { metres: low, by: 'length' };
  }

  /** The study stops at a billionth of the length; the closed form's own rounding is below that. */
  const tolerance = 3e-9;

  // From above: hardly a span; within spans; at the steps between them.
  test.each([4100, 3900, 3700, 3500, 3333, 3000, 2500, 2000, 1500, 1234, 1000, 500, 200, 60])(
    'post by post, target %i V',
    async (volts) => {
      const plan = plainPlan({ target: { volts, of: 'to earth', label: 'the target' } });
      const { reachM, conditions, status } = await reach(plan, silent);
      const expected = closedForm(volts);
      expect(status).toBe('found');
      expect(relative(reachM!, expected.metres)).toBeLessThan(tolerance);
      expect(conditions[0]!.endedBy).toBe(expected.by);
      expect(conditions[0]!.holds).toHaveLength(1);
    },
  );

  test('both ways of ending occur among them', () => {
    const ends = [4100, 3900, 3700, 3500, 3333, 3000, 2500, 2000, 1500, 1234, 1000, 500, 200, 60].map(
      (v) => closedForm(v).by,
    );
    expect(new Set(ends)).toEqual(new Set(['length', 'one more post']));
  });

  test.each([5000, 3000, 1000, 300])('growth alone is a leaky line, target %i V', async (volts) => {
    // V(ℓ) = E / (cosh γℓ + β sinh γℓ), β = (Rs + Rg)/Zc, so u = e^γℓ solves (1+β)u² − 2(E/V)u + (1−β) = 0.
    const perMetre = 3e-6;
    const gamma = Math.sqrt(ohmsPerMetre * perMetre);
    const beta = (sourceOhms + groundOhms) * Math.sqrt(perMetre / ohmsPerMetre);
    const ratio = openVolts / volts;
    const expected = Math.log((ratio + Math.sqrt(ratio * ratio - 1 + beta * beta)) / (1 + beta)) / gamma;
    const plan = plainPlan({ target: { volts, of: 'to earth', label: 'the target' } });
    plan.runs[0] = { ...plan.runs[0]!, posts: { kind: 'equal', spacingM: 0.5 } };
    plan.rows.insulators['claw'] = { ...plan.rows.insulators['claw']!, formFactor: exact(1e30) };
    plan.stretches = [entireLeak(perMetre)];
    const { reachM } = await reach(plan, silent);
    // Spans of h shift γ by (γh)²/24 and the characteristic resistance by (γh)²/8, h = 0.5 m: 1e-6 of the length.
    expect(relative(reachM!, expected)).toBeLessThan(((gamma * 0.5) ** 2 / 8) * 1.5 + tolerance);
  });
});

const entireLeak = (perMetre: number): ResolvedPlan['stretches'][number] => ({
  id: 'growth',
  run: 'north',
  fromM: 0,
  toM: null,
  strands: null,
  conditions: null,
  set: {
    ...{ post: null, soil: null, wire: null, insulator: null, insulatorState: null, fouledFraction: null },
    ...{ growth: null, growthWetness: null, postWetness: null },
    leakSiemensPerMetre: exact(perMetre, 'S/m'),
  },
});

describe('against halving on full solves of plans written out anew', () => {
  /** Both routes are sharp to far less; a lost post would be 5e-4, a millionth is none. */
  const tolerance = 1e-6;
  const across = (plan: { target: unknown }) => {
    plan.target = { volts: '1 kV', of: 'across the animal' };
  };

  const cases: readonly (readonly [string, { run?: string }, (factor: number) => Lengths, string])[] = [
    ['everything, summer', {}, (f) => ({ north: f, lane: f, target: '3.5 kV' }), 'summer'],
    ['everything, storm', {}, (f) => ({ north: f, lane: f }), 'storm'],
    ['one run, summer', { run: 'north' }, (f) => ({ north: f, lane: 1 }), 'summer'],
    ['one run, storm', { run: 'north' }, (f) => ({ north: f, lane: 1 }), 'storm'],
    ['the lane, storm', { run: 'lane' }, (f) => ({ north: 1, lane: f, target: '1.5 kV' }), 'storm'],
    ['volts across the animal', {}, (f) => ({ north: f, lane: f, change: across }), 'summer'],
  ];

  test.each(cases)('%s', async (_, what, lengths, condition) => {
    const { conditions } = await reach(farm(lengths(1)), { ...what, ...silent, conditions: [condition] });
    const { factor, holds, presentVolts, weakestVolts, reachM } = conditions[0]!;
    expect(factor).not.toBeNull();
    const margin = (f: number) => marginOf(farm(lengths(f)), condition);
    // A bracket of the test's own: from where it is halved or doubled past the crossing.
    let [low, high] = [1, 1];
    while (margin(low) < 0) low /= 2;
    while (margin(high) >= 0) high *= 2;
    const expected = bisect(margin, low, high, tolerance / 10);
    expect(relative(factor!, expected)).toBeLessThan(tolerance);
    expect(holds).toHaveLength(1);
    const plan = farm(lengths(factor!));
    const lengthM = plan.runs.reduce(
      (sum, run) => sum + (what.run === undefined || run.id === what.run ? run.lengthM : 0),
      0,
    );
    expect(relative(reachM!, lengthM)).toBeLessThan(1e-9);
    const target = plan.target.volts;
    expect(relative(presentVolts, margin(1) + target)).toBeLessThan(1e-9);
    expect(relative(weakestVolts, margin(factor!) + target)).toBeLessThan(1e-6);
  });

  test('the shortest of the conditions decides', async () => {
    const result = await reach(farm({ north: 1, lane: 1 }), silent);
    const reaches = result.conditions.map(({ reachM }) => reachM!);
    expect(result.reachM).toBe(Math.min(...reaches));
    expect(result.decides).toBe('storm');
    expect(result.sentence).toContain('storm decides');
  });
});

describe('what changes with wire, strands, posts and the energizer’s place', () => {
  /** The study promises a thousandth, from below. */
  const width = 1e-3;

  function expectReach(factor: number, margin: (factor: number) => number): void {
    expect(margin(factor)).toBeGreaterThanOrEqual(0);
    expect(margin(factor * (1 + 1.01 * width))).toBeLessThan(0);
  }

  const find = async (lengths: Lengths, run?: string) => {
    const result = await reach(farm(lengths), {
      ...(run === undefined ? {} : { run }),
      conditions: ['storm'],
      variations: { wires: ['1.6 mm high-tensile', 'poly braid'], hotStrands: [-1, 1], spacing: [0.5, 2] },
    });
    return (change: string) => {
      const found = result.variations.find((variation) => variation.change === change);
      if (!found) throw new Error(`no "${change}" among ${result.variations.map((v) => v.change).join(', ')}`);
      return found;
    };
  };
  const cattle =
    (change: (build: { wire: string; strands: object[]; postSpacing: string }) => void) =>
    (f: number): ResolvedPlan =>
      farm({ north: f, lane: f, change: (plan) => change(plan.builds.cattle) });

  test('everything scaled, each change written out by hand', { timeout: 120_000 }, async () => {
    const of = await find({ north: 1, lane: 1 });
    const storm = (make: (f: number) => ResolvedPlan) => (f: number) => marginOf(make(f), 'storm');
    for (const wire of ['1.6 mm high-tensile', 'poly braid'])
      expectReach(of(wire).factor!, storm(cattle((build) => Object.assign(build, { wire }))));
    const more = cattle((build) => void build.strands.push({ name: 'more', height: '85 cm' }));
    expectReach(of('3 hot strands').factor!, storm(more));
    const fewer = (f: number) =>
      farm({
        ...{ north: f, lane: f },
        change: (plan) => {
          plan.builds.cattle.strands.pop();
          plan.stretches = [];
          plan.jumpers = [];
        },
      });
    expectReach(of('1 hot strand').factor!, storm(fewer));
    expect(of('2 hot strands').isPresent).toBe(true);
    expect(of('posts every 12 m').isPresent).toBe(true);
    expect(of('at shed').isPresent).toBe(true);
    const atHill = (f: number) =>
      farm({ north: f, lane: f, change: (plan) => Object.assign(plan.energizer, { at: 'hill' }) });
    expectReach(of('at hill').factor!, storm(atHill));
  });

  test('posts closer and farther: a fence of the same runs with other posts', async () => {
    // The bad splice and the switch sit on a span each; numbered anew by the test for the other spacing.
    const of = await find({ north: 1, lane: 1 });
    for (const [change, spacing] of [
      ['posts every 6 m', 0.5],
      ['posts every 24 m', 2],
    ] as const) {
      const spans = (count: number, f: number) => Math.max(1, Math.ceil((count / spacing) * f - 1e-9));
      const moved = (at: number, count: number, f: number) => {
        const respaced = Math.round((at + 0.5) / spacing - 0.5);
        return Math.round(((respaced + 0.5) * spans(count, f)) / Math.ceil(count / spacing) - 0.5);
      };
      const plan = (f: number) =>
        farm({
          ...{ north: f, lane: f },
          change: (p) => {
            p.builds.cattle.postSpacing = `${12 * spacing} m`;
            p.faults[0].span = moved(8, 40, f);
            p.switches[0].span = moved(3, 12, f);
            p.jumpers[0].post = Math.round(0.5 * spans(12, f));
          },
        });
      expectReach(of(change).factor!, (f) => marginOf(plan(f), 'storm'));
    }
  });

  test('the energizer on the way along a run splits it there', async () => {
    const plan = plainPlan({ target: { volts: 800, of: 'to earth', label: 'the target' } });
    const strands = [strand('top', { heightM: 1 }), strand('low', { heightM: 0.5 })];
    plan.builds[0] = { ...plan.builds[0]!, strands, ties: 'from' };
    plan.runs[0] = { ...plan.runs[0]!, lengthM: 70 };
    plan.stretches = [{ ...entireLeak(2e-5), fromM: 20, toM: 50 }];
    const { variations, presentM } = await reach(plan, { variations: { wires: [], hotStrands: [], spacing: [] } });
    expect(variations.map(({ change }) => change)).toEqual([
      'at a',
      'a quarter of the way along north',
      'half of the way along north',
      'three quarters of the way along north',
      'at b',
    ]);
    const splitAt = (quarters: number) => (f: number) => {
      const lengthM = 70 * f;
      const spans = Math.ceil(lengthM / 10 - 1e-9);
      const post = Math.round((quarters / 4) * spans);
      const span = lengthM / spans;
      const each = { kind: 'equal', spacingM: span * (1 + 1e-12) } as const;
      const build = plan.builds[0]!;
      const run = plan.runs[0]!;
      const split: ResolvedPlan = {
        ...plan,
        energizer: { ...plan.energizer, junction: 'x' },
        junctions: [...plan.junctions, { id: 'x', name: 'x', at: null, through: true, post: null }],
        builds: [
          { ...build, id: 'one', ties: 'both' },
          { ...build, id: 'two', ties: 'from' },
        ],
        runs: [
          { ...run, id: 'one', to: 'x', lengthM: post * span, posts: each, build: 'one' },
          { ...run, id: 'two', from: 'x', lengthM: (spans - post) * span, posts: each, build: 'two' },
        ],
        stretches: [],
      };
      const leaks: ResolvedPlan['stretches'] = [];
      const x = post * span;
      if (20 * f < x) leaks.push({ ...entireLeak(2e-5), run: 'one', fromM: 20 * f, toM: Math.min(50 * f, x) });
      if (50 * f > x) leaks.push({ ...entireLeak(2e-5), run: 'two', fromM: Math.max(0, 20 * f - x), toM: 50 * f - x });
      return marginOf({ ...split, stretches: leaks }, 'usual');
    };
    for (const [i, variation] of variations.entries()) {
      if (i === 0 || i === 4) continue;
      expect(variation.reachM! / presentM).toBeCloseTo(variation.factor!, 9);
      expectReach(variation.factor!, splitAt(i));
    }
    // Fed from the middle a fence goes farther than from its end.
    expect(variations[2]!.reachM!).toBeGreaterThan(variations[0]!.reachM!);
  });
});

describe('where there is no plain answer', () => {
  test('never: a weak energizer on bad ground falls short at any length', async () => {
    const lengths = (f: number): Lengths => ({ north: f, lane: f, target: '9 kV' });
    const result = await reach(farm(lengths(1)), { ...silent, conditions: ['storm'] });
    expect(result).toMatchObject({ status: 'never', reachM: null, factor: null, decides: 'storm' });
    expect(result.conditions[0]!.holds).toEqual([]);
    expect(result.sentence).toMatch(/^At no length does the fence hold 9 kV .* in storm: however short/);
    for (const f of [1e-3, 1e-2, 0.1, 0.5, 1, 3]) expect(marginOf(farm(lengths(f)), 'storm')).toBeLessThan(0);
  });

  test('beyond the bound: the length that was looked at holds, and is said to be no more than that', async () => {
    const plan = farm({ north: 1, lane: 1, target: '100 V' });
    const result = await reach(plan, { ...silent, conditions: ['summer'], mostM: 3000 });
    expect(result).toMatchObject({ status: 'beyond', decides: null });
    expect(result.reachM).toBeCloseTo(3000, 6);
    const factor = 3000 / result.presentM;
    expect(marginOf(farm({ north: factor, lane: factor, target: '100 V' }), 'summer')).toBeGreaterThan(0);
    expect(result.sentence).toContain('the longest that was looked at');
  });

  test('a fault that cuts posts off leaves no length', async () => {
    const change: Lengths['change'] = (plan) => {
      plan.faults.push({ kind: 'broken wire', run: 'lane', span: 9, strand: 'top' });
      plan.builds.cattle.ties = 'from';
    };
    const result = await reach(farm({ north: 1, lane: 1, change }), { ...silent, conditions: ['storm'] });
    expect(result).toMatchObject({ status: 'cut off', reachM: null });
    expect(result.sentence).toContain('a fault cuts posts off');
  });

  /*
   * Two runs from one junction. `north` is thin and long and has the weakest post; `spur` ends in a heavy fault. Stretching
   * the spur puts its wire before the fault: north gains until the spur's own end falls short. So it holds between two lengths.
   */
  test('not monotone: holds between two lengths only, both found', async () => {
    const plan = plainPlan({ target: { volts: 1360, of: 'to earth', label: 'the target' } });
    const post = 4;
    plan.junctions = ['a', 'b', 'c'].map((id) => ({ id, name: id, at: null, through: false, post: null }));
    plan.runs = [
      { ...plan.runs[0]!, lengthM: 40 },
      { ...plan.runs[0]!, id: 'spur', name: 'spur', to: 'c', lengthM: 40 },
    ];
    plan.faults = [
      {
        id: 'f',
        kind: 'wire on ground',
        run: 'spur',
        post,
        on: 'post',
        strand: 'top',
        otherStrand: null,
        ohms: exact(400),
        gapVolts: null,
        conditions: null,
      },
    ];
    const result = await reach(plan, { ...silent, run: 'spur' });
    const { holds, status } = result.conditions[0]!;
    const margin = (metres: number) => {
      const spans = Math.max(1, Math.ceil(metres / 10 - 1e-9));
      const [north, spur] = [plan.runs[0]!, plan.runs[1]!];
      const faults = [{ ...plan.faults[0]!, post: spans }];
      return marginOf({ ...plan, runs: [north, { ...spur, lengthM: metres }], faults }, 'usual');
    };
    expect(status).toBe('found');
    expect(holds).toHaveLength(1);
    const [{ fromM, toM }] = holds as [{ fromM: number; toM: number }];
    expect(margin(1)).toBeLessThan(0);
    const middle = (fromM + toM) / 2;
    // The start is promised to 1e-4 only, the end sharp.
    expect(relative(fromM, bisect(margin, middle, 1, 1e-9))).toBeLessThan(2e-4);
    expect(relative(toM, bisect(margin, middle, 2 * toM, 1e-10))).toBeLessThan(1e-8);
    expect(result.sentence).toContain('not at every shorter length');
  });
});

describe('the demo farm', () => {
  const plan = demo();

  test('holds at its reach by a full solve, and a hair beyond it no more', { timeout: 120_000 }, async () => {
    const result = await reach(plan, { ...silent, conditions: ['wet autumn', 'wet spring'] });
    const fence = new FenceOfLength(plan, new Set(plan.runs.map(({ id }) => id)));
    for (const { id, factor, status, holds, weakestPost } of result.conditions) {
      const verdict = (f: number) => solvePlan(fence.planAt(f), { conditions: [id] }).conditions[0]!.verdict;
      expect(verdict(factor!).holds).toBe(true);
      expect(verdict(factor!).weakest.postId).toBe(weakestPost);
      if (status === 'found') expect(verdict(factor! * (1 + 1e-6)).holds).toBe(false);
      expect(holds).toHaveLength(1);
      for (const part of [0.2, 0.8]) expect(verdict(part * factor!).holds).toBe(true);
    }
  });

  test('a network that is kept for a count of posts gives what one built for the length gives', () => {
    const all = new Set(plan.runs.map(({ id }) => id));
    for (const [runs, place] of [
      [all, null],
      [new Set(['spur']), null],
      [new Set(['cross 1']), { run: 'cross 1', fraction: 0.3 }],
    ] as const) {
      const kept = new FenceOfLength(plan, runs, place);
      for (const condition of plan.conditions) {
        // A ten-thousandth shorter: less than a post on any run.
        for (const factor of [1, 0.9999]) {
          const { volts, post } = new FenceOfLength(plan, runs, place).lowest(condition, factor);
          const again = kept.lowest(condition, factor);
          // Conductances agree to their last digits; paths of a thousand spans add some of those up.
          expect(relative(again.volts, volts)).toBeLessThan(1e-11);
          expect(again.post).toEqual(post);
        }
      }
      expect(kept.builds).toBe(plan.conditions.length);
      expect(kept.passes).toBe(plan.conditions.length);
    }
  });

  test('at factor 1 it is the plan itself', () => {
    const fence = new FenceOfLength(plan, new Set(plan.runs.map(({ id }) => id)));
    const solved = solvePlan(plan);
    for (const [i, condition] of plan.conditions.entries()) {
      const { verdict } = solved.conditions[i]!;
      expect(fence.lowest(condition, 1).volts).toBe(verdict.weakest.compared);
      expect(fence.lowest(condition, 1).postId).toBe(verdict.weakest.postId);
    }
    const { lengthM } = fence;
    expect(lengthM).toBeCloseTo(
      plan.runs.reduce((sum, run) => sum + run.lengthM, 0),
      6,
    );
  });
});

describe('posts placed by hand', () => {
  test('keep the pattern of their spacing, and the plan at factor 1', async () => {
    const plan = plainPlan({ target: { volts: 2500, of: 'to earth', label: 'the target' } });
    const positionsM = [0, 4, 20, 30, 33, 50];
    plan.runs[0] = { ...plan.runs[0]!, lengthM: 50, posts: { kind: 'at', positionsM } };
    const fence = new FenceOfLength(plan, new Set(['north']));
    expect(fence.planAt(1).runs[0]!.posts).toEqual({ kind: 'at', positionsM });
    expect(fence.planAt(2).runs[0]!.posts).toEqual({
      kind: 'at',
      positionsM: [0, 4, 8, 24, 40, 50, 60, 63, 66, 83, 100],
    });
    const { reachM, factor } = await reach(plan, silent);
    expect(reachM! / 50).toBeCloseTo(factor!, 9);
    const margin = (f: number) => marginOf(fence.planAt(f), 'usual');
    expect(margin(factor!)).toBeGreaterThanOrEqual(0);
    expect(margin(factor! * (1 + 1e-7))).toBeLessThan(0);
  });
});

describe('a plan that readings have calibrated', () => {
  const by = { shift: 0.8, spread: 0.5 };
  const keys = [
    ...['growth|north from 0 m', 'growth|north from 150 m', 'growth|north from 250 m', 'growth|lane'],
    ...['film|north', 'film|lane', 'soil|loam'],
  ];
  const told = (plan: ResolvedPlan): ResolvedPlan => ({
    ...plan,
    calibration: {
      groups: keys.map((key) => ({ key, ...by })),
      correlation: keys.map((_, i) => keys.map((_, j) => (i === j ? 1 : 0))),
    },
  });
  /** The same values written into the rows. */
  const written = (plan: ResolvedPlan): ResolvedPlan => {
    const { vegetation, films, soils } = plan.rows;
    const each = <T>(rows: Record<string, T>, change: (row: T) => T) =>
      Object.fromEntries(Object.entries(rows).map(([id, row]) => [id, change(row)]));
    const cells = <T extends object>(row: T): T =>
      Object.fromEntries(Object.entries(row).map(([name, cell]) => [name, calibrated(cell, by)])) as T;
    const rows = {
      ...plan.rows,
      vegetation: each(vegetation, (row) => ({ ...row, wetSiemensPerMetre: calibrated(row.wetSiemensPerMetre, by) })),
      films: each(films, (row) => ({ ...row, siemens: cells(row.siemens) })),
      soils: each(soils, (row) => ({
        ...row,
        states: Object.fromEntries(Object.entries(row.states).map(([s, at]) => [s, cells(at)])) as typeof row.states,
      })),
    };
    return { ...plan, rows };
  };

  test('keeps what was learnt of each part at any length, and where a run is split', async () => {
    const plan = farm({ north: 1, lane: 1 });
    const options = {
      conditions: ['storm'],
      variations: { wires: [], hotStrands: [1], spacing: [2], energizerAlong: 'north' },
    };
    const [a, b] = await Promise.all([reach(told(plan), options), reach(written(plan), options)]);
    const plain = await reach(plan, { ...options, variations: false });
    expect(relative(a.reachM!, plain.reachM!)).toBeGreaterThan(0.05);
    // Two networks of the same values; the searches end within a billionth, those of the changes within a thousandth.
    expect(relative(a.reachM!, b.reachM!)).toBeLessThan(3e-9);
    expect(a.variations.length).toBeGreaterThan(6);
    for (const [i, { change, factor }] of a.variations.entries()) {
      expect(b.variations[i]!.change).toBe(change);
      expect(relative(factor!, b.variations[i]!.factor!)).toBeLessThan(1e-3);
    }
  });

  test('keeps what was learnt of the soil for any number of rods', async () => {
    const plan = farm({ north: 1, lane: 1 });
    const [c, d] = await Promise.all([supply(told(plan), { counts: [3] }), supply(written(plan), { counts: [3] })]);
    expect(relative(c.tradeOff[0]!.mostOhms, d.tradeOff[0]!.mostOhms)).toBeLessThan(1e-12);
    expect(relative(c.tradeOff[0]!.factor!, c.leastOutput.factor!)).toBeLessThan(1e-12);
    expect(relative(c.leastOutput.factor!, d.leastOutput.factor!)).toBeLessThan(1e-12);
  });
});

describe('the result and the options', () => {
  const small = () => plainPlan();

  test('is plain data', async () => {
    const result = await reach(small());
    expect(JSON.parse(JSON.stringify(result))).toEqual(result);
  });

  test('can be watched and stopped', async () => {
    const shares: number[] = [];
    await reach(small(), { onProgress: (share) => shares.push(share) });
    expect(shares.at(-1)).toBe(1);
    expect(shares).toEqual([...shares].sort((a, b) => a - b));
    const stopped = new AbortController();
    stopped.abort(new Error('enough'));
    await expect(reach(small(), { signal: stopped.signal })).rejects.toThrow('enough');
  });

  test('stops in the middle', async () => {
    const controller = new AbortController();
    const running = reach(demo(), {
      signal: controller.signal,
      onProgress: () => controller.abort(new Error('enough')),
    });
    await expect(running).rejects.toThrow('enough');
  });

  test.each([
    [{ run: 'nroth' }, /run: found "nroth".*Did you mean "north"/],
    [{ conditions: ['summer'] }, /conditions: found "summer"/],
    [{ mostM: -1 }, /mostM: found -1/],
    [{ variations: { wires: ['13 mm rope'] } }, /wires: found "13 mm rope"/],
    [{ variations: { spacing: [0] } }, /spacing: found 0/],
    [{ variations: { hotStrands: [0.5] } }, /hotStrands: found 0.5/],
    [{ variations: { energizerAlong: 'lane' } }, /energizerAlong: found "lane"/],
  ])('%j is refused', async (options, message) => {
    const error = await reach(small(), options).then(
      () => null,
      (reason: unknown) => reason,
    );
    expect(error).toBeInstanceOf(PlanError);
    expect((error as PlanError).message).toMatch(message);
  });

  test('a plan’s own wire may be varied by its name', async () => {
    const plan = parsePlan({
      formatVersion: 1,
      units: 'metric',
      soil: 'loam',
      energizer: { at: 'a', class: '1 J', groundRods: { count: 3 } },
      junctions: ['a', 'b'],
      builds: { b: { post: 'wood', wire: 'mine', strands: [{ height: '90 cm' }] } },
      tables: { wires: { mine: { like: '12.5 ga', about: 'A test wire.' } } },
      runs: { r: { from: 'a', to: 'b', length: '500 m', build: 'b' } },
      conditions: { wet: { surface: 'wet', soil: 'wet' } },
    } as never);
    const { variations } = await reach(plan, {
      variations: { wires: ['mine'], hotStrands: [], spacing: [], energizer: false },
    });
    expect(variations).toMatchObject([{ kind: 'wire', change: 'mine', isPresent: true }]);
  });
});
