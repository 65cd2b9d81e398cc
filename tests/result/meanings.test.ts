import { PlanError, type PlanResult, parsePlan, readPlan, solvePlan, spanCount } from '@postvolt/core';
import { describe, expect, test } from 'vitest';
import { planOf } from '../plan/small-plan.js';

/** A metric plan in code: one wood-post run of 400 m from the barn, two strands, with changes on top. */
function plan(changes: Record<string, unknown> = {}, energizer: Record<string, unknown> = {}) {
  return {
    formatVersion: 1,
    title: 'meanings',
    units: 'metric',
    target: '3 kV',
    soil: 'loam',
    energizer: { at: 'barn', class: '3 J', groundResistance: '20 ohm', ...energizer },
    junctions: { barn: {}, far: {} } as Record<string, unknown>,
    builds: {
      two: {
        post: 'wood',
        postSpacing: '15 m',
        wire: '2.5 mm',
        insulator: 'nail-on claw',
        endInsulator: 'porcelain bullnose',
        strands: [
          { name: 'top', height: '0.9 m' },
          { name: 'low', height: '0.5 m' },
        ],
      },
    } as Record<string, unknown>,
    runs: { line: { from: 'barn', to: 'far', length: '400 m', build: 'two' } } as Record<string, unknown>,
    conditions: { rain: { soil: 'wet', surface: 'wet', growth: 'moderate', growthHeight: '0.7 m' } } as Record<
      string,
      unknown
    >,
    ...changes,
  };
}

const solve = (input: unknown): PlanResult => solvePlan(parsePlan(input));
const first = (input: unknown) => solve(input).conditions[0]!;
const postOf = (condition: ReturnType<typeof first>, id: string) => condition.posts.find((post) => post.id === id)!;
const strandOf = (condition: ReturnType<typeof first>, id: string, strand: string) =>
  postOf(condition, id).strands.find((s) => s.strand === strand)!;

describe('posts and spans', () => {
  test('a run has posts 0 to N = ceil(length / spacing), in equal spans', () => {
    for (const [length, spacing, spans] of [
      ['400 m', '15 m', 27],
      ['30 m', '15 m', 2],
      ['30.1 m', '15 m', 3],
      ['1320 ft', '40 ft', 33],
      ['0.5 mi', '20 ft', 132],
      ['4 m', '15 m', 1],
    ] as const) {
      const { runs } = parsePlan(
        plan({ runs: { line: { from: 'barn', to: 'far', length, postSpacing: spacing, build: 'two' } } }),
      );
      expect(spanCount(runs[0]!)).toBe(spans);
    }
    const positions = first(plan()).posts.flatMap((post) => (post.positionM === null ? [] : [post.positionM]));
    expect(positions).toHaveLength(26);
    positions.forEach((at, i) => {
      expect(at).toBeCloseTo(((i + 1) * 400) / 27, 9);
    });
  });

  test('explicit posts stand where they are said to stand', () => {
    const at = first(
      plan({
        runs: { line: { from: 'barn', to: 'far', length: '100 m', posts: ['10 m', '35 m', '90 m'], build: 'two' } },
      }),
    ).posts.flatMap((post) => (post.positionM === null ? [] : [post.positionM]));
    expect(at).toEqual([10, 35, 90]);
  });

  test('a junction is one post, listed once, with the strands of every run that ends there', () => {
    const tee = first(
      plan({
        junctions: { barn: {}, tee: {}, far: {}, side: {} },
        runs: {
          a: { from: 'barn', to: 'tee', length: '100 m', build: 'two' },
          b: { from: 'tee', to: 'far', length: '100 m', build: 'two' },
          c: { from: 'tee', to: 'side', length: '100 m', build: 'two' },
        },
      }),
    );
    const posts = tee.posts.filter((post) => post.junction === 'tee');
    expect(posts).toHaveLength(1);
    expect(posts[0]!.strands.map((s) => `${s.run}/${s.post} ${s.strand}`)).toEqual([
      'a/7 top',
      'a/7 low',
      'b/0 top',
      'b/0 low',
      'c/0 top',
      'c/0 low',
    ]);
    expect(new Set(posts[0]!.strands.map((s) => s.voltsToEarth)).size).toBe(1);
  });

  test('each strand that ends at a junction has its own end insulator; a through post has line insulators once', () => {
    const junctions = (through: boolean) => ({ barn: {}, mid: { through }, far: {} });
    const runs = {
      a: { from: 'barn', to: 'mid', length: '100 m', build: 'two' },
      b: { from: 'mid', to: 'far', length: '100 m', build: 'two' },
    };
    const ended = solve(plan({ junctions: junctions(false), runs })).counts;
    const passing = solve(plan({ junctions: junctions(true), runs })).counts;
    // 7 spans a run: 6 line posts each; ends: barn 2, mid 4, far 2.
    expect(ended.endInsulators).toEqual({ 'porcelain bullnose': 8 });
    expect(ended.lineInsulators).toEqual({ 'nail-on claw': 24 });
    expect(passing.endInsulators).toEqual({ 'porcelain bullnose': 4 });
    expect(passing.lineInsulators).toEqual({ 'nail-on claw': 26 });
    expect(ended.posts).toEqual({ wood: 15 });
  });
});

