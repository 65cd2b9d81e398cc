import type { ResolvedPlan } from '@postvolt/core';
import { reach } from '@postvolt/core/studies';
import { describe, expect, test } from 'vitest';
import { earthReturnAt5kHz, exact, strand } from '../support/fence.js';
import { fault, lossless, withCold } from './lossless.js';

const silent = { variations: false } as const;
/** The study is sharp to a billionth of the length. */
const sharp = (metres: number) => expect.closeTo(metres, 5);

const sag = () => fault('sag');
const targeted = (volts: number, plan = lossless([sag()])): ResolvedPlan => ({
  ...plan,
  target: { volts, of: 'to earth', label: 'the target' },
});
// 6 kV behind 550 Ω, 10 Ω a metre, and at the far end 250 Ω to earth: 1.5e6 / (800 + 10 L) V there, so that V volts hold up
// to L = (1.5e6 / V − 800) / 10 metres. The fence is 20 m long.

describe('a fence with one leak at its end, by hand', () => {
  test('the longest that holds, with all that is said of it', async () => {
    // 1.5e6 / 2040 = 735 V hold up to 124 m, in 13 spans.
    const result = await reach(targeted(1.5e6 / 2040), silent);
    expect(result).toMatchObject({
      ...{ run: null, presentM: 20, leastM: sharp(1), mostM: sharp(40_000), status: 'found', decides: 'usual' },
      ...{ reachM: sharp(124), factor: expect.closeTo(6.2, 6), variations: [], variationsIn: ['usual'] },
    });
    expect(result.conditions).toEqual([
      {
        ...{ id: 'usual', name: 'usual', status: 'found', reachM: sharp(124), factor: expect.closeTo(6.2, 6) },
        ...{ endedBy: 'length', holds: [{ fromM: sharp(1), toM: sharp(124) }], spans: 13 },
        ...{ weakestPost: 'b', weakestVolts: expect.closeTo(1.5e6 / 2040, 4), presentVolts: expect.closeTo(1500, 6) },
        warnings: expect.any(Array),
      },
    ]);
    expect(result.sentence).toBe(
      'The fence can be 120 m in all, 6.2 times its present 20 m, and the fence still holds 740 V for the target in usual.',
    );
  });

  // One metre is the shortest that is looked at, and there it holds.
  test.fails('a short fence that holds at every shorter length is not said to have a gap', async () => {
    const { sentence, conditions } = await reach(targeted(1000), silent);
    expect(conditions[0]!.holds).toEqual([{ fromM: sharp(1), toM: sharp(70) }]);
    expect(sentence).not.toContain('not at every shorter length');
  });

  test.each([
    // 13.75 m; two digits.
    [1600, 13.75, 2, '14 m in all, 0.69 of its present 20 m'],
    [1500 - 1e-6, 20, 2, '20 m in all, 1 times its present 20 m'],
    // 1.5e6 / 750 = 2000 = 800 + 10 · 120.
    [750, 120, 12, '120 m in all, 6 times its present 20 m'],
  ])('a target of %d V: %d m', async (volts, metres, spans, words) => {
    const { reachM, conditions, sentence } = await reach(targeted(volts), silent);
    expect(reachM).toBeCloseTo(metres, 4);
    expect(Math.abs(conditions[0]!.spans! - spans)).toBeLessThanOrEqual(volts > 1499 && volts < 1500 ? 1 : 0);
    expect(sentence).toContain(`The fence can be ${words}, and the fence still holds `);
  });

  test('one run of two is stretched alone', async () => {
    // South hangs on a too, and takes nothing.
    const plan = targeted(1000);
    plan.junctions.push({ ...plan.junctions[0]!, id: 'c', name: 'c' });
    plan.runs.push({ ...plan.runs[0]!, id: 'south', name: 'south', to: 'c', lengthM: 60 });
    const alone = await reach(plan, { ...silent, run: 'north' });
    expect(alone).toMatchObject({ run: 'north', presentM: 20, reachM: sharp(70) });
    expect(alone.sentence).toMatch(/^Run north can be 70 m long, 3\.5 times its present 20 m, /);
    // Both in proportion: north at 3.5 times again.
    const both = await reach(plan, silent);
    expect(both).toMatchObject({ run: null, presentM: 80, factor: expect.closeTo(3.5, 6), reachM: sharp(280) });
    expect(both.conditions[0]!.spans).toBe(7 + 21);
  });

  test('the condition with the shortest decides, in whatever order', async () => {
    // 750 V in the cold at 20 m: 750 000 / 2040 = 368 V up to 124 m; in the usual condition 1.5e6 / 368 = 4080, up to 328 m.
    for (const turn of [false, true]) {
      const plan = targeted(7.5e5 / 2040, withCold(lossless([sag()])));
      if (turn) plan.conditions = [...plan.conditions].reverse();
      const { decides, reachM, conditions, sentence, factor } = await reach(plan, silent);
      expect({ decides, reachM, factor }).toEqual({
        ...{ decides: 'cold', reachM: sharp(124), factor: expect.closeTo(6.2, 6) },
      });
      expect(Object.fromEntries(conditions.map((c) => [c.id, c.reachM]))).toEqual({
        usual: sharp(328),
        cold: sharp(124),
      });
      expect(sentence).toBe(
        'The fence can be 120 m in all, 6.2 times its present 20 m, and the fence still holds 370 V for the target in both conditions; cold decides.',
      );
    }
    const plan = targeted(7.5e5 / 2040, withCold(lossless([sag()])));
    expect((await reach(plan, { ...silent, conditions: ['usual'] })).sentence).toMatch(/ in usual\.$/);
  });

  test('a condition in which no length holds decides over any other', async () => {
    // 937.5 V at no length at all in the cold.
    const result = await reach(targeted(1000, withCold(lossless([sag()]))), {
      variations: { wires: [], hotStrands: [], spacing: [2], energizer: false },
    });
    expect(result).toMatchObject({ status: 'never', reachM: null, factor: null, decides: 'cold' });
    expect(result.conditions.map(({ status }) => status)).toEqual(['found', 'never']);
    expect(result.conditions[1]).toMatchObject({ holds: [], spans: null, endedBy: null, warnings: [] });
    // At a metre: 750 000 / 810.
    expect(result.conditions[1]!.weakestVolts).toBeCloseTo(750_000 / 810, 6);
    expect(result.sentence).toBe(
      'At no length does the fence hold 1 kV for the target in cold: however short, its weakest post, b, has 930 V.',
    );
    // Changes are judged where some length holds.
    expect(result.variationsIn).toEqual(['usual']);
    expect(result.variations.find(({ isPresent }) => isPresent)).toMatchObject({ reachM: sharp(70), decides: 'usual' });
    const run = await reach(targeted(2500), { ...silent, run: 'north' });
    expect(run.sentence).toMatch(/^At no length of run north does the fence hold 2\.5 kV for the target in usual: /);
  });

  test('up to the longest that is looked at', async () => {
    const { status, reachM, factor, decides, conditions, sentence } = await reach(targeted(10), {
      ...silent,
      mostM: 1000,
    });
    expect({ status, reachM, factor, decides }).toEqual({
      ...{ status: 'beyond', reachM: sharp(1000), factor: expect.closeTo(50, 6), decides: null },
    });
    expect(conditions[0]).toMatchObject({ endedBy: null, spans: 100, holds: [{ fromM: sharp(1), toM: sharp(1000) }] });
    expect(conditions[0]!.weakestVolts).toBeCloseTo(1.5e6 / 10_800, 6);
    expect(sentence).toBe(
      'The fence can be 1 km long, the longest that was looked at, and the fence still holds 10 V for the target in usual.',
    );
    expect((await reach(targeted(10), { ...silent, mostM: 1000, run: 'north' })).sentence).toMatch(
      /^Run north can be 1 km long, the longest that was looked at/,
    );
  });

  test.each<[lengthM: number, spacingM: number, units: 'metric' | 'imperial', mostM: number]>([
    [20, 10, 'metric', 40_000],
    [20, 10, 'imperial', 25 * 1609.344],
    // Four times the present length where that is more.
    [12_000, 100, 'metric', 48_000],
    [9999, 100, 'metric', 40_000],
    // 250,000 spans at the most.
    [20, 0.1, 'metric', 25_000],
  ])('how far is looked, from %d m with posts every %d m, %s', async (lengthM, spacingM, units, mostM) => {
    // Nothing holds 9 kV, so that no long fence is built.
    const plan = { ...targeted(9000, lossless([])), units };
    plan.runs = [{ ...plan.runs[0]!, lengthM, posts: { kind: 'equal', spacingM } }];
    expect((await reach(plan, silent)).mostM).toBeCloseTo(mostM, 3);
  });

  test('posts cut off at any length', async () => {
    const plan = targeted(1000);
    plan.faults.push(fault('gap', { kind: 'broken wire', post: 1, on: 'span', ohms: null }));
    const { status, reachM, decides, conditions, sentence } = await reach(plan, silent);
    expect({ status, reachM, decides }).toEqual({ status: 'cut off', reachM: null, decides: 'usual' });
    expect(conditions[0]).toMatchObject({ factor: null, endedBy: null, holds: [], spans: null });
    expect(sentence).toBe(
      'At no length does the fence hold 1 kV for the target in usual: a fault cuts posts off from the energizer.',
    );
  });

  test('a fence that holds between two lengths says so', async () => {
    // A spur ends in 400 Ω: the longer it is, the more volts are left at b, until its own end has too few.
    const plan = targeted(1000);
    plan.junctions.push({ ...plan.junctions[0]!, id: 'c', name: 'c' });
    plan.runs.push({ ...plan.runs[0]!, id: 'spur', name: 'spur', to: 'c' });
    plan.faults = [
      fault('heavy', { run: 'spur', ohms: exact(400, 'Ω') }),
      // North's end is drawn down by 1000 Ω of its own, and gains as the spur is made longer.
      fault('light', { ohms: exact(1000, 'Ω') }),
    ];
    const volts = (metres: number) => {
      const spur = 1 / (400 + 10 * metres);
      const north = 1 / 1200;
      const a = 6000 / (1 + 550 * (spur + north));
      return { b: (a * 1000) / 1200, c: a * 400 * spur };
    };
    const least = (metres: number) => Math.min(volts(metres).b, volts(metres).c);
    const halved = (low: number, high: number, rises: boolean, target: number) => {
      for (let n = 0; n < 60; n++) {
        const middle = (low + high) / 2;
        if (least(middle) >= target === rises) high = middle;
        else low = middle;
      }
      return low;
    };
    // What b has from 3 m on.
    const target = volts(3).b;
    plan.target = { ...plan.target, volts: target };
    const [from, to] = [halved(1, 6, true, target), halved(6, 200, false, target)];
    expect(from).toBeCloseTo(3, 9);
    const { conditions, sentence, reachM } = await reach(plan, { ...silent, run: 'spur' });
    expect(reachM).toBeCloseTo(to, 5);
    expect(conditions[0]!.holds).toHaveLength(1);
    // The start is found to a ten-thousandth.
    expect(Math.abs(conditions[0]!.holds[0]!.fromM / from - 1)).toBeLessThan(2e-4);
    expect(sentence).toMatch(
      new RegExp(
        `\\(not at every shorter length: it holds from ${Number(from.toPrecision(2))} m to ${Number(to.toPrecision(2))} m\\)\\.$`,
      ),
    );
  });
});