describe('strands, ties and jumpers', () => {
  test('hot strands are tied at both ends unless the plan says otherwise', () => {
    const tied = first(plan());
    expect(strandOf(tied, 'far', 'top').voltsToEarth).toBe(strandOf(tied, 'far', 'low').voltsToEarth);
    const build = plan().builds['two'] as object;
    const open = first(plan({ builds: { two: { ...build, ties: 'from' } } }));
    expect(strandOf(open, 'barn', 'top').voltsToEarth).toBe(strandOf(open, 'barn', 'low').voltsToEarth);
    // The low strand carries all the growth and now feeds it alone.
    expect(strandOf(open, 'far', 'low').voltsToEarth).toBeLessThan(strandOf(open, 'far', 'top').voltsToEarth);
  });

  test('a strand that nothing feeds is an error by name, and a jumper mends it', () => {
    const build = plan().builds['two'] as object;
    const loose = plan({ builds: { two: { ...build, ties: 'none' } } });
    const refused = readPlan(loose);
    expect(refused.ok).toBe(false);
    expect(JSON.stringify(refused.issues)).toContain('low');
    const mended = readPlan({ ...loose, jumpers: [{ run: 'line', post: 0, strands: ['top', 'low'] }] });
    expect(mended.ok).toBe(true);
  });

  test('hot joins hot and grounded joins grounded at a junction, whatever the builds', () => {
    const strands = [
      { name: 'hot', height: '0.9 m' },
      { name: 'return', height: '0.6 m', role: 'grounded' },
    ];
    const build = plan().builds['two'] as object;
    const both = first(
      plan({
        junctions: { barn: {}, mid: {}, far: {} },
        builds: { two: build, pair: { ...build, strands } },
        runs: {
          a: { from: 'barn', to: 'mid', length: '100 m', build: 'pair' },
          b: { from: 'mid', to: 'far', length: '100 m', build: 'two' },
        },
      }),
    );
    const mid = postOf(both, 'mid').strands;
    const hot = mid.filter((s) => s.role === 'hot').map((s) => s.voltsToEarth);
    expect(new Set(hot).size).toBe(1);
    const grounded = mid.find((s) => s.role === 'grounded')!;
    expect(grounded.voltsToEarth).toBeLessThan(0);
    expect(mid[0]!.voltsToGrounded).toBeCloseTo(hot[0]! - grounded.voltsToEarth, 9);
  });
});