describe('what a change does to the reach, by hand', () => {
  const none = { wires: [], hotStrands: [], spacing: [], energizer: false };
  /** Within a thousandth from below. */
  const near = (found: number | null, metres: number) => {
    expect(found).toBeLessThanOrEqual(metres * (1 + 1e-9));
    expect(found).toBeGreaterThan(metres * (1 - 1.1e-3));
  };
  const withWires = () => {
    const plan = targeted(1000);
    const own = plan.rows.wires['wire']!;
    for (const [id, ohms] of [
      ['thin', 20],
      ['thick', 5],
    ] as const)
      plan.rows.wires[id] = { ...own, id, aliases: [], ohmsPerMetre: exact(ohms - earthReturnAt5kHz, 'Ω/m') };
    return plan;
  };

  test('another wire: the same ohms over another length', async () => {
    const { variations } = await reach(withWires(), { variations: { ...none, wires: ['thin', 'wire', 'thick'] } });
    expect(variations.map(({ kind, change, isPresent, status }) => [kind, change, isPresent, status])).toEqual([
      ['wire', 'thin', false, 'found'],
      ['wire', 'wire', true, 'found'],
      ['wire', 'thick', false, 'found'],
    ]);
    near(variations[0]!.reachM, 35);
    expect(variations[1]!.reachM).toBeCloseTo(70, 5);
    near(variations[2]!.reachM, 140);
    expect(variations[2]!.factor! * 20).toBeCloseTo(variations[2]!.reachM!, 9);
    expect(variations.map(({ decides }) => decides)).toEqual(['usual', 'usual', 'usual']);
  });

  test('the plan’s own wire stands first where it was not asked for, or is of two kinds', async () => {
    const one = await reach(withWires(), { variations: { ...none, wires: ['thick'] } });
    expect(one.variations.map(({ change, isPresent }) => [change, isPresent])).toEqual([
      ['wire', true],
      ['thick', false],
    ]);
    const plan = withWires();
    plan.builds[0] = {
      ...plan.builds[0]!,
      strands: [strand('top'), strand('low', { heightM: 0.5, wire: 'thick' })],
    };
    const two = await reach(plan, { variations: { ...none, wires: ['wire', 'thick'] } });
    expect(two.variations.map(({ change, isPresent }) => [change, isPresent])).toEqual([
      ['wire and thick', true],
      ['wire', false],
      ['thick', false],
    ]);
  });

  test('more and fewer hot strands, as many as there may be', async () => {
    const words = async (count: number, hotStrands: number[]) => {
      const plan = targeted(1000);
      plan.builds[0] = {
        ...plan.builds[0]!,
        strands: Array.from({ length: count }, (_, n) =>
          strand(n === 0 ? 'top' : `s${n}`, { heightM: 0.9 - 0.05 * n }),
        ),
      };
      const { variations } = await reach(plan, { mostM: 100, variations: { ...none, hotStrands } });
      return variations.map(({ change, isPresent }) => (isPresent ? `(${change})` : change));
    };
    expect(await words(1, [-1, 1, 2])).toEqual(['(1 hot strand)', '2 hot strands', '3 hot strands']);
    expect(await words(3, [2, 0, -1])).toEqual(['2 hot strands', '(3 hot strands)', '5 hot strands']);
    // One at the least, twelve at the most.
    expect(await words(2, [-2, -1, 10, 11])).toEqual(['1 hot strand', '(2 hot strands)', '12 hot strands']);
  });

  test('a strand beside another halves the ohms of the wire', async () => {
    // Two tied at both ends are 5 Ω a metre and a little more: each carries the earth's part for itself.
    const { variations } = await reach(targeted(1000), { variations: { ...none, hotStrands: [1] } });
    near(variations[1]!.reachM, 140);
  });

  test('fewer strands leave the lowest out, with what hangs on it', async () => {
    // 100 Ω from the lower strand's end: with it b has 1.5e6-like volts too few for any length, without it 70 m.
    const plan = targeted(1000, lossless([sag(), fault('low', { strand: 'low', ohms: exact(100, 'Ω') })]));
    plan.builds[0] = { ...plan.builds[0]!, strands: [strand('low', { heightM: 0.4 }), strand('top')] };
    const { variations } = await reach(plan, { variations: { ...none, hotStrands: [-1] } });
    const [one, two] = variations;
    expect([one!.change, two!.change]).toEqual(['1 hot strand', '2 hot strands']);
    near(one!.reachM, 70);
    // 71.4 Ω behind 550: 690 V at the most.
    expect(two).toMatchObject({ isPresent: true, status: 'never', reachM: null });
  });

  test('posts closer together and farther apart, in words of their distance', async () => {
    const words = async (plan: ResolvedPlan, spacing: number[]) =>
      (await reach(plan, { mostM: 100, variations: { ...none, spacing } })).variations.map(({ change, isPresent }) =>
        isPresent ? `(${change})` : change,
      );
    expect(await words(targeted(1000), [2, 1, 0.5])).toEqual([
      'posts every 5 m',
      '(posts every 10 m)',
      'posts every 20 m',
    ]);
    const two = targeted(1000);
    two.junctions.push({ ...two.junctions[0]!, id: 'c', name: 'c' });
    two.runs.push({ ...two.runs[0]!, id: 'south', name: 'south', to: 'c', posts: { kind: 'equal', spacingM: 4 } });
    expect(await words(two, [2])).toEqual(['(posts every 4 m to 10 m)', 'posts every 8 m to 20 m']);
    // Placed by hand: the mean of 20 m in four spans.
    const placed = targeted(1000);
    placed.runs[0] = { ...placed.runs[0]!, posts: { kind: 'at', positionsM: [0, 2, 6, 12, 20] } };
    placed.faults = [fault('sag', { post: 4 })];
    expect(await words(placed, [3])).toEqual(['(posts every 5 m)', 'posts every 15 m']);
  });

  test('the energizer at the other end has the leak beside it', async () => {
    // At b: 6000 · 250 / 800 = 1875 V whatever the length, so 1 kV holds as far as is looked.
    const { variations } = await reach(targeted(1000), {
      mostM: 400,
      variations: { wires: [], hotStrands: [], spacing: [] },
    });
    expect(variations.map(({ change, isPresent, status }) => [change, isPresent, status])).toEqual([
      ['at a', true, 'found'],
      ['a quarter of the way along north', false, 'found'],
      ['half of the way along north', false, 'found'],
      ['three quarters of the way along north', false, 'found'],
      ['at b', false, 'beyond'],
    ]);
    // The part beyond the energizer is 3/4, 1/2 and 1/4 of L, to the nearest post: 70 m of it hold.
    const [, quarter, half] = variations;
    expect(quarter!.reachM! / 70).toBeGreaterThan(1.2);
    expect(half!.reachM!).toBeGreaterThan(quarter!.reachM!);
    expect(variations[4]).toMatchObject({ reachM: sharp(400), factor: expect.closeTo(20, 6), decides: null });
  });

  test('not where an open switch would leave it less to feed', async () => {
    const plan = targeted(1000, lossless([]));
    plan.runs[0] = { ...plan.runs[0]!, lengthM: 200 };
    plan.switches = [{ id: 'cut-out', run: 'north', post: 14, joint: 'switch', openIn: ['usual'] }];
    plan.rows.joints['switch'] ??= plan.rows.joints['clamp']!;
    const { variations } = await reach(plan, { mostM: 400, variations: { wires: [], hotStrands: [], spacing: [] } });
    const status = Object.fromEntries(variations.map((v) => [v.change, [v.status, v.decides]]));
    // From a it feeds 15 posts, from b 6; at three quarters it stands at post 15, beyond the switch.
    expect(status['at b']).toEqual(['cut off', 'usual']);
    expect(status['three quarters of the way along north']).toEqual(['cut off', 'usual']);
    expect(status['half of the way along north']![0]).toBe('beyond');
    expect(status['at a']![0]).toBe('beyond');
  });

  test('every junction, or sixteen and the present one', async () => {
    const chain = async (count: number, home: number) => {
      const plan = targeted(1000, lossless([]));
      const [run] = plan.runs;
      plan.junctions = Array.from({ length: count + 1 }, (_, n) => ({
        ...plan.junctions[0]!,
        id: `j${n}`,
        name: `j${n}`,
      }));
      plan.runs = Array.from({ length: count }, (_, n) => ({
        ...run!,
        ...{ id: `r${n}`, name: `r${n}`, from: `j${n}`, to: `j${n + 1}` },
      }));
      plan.energizer = { ...plan.energizer, junction: `j${home}` };
      const { variations } = await reach(plan, {
        mostM: 20 * count,
        variations: { wires: [], hotStrands: [], spacing: [] },
      });
      expect(variations.filter(({ isPresent }) => isPresent).map(({ change }) => change)).toEqual([`at j${home}`]);
      return variations.map(({ change }) => change);
    };
    expect(await chain(3, 1)).toEqual(['at j0', 'at j1', 'at j2', 'at j3']);
    expect(await chain(16, 0)).toHaveLength(17);
    const many = await chain(24, 7);
    expect(many).toHaveLength(17);
    expect(new Set(many).size).toBe(17);
    // Spread over them all, and in their order.
    const places = many.map((change) => Number(change.slice(4)));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(places.at(-1)).toBeGreaterThan(21);
    const gaps = places.slice(1).map((place, n) => place - places[n]!);
    expect(Math.max(...gaps)).toBeLessThanOrEqual(2);
  });

  test('the usual changes by the plan’s units', async () => {
    for (const [units, wire] of [
      ['metric', '2.5 mm high-tensile'],
      ['imperial', '12.5 ga high-tensile'],
    ] as const) {
      const { variations } = await reach({ ...targeted(1000), units }, { mostM: 80 });
      const of = (kind: string) => variations.filter((v) => v.kind === kind).map(({ change }) => change);
      expect(of('wire')).toHaveLength(5);
      expect(of('wire')).toContain(wire);
      expect(of('hot strands')).toHaveLength(3);
      expect(of('post spacing')).toHaveLength(4);
      expect(of('energizer place')).toEqual(expect.arrayContaining(['at a', 'at b']));
    }
  });
});

test.each([
  [{ mostM: 0 }, /mostM: found 0/],
  [{ mostM: Number.POSITIVE_INFINITY }, /mostM: found Infinity/],
  [{ variations: { spacing: [-1] } }, /spacing: found -1/],
  [{ variations: { spacing: [Number.POSITIVE_INFINITY] } }, /spacing: found Infinity/],
  [{ variations: { hotStrands: [1, Number.NaN] } }, /hotStrands: found NaN/],
  [{ variations: { wires: ['2.5 mm hightensile'] } }, /wires: found.*Did you mean/],
  [{ run: 'south' }, /run: found "south", expected the name of a run/],
])('%j is refused', async (options, message) => {
  await expect(reach(lossless([]), options)).rejects.toThrow(message);
});