describe('growth, stretches and fouling', () => {
  test('growth leaks only from a strand below its top', () => {
    const leaks = first(plan()).posts.flatMap((post) => post.strands);
    const sum = (strand: string) => leaks.filter((s) => s.strand === strand).reduce((a, s) => a + s.leakAmps, 0);
    const dry = first(plan({ conditions: { rain: { soil: 'wet', surface: 'wet', growth: 'none' } } }));
    const bare = dry.posts.flatMap((post) => post.strands).filter((s) => s.strand === 'top');
    expect(sum('low')).toBeGreaterThan(5 * sum('top'));
    expect(sum('top')).toBeCloseTo(
      bare.reduce((a, s) => a + s.leakAmps, 0),
      2,
    );
  });

  test('a stretch is half open for posts and pro rata for growth', () => {
    // Posts every 10 m; old insulators from 20 m up to, but not including, 50 m: posts 2, 3 and 4.
    const runs = { line: { from: 'barn', to: 'far', length: '100 m', postSpacing: '10 m', build: 'two' } };
    const old = solve(
      plan({ runs, stretches: [{ run: 'line', from: '20 m', to: '50 m', insulator: 'cheap nail-on claw' }] }),
    );
    expect(old.counts.lineInsulators).toEqual({ 'nail-on claw': 12, 'cheap nail-on claw': 6 });
    const conditions = { rain: { soil: 'wet', surface: 'wet', growth: 'none' } };
    const weedy = (from: string, to: string) =>
      first(
        plan({ runs, conditions, stretches: [{ run: 'line', from, to, growth: 'heavy', growthHeight: '2 m' }] }),
      ).leaks.find((leak) => leak.kind === 'vegetation')!.amps;
    // 15 m of growth leaks half as much again as 10 m, wherever the posts stand; what little the volts differ is under 1 %.
    expect(weedy('23 m', '38 m') / weedy('23 m', '33 m')).toBeCloseTo(1.5, 2);
  });

  test('a fraction of fouled insulators is every n-th post', () => {
    const runs = { line: { from: 'barn', to: 'far', length: '1000 m', postSpacing: '10 m', build: 'two' } };
    const result = first(plan({ runs, stretches: [{ run: 'line', fouledFraction: '10 %' }] }));
    const fouled = result.leaks.find((leak) => leak.cause.startsWith('fouled'))!;
    expect(fouled.places).toBe(20);
  });
});

describe('bodies, leaks and the budget', () => {
  test('three wires off one steel post share its one contact with the soil', () => {
    const build = plan().builds['two'] as object;
    const steel = {
      ...build,
      post: 'steel t-post',
      insulator: 't-post clip',
      strands: ['0.9 m', '0.7 m', '0.5 m'].map((height, i) => ({ name: `s${i}`, height })),
    };
    const fault = (n: number) =>
      [0, 1, 2].slice(0, n).map((i) => ({ kind: 'wire on post', run: 'line', post: 10, strand: `s${i}` }));
    const amps = (n: number) => postOf(first(plan({ builds: { two: steel }, faults: fault(n) })), 'line/10').bodyAmps;
    expect(amps(1)).toBeGreaterThan(1);
    // Two more contacts of an ohm beside a post of tens of ohms change its current by a few percent at the most.
    expect(amps(3) / amps(1)).toBeLessThan(1.1);
  });

  test('the leak budget adds up to 100 % and to the energizer’s current', () => {
    for (const faults of [
      [],
      [
        { kind: 'branch on wire', run: 'line', post: 5 },
        { kind: 'wire on post', run: 'line', post: 9 },
      ],
    ]) {
      const { leaks, energizer } = first(plan({ faults }));
      expect(leaks.reduce((sum, leak) => sum + leak.percent, 0)).toBeCloseTo(100, 9);
      expect(leaks.reduce((sum, leak) => sum + leak.amps, 0) / energizer.amps).toBeCloseTo(1, 9);
    }
  });

  test('a path is named by its larger resistance: new insulators on wet wood by themselves, bad ones in the dry by the post', () => {
    const wet = first(plan({ conditions: { wet: { soil: 'wet', surface: 'wet', growth: 'none' } } }));
    expect(wet.leaks[0]!.kind).toBe('insulators');
    const build = plan().builds['two'] as object;
    const fouled = { ...build, insulatorState: 'fouled', endInsulatorState: 'fouled' };
    const dry = first(
      plan({
        builds: { two: fouled },
        conditions: { dry: { soil: 'dry', surface: 'dry', air: 'wet', growth: 'none' } },
      }),
    );
    expect(dry.leaks[0]!.kind).toBe('posts');
  });

  test('span current runs from lower to higher post numbers, leaks to earth are positive, and both add up', () => {
    const away = first(plan());
    const back = first(plan({ runs: { line: { from: 'far', to: 'barn', length: '400 m', build: 'two' } } }));
    // Posts 5 and 22 are the same place, near the barn, from either end.
    expect(strandOf(away, 'line/5', 'low').spanAmps).toBeGreaterThan(0);
    expect(strandOf(back, 'line/22', 'low').spanAmps).toBeLessThan(0);
    const at = strandOf(away, 'line/10', 'low');
    const before = strandOf(away, 'line/9', 'low').spanAmps!;
    // Span currents are differences of kilovolts known to 1e-16 of themselves, over an ohm or so.
    expect(before - at.spanAmps!).toBeCloseTo(at.leakAmps, 10);
  });
});

describe('energizer and verdict', () => {
  test('terminal volts are the volts to earth at the fence terminal plus the ground’s rise', () => {
    const { energizer } = first(plan());
    expect(energizer.terminalVolts).toBeCloseTo(energizer.fenceVoltsToEarth + energizer.groundRiseVolts, 9);
    expect(energizer.groundRiseVolts).toBeCloseTo(energizer.amps * 20, 9);
  });

  test('the volts budget adds up to the open-circuit volts', () => {
    const { voltsBudget: b } = first(plan({}, { leadOut: { length: '50 m' } }));
    expect(b.insideEnergizer + b.groundSystem + b.leadOut + b.wire + b.leftAtWeakest).toBeCloseTo(b.openVolts, 8);
  });

  test('derating lowers the volts of its condition only', () => {
    const conditions = { warm: {}, cold: {} };
    const full = solve(plan({ conditions }));
    const derated = solve(plan({ conditions }, { derating: { cold: '80 %' } }));
    expect(derated.conditions[0]!.verdict.weakest.compared).toBe(full.conditions[0]!.verdict.weakest.compared);
    expect(derated.conditions[1]!.verdict.weakest.compared / full.conditions[1]!.verdict.weakest.compared).toBeCloseTo(
      0.8,
      9,
    );
  });

  test('the weakest post is the lowest hot strand, and equality holds the target', () => {
    const result = first(plan());
    const lowest = Math.min(...result.posts.flatMap((post) => post.strands.map((s) => s.voltsToEarth)));
    expect(result.verdict.weakest.voltsToEarth).toBe(lowest);
    const resolved = parsePlan(plan());
    const at = (volts: number) => solvePlan({ ...resolved, target: { ...resolved.target, volts } }).holds;
    expect(at(lowest)).toBe(true);
    expect(at(lowest * (1 + 1e-12))).toBe(false);
  });

  test('a target across the animal compares that', () => {
    const result = first(plan({ target: { volts: '3 kV', of: 'across the animal' } }));
    expect(result.verdict.weakest.compared).toBe(result.verdict.weakest.animalVolts);
    expect(result.verdict.weakest.animalVolts).toBeLessThan(result.verdict.weakest.voltsToEarth);
  });

  test('what is behind an open switch is listed and left out; what a fault has killed fails', () => {
    const runs = {
      line: { from: 'barn', to: 'far', length: '400 m', build: 'two' },
      spur: { from: 'far', to: 'end', length: '200 m', build: 'two' },
    };
    const junctions = { barn: {}, far: {}, end: {} };
    const off = first(plan({ junctions, runs, switches: [{ run: 'spur', span: 0, openIn: ['rain'] }] }));
    expect(off.verdict.holds).toBe(true);
    expect(off.switchedOffPosts).toContain('end');
    expect(off.switchedOffPosts).not.toContain('far');
    expect(strandOf(off, 'end', 'top')).toMatchObject({ status: 'switched off', distanceM: null });
    const cut = ['top', 'low'].map((strand) => ({ kind: 'broken wire', run: 'spur', span: 3, strand }));
    const dead = first(plan({ junctions, runs, faults: cut }));
    expect(dead.verdict.holds).toBe(false);
    expect(dead.deadPosts).toContain('end');
    expect(dead.verdict.sentence).toContain('cut off');
    expect(dead.warnings.map((w) => w.code)).toContain('dead-posts');
  });

  test('distance is along the shortest metal path, the lead-out included', () => {
    const loop = first(
      plan(
        {
          junctions: { barn: {}, a: {}, b: {} },
          runs: {
            short: { from: 'barn', to: 'a', length: '100 m', build: 'two' },
            long: { from: 'barn', to: 'b', length: '500 m', build: 'two' },
            join: { from: 'a', to: 'b', length: '100 m', build: 'two' },
          },
        },
        { leadOut: { length: '30 m' } },
      ),
    );
    expect(postOf(loop, 'barn').distanceM).toBeCloseTo(30, 9);
    expect(postOf(loop, 'b').distanceM).toBeCloseTo(230, 9);
  });

  test('limits of IEC 60335-2-76 are checked where data are entered, and otherwise said not to be', () => {
    const codes = (energizer: Record<string, unknown>) => solve(plan({}, energizer)).warnings.map((w) => w.code);
    expect(codes({})).toEqual(['iec-not-checked']);
    expect(codes({ joules: '4 J' })).toEqual([]);
    expect(codes({ joules: '8 J' })).toEqual(['iec-60335-2-76']);
    // 8 J into 500 Ω in 100 µs is some 12 A r.m.s., under 15.7 A; in 50 µs it is 17 A.
    expect(codes({ joules: '8 J', pulseWidth: '100 us' })).toEqual([]);
    expect(codes({ joules: '8 J', pulseWidth: '50 us' })).toEqual(['iec-60335-2-76']);
  });

  test('every condition carries its residuals, at rounding', () => {
    const { residuals } = first(plan({ faults: [{ kind: 'animal', run: 'line', post: 3 }] }));
    expect(residuals.kirchhoff).toBeLessThan(1e-13);
    expect(residuals.powerBalance).toBeLessThan(1e-12);
  });

  test('a long clean fence comes with its warning, a leaky one without', () => {
    const runs = { line: { from: 'barn', to: 'far', length: '9 km', build: 'two' } };
    const clean = { clean: { soil: 'dry', surface: 'dry', growth: 'none' } };
    expect(first(plan({ runs, conditions: clean })).warnings.map((w) => w.code)).toContain('long-clean-fence');
    expect(first(plan({ runs })).warnings.map((w) => w.code)).not.toContain('long-clean-fence');
  });
});

describe('a wire off its insulator (common practice, no source: harmless on fibreglass, a nuisance on wood, a heavy fault on steel)', () => {
  const lost = (post: string, insulator: string) => {
    const build = { ...(plan().builds['two'] as object), post, insulator };
    const volts = (faults: unknown[]) =>
      first(
        plan({
          builds: { two: build },
          faults,
          runs: { line: { from: 'barn', to: 'far', length: '2 km', build: 'two' } },
        }),
      ).verdict.weakest.compared;
    const whole = volts([]);
    return (whole - volts([{ kind: 'wire on post', run: 'line', post: 100 }])) / whole;
  };
  test('comes out of the physics', () => {
    const fibreglass = lost('fibreglass rod', 'fibreglass post clip');
    const wood = lost('wood', 'nail-on claw');
    const steel = lost('steel t-post', 't-post clip');
    expect(fibreglass).toBeLessThan(0.001);
    expect(wood).toBeGreaterThan(0.001);
    expect(wood).toBeLessThan(0.1);
    expect(steel).toBeGreaterThan(0.3);
  });
});

test('no condition at all, or one that the plan does not have, is refused with those that it has', () => {
  const { conditions: _, ...plan } = planOf();
  const read = parsePlan({ ...plan, conditions: { wet: { soil: 'wet' }, dry: { soil: 'dry' } } });
  for (const [conditions, found] of [
    [[], 'none'],
    [['damp'], '"damp"'],
  ] as const) {
    const issue = { path: ['conditions'], found, expected: 'one of "wet", "dry"' };
    expect(() => solvePlan(read, { conditions })).toThrow(
      expect.objectContaining({ name: PlanError.name, issues: [expect.objectContaining(issue)] }),
    );
  }
});
