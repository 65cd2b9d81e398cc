import { parsePlan, type ResolvedPlan, solvePlan } from '@postvolt/core';
import { upkeep } from '@postvolt/core/studies';
import { describe, expect, test } from 'vitest';
import { planOf } from '../plan/small-plan.js';
import { exact } from '../support/fence.js';
import { fault, lossless, ownPrices, withCold } from './lossless.js';

/** Own hours of work, in place of the default rates. */
const worked = (hours: Record<string, number>, labour = 20): Partial<ResolvedPlan> => ({
  prices: ownPrices({
    labourPerHour: exact(labour, 'money/h'),
    hours: Object.fromEntries(Object.entries(hours).map(([id, h]) => [id, exact(h, 'h')])),
  }),
});

describe('the sentence', () => {
  // Through 250 Ω at the far end: 6000 · 250 / (550 + 200 + 250) = 1500 V there; without it 6000 V everywhere.
  const now = 'the weakest post, b, has 1.5 kV in usual';

  test.each([
    ['hour', 1, 3000, 'an hour of work', 'about 1 hour', 'holds 3 kV'],
    ['money', 1, 3000, 'the money', 'about 1 hour', 'holds 3 kV'],
    ['hour', 2.5, 7000, 'an hour of work', 'about 2.5 hours', 'still falls short of 7 kV'],
  ] as const)('by %s, of %s hours, for %s V', async (by, hours, volts, gain, time, verdict) => {
    const target = { volts, of: 'to earth', label: 'the target' } as const;
    const plan = lossless([fault('sag')], { target, ...worked({ 'lift wire': hours }) });
    const result = await upkeep(plan, { by });
    expect(result.sentence).toBe(
      `First mend wire on ground at north/2: it wins most for ${gain}; ${now}, and after that (${time}) the weakest has 6 kV, which ${verdict} for the target.`,
    );
    expect(result).toMatchObject({ holds: false, holdsAfter: volts < 6000, condition: 'usual', postId: 'b' });
    expect(result.leastVolts).toBeCloseTo(1500, 6);
    expect(result.afterVolts).toBeCloseTo(6000, 6);
  });

  test('counts the steps, names the first of them and adds their hours', async () => {
    // The branch takes a tenth of the hours; with it gone the other is left.
    const plan = lossless(
      [fault('sag', { ohms: exact(1000, 'Ω') }), fault('limb', { kind: 'branch on wire' })],
      worked({ 'lift wire': 3, 'clear branch': 0.3 }),
    );
    const { sentence, steps, actions } = await upkeep(plan);
    const texts = steps.map(({ action }) => actions.find(({ id }) => id === action)!.text);
    expect(texts).toEqual(['mend branch on wire at north/2', 'mend wire on ground at north/2']);
    expect(sentence).toMatch(/^First mend branch on wire at north\/2: .* and after all 2 steps \(about 3\.3 hours\)/);
    expect(steps.map(({ hoursSoFar }) => hoursSoFar)).toEqual([expect.closeTo(0.3, 9), expect.closeTo(3.3, 9)]);
    // Work alone at 20 an hour.
    expect(steps.map(({ moneySoFar }) => moneySoFar)).toEqual([expect.closeTo(6, 9), expect.closeTo(66, 9)]);
    // Both leaks in parallel are 200 Ω: 6000 · 200 / 950; the one alone 6000 · 1000 / 1750.
    expect(steps.map(({ leastVolts }) => leastVolts)).toEqual([expect.closeTo(6e6 / 1750, 6), expect.closeTo(6000, 6)]);
    expect(steps[0]!.wonVolts).toBeCloseTo(6e6 / 1750 - 1.2e6 / 950, 6);
  });

  test.each([
    [5000, true, 'holds 5 kV'],
    [7000, false, 'falls short of 7 kV'],
  ])('says of a sound fence whether it holds %i V', async (volts, holds, words) => {
    const plan = lossless([], { target: { volts, of: 'to earth', label: 'the target' } });
    const result = await upkeep(plan);
    expect(result).toMatchObject({ holds, holdsAfter: holds, actions: [], steps: [], walk: [] });
    expect(result.sentence).toBe(
      `Nothing in this plan wins volts worth the work: the weakest post, a, has 6 kV in usual, which ${words} for the target.`,
    );
  });

  test('names the post that a break has cut off', async () => {
    const { sentence, leastVolts, holds } = await upkeep(
      lossless([fault('gap', { kind: 'broken wire', post: 0, on: 'span', ohms: null })]),
    );
    expect(leastVolts).toBe(0);
    expect(holds).toBe(false);
    expect(sentence).toMatch(
      /^First mend broken wire at north\/0: .*; post (b|north\/1) is cut off in usual, and after that \(about 0\.5 hours\) the weakest has 6 kV, which holds 3 kV/,
    );
  });
});

describe('where no single repair lifts the weakest post', () => {
  /** Twenty spans to b and ten to c; 31 posts in all. */
  const branched = (faults: ResolvedPlan['faults'], hours: Record<string, number>): ResolvedPlan => {
    const plan = lossless(faults, worked(hours));
    const [run] = plan.runs;
    plan.junctions.push({ ...plan.junctions[1]!, id: 'c', name: 'c' });
    plan.runs = [
      { ...run!, lengthM: 200 },
      { ...run!, id: 'south', name: 'south', to: 'c', lengthM: 100 },
    ];
    return plan;
  };
  const broken = { kind: 'broken wire', on: 'span', ohms: null } as const;
  const north = fault('north', { ...broken, post: 4 });
  const south = fault('south', { ...broken, run: 'south', post: 1 });
  const lift = fault('lift', { post: 1 });
  const orders = [
    [north, south, lift],
    [north, lift, south],
    [south, north, lift],
    [south, lift, north],
    [lift, north, south],
    [lift, south, north],
  ];
  const stepsOf = async (plan: ResolvedPlan, options: Parameters<typeof upkeep>[1] = {}) => {
    const { steps, actions } = await upkeep(plan, options);
    return steps.map(({ action }) => actions.find(({ id }) => id === action)!.text.replace(/^mend .* at /, ''));
  };

  // 250 Ω at north/1: 6000 · 250 / 900 = 1667 V there and on to the break (4 posts), 2333 V at a and at south/1. 15 posts
  // and b are dead behind north's break, 8 posts and c behind south's. Summed over all posts, mending north wins
  // 16 · 1667 = 26.7 kV, south 9 · 2333 = 21 kV; lifting the wire wins 6 · 6000 − 2 · 2333 − 4 · 1667 = 24.7 kV.
  test.each(orders)('the mean over all posts for an hour says where to begin (%#)', async (...faults) => {
    // Half an hour each: by the sums themselves. With north whole, mending south lifts the weakest post from 0.
    const alike = { 'lift wire': 0.5, 'mend wire': 0.5 };
    expect(await stepsOf(branched(faults, alike))).toEqual(['north/4', 'south/1', 'north/1']);
    // 24.7 / 0.4 = 61.7 is more than 26.7 / 0.5 = 53.3; then north's 16 dead posts are more than south's 9.
    expect(await stepsOf(branched(faults, { ...alike, 'lift wire': 0.4 }))).toEqual(['north/1', 'north/4', 'south/1']);
    // South's break alone would be 21 / 0.5 = 42 an hour: behind lifting at 0.4 hours, before it at 0.7 (35.2).
    const [few] = await stepsOf(branched(faults, { ...alike, 'lift wire': 0.4 }), { mostSteps: 1, mostHours: 0.45 });
    expect(few).toBe('north/1');
    expect(await stepsOf(branched(faults, { ...alike, 'lift wire': 0.7 }))).toEqual(['north/4', 'south/1', 'north/1']);
  });

  test.each([
    ['south first', [south, lift]],
    ['lift first', [lift, south]],
  ] as const)('but what lifts the weakest goes before any mean, %s', async (_, faults) => {
    // Mending south takes the weakest from 0 to 1667 V in half an hour; lifting the wire, all but no work, leaves it at 0.
    const plan = branched([...faults], { 'lift wire': 0.001, 'mend wire': 0.5 });
    expect(await stepsOf(plan)).toEqual(['south/1', 'north/1']);
    const { steps } = await upkeep(plan);
    expect(steps.map(({ wonVolts }) => wonVolts)).toEqual([
      expect.closeTo(5000 / 3, 6),
      expect.closeTo(6000 - 5000 / 3, 6),
    ]);
    // A step has to win more than south does: now the mean of lifting, 94 kV over 31 posts, is all that there is.
    expect(await stepsOf(plan, { leastWonVolts: 1700 })).toEqual(['north/1', 'south/1']);
    // Nothing wins so much by the mean either.
    expect(await stepsOf(plan, { leastWonVolts: 5000 })).toEqual([]);
  });

  test('walks from the energizer outwards, along the metal as it is when whole', async () => {
    const { walk, actions } = await upkeep(branched([north, south, lift], { 'lift wire': 0.5, 'mend wire': 0.5 }));
    const far = new Map(actions.map(({ id, distanceM }) => [id, distanceM]));
    expect(walk.map((id) => far.get(id))).toEqual([10, 10, 40]);
    expect(actions.map(({ fromM, toM, run }) => [run, fromM, toM]).sort()).toEqual([
      ['north', 10, 10],
      ['north', 40, 40],
      ['south', 10, 10],
    ]);
  });
});

describe('in two conditions', () => {
  test('the worse of them counts, before and after', async () => {
    // 1500 V in the usual condition with its fault; in the cold, without a fault, 3000 V.
    const result = await upkeep(withCold(lossless([fault('sag', { conditions: ['usual'] })])));
    expect(result).toMatchObject({ condition: 'usual', holds: false, holdsAfter: true });
    expect(result.leastVolts).toBeCloseTo(1500, 6);
    expect(result.actions[0]!.wonVolts).toBeCloseTo(1500, 6);
    expect(result.steps).toMatchObject([{ condition: 'cold' }]);
    expect(result.steps[0]!.leastVolts).toBeCloseTo(3000, 6);
    expect(result.steps[0]!.wonVolts).toBeCloseTo(1500, 6);
  });

  test('a fault of one condition is nothing to mend in the other', async () => {
    const plan = withCold(lossless([fault('sag', { conditions: ['usual'] })]));
    expect((await upkeep(plan, { conditions: ['cold'] })).actions).toEqual([]);
    expect((await upkeep(plan, { conditions: ['usual'] })).actions).toHaveLength(1);
  });

  test('of two faults, each of one condition, the second is worth mending only after the first', async () => {
    // 250 Ω in the usual condition: 1500 V. 2250 Ω in the cold: 3000 · 2250 / 3000 = 2250 V, 3000 V without.
    const { steps, actions } = await upkeep(
      withCold(
        lossless([
          fault('cold sag', { conditions: ['cold'], ohms: exact(2250, 'Ω') }),
          fault('usual sag', { conditions: ['usual'] }),
        ]),
      ),
    );
    expect(actions.map(({ wonVolts }) => wonVolts)).toEqual([expect.closeTo(750, 6), expect.closeTo(0, 6)]);
    expect(steps.map(({ leastVolts }) => leastVolts)).toEqual([expect.closeTo(2250, 6), expect.closeTo(3000, 6)]);
    expect(steps.map(({ condition }) => condition)).toEqual(['cold', 'cold']);
  });
});

describe('what stops the work', () => {
  const three = lossless(
    [
      fault('a', { ohms: exact(2000, 'Ω') }),
      fault('b', { kind: 'branch on wire', ohms: exact(1000, 'Ω') }),
      fault('c', { kind: 'wire on post', ohms: exact(500, 'Ω'), post: 1 }),
    ],
    worked({ 'lift wire': 0.5, 'clear branch': 0.25 }),
  );
  const money = worked({ 'lift wire': 0.5, 'clear branch': 0.25 }, 8);

  test('hours and money may be used up, and not gone beyond', async () => {
    const { steps } = await upkeep(three);
    // A quarter of an hour and two halves, in whatever order; exact in binary.
    expect(steps.at(-1)!.hoursSoFar).toBe(1.25);
    const spent = async (options: Parameters<typeof upkeep>[1], plan = three) => {
      const last = (await upkeep(plan, options)).steps.at(-1);
      return [last?.hoursSoFar, last?.moneySoFar];
    };
    expect(await spent({ mostHours: 1.25 })).toEqual([1.25, 25]);
    expect(await spent({ mostHours: 1.24 })).not.toEqual([1.25, 25]);
    expect(await spent({ mostHours: 0.25 })).toEqual([0.25, 5]);
    expect(await spent({ mostHours: 0.2 })).toEqual([undefined, undefined]);
    const cheap = { ...three, ...money };
    expect(await spent({ mostMoney: 10 }, cheap)).toEqual([1.25, 10]);
    expect(await spent({ mostMoney: 2 }, cheap)).toEqual([0.25, 2]);
    expect(await spent({ mostMoney: 1.9 }, cheap)).toEqual([undefined, undefined]);
  });

  test('a step that wins just what it must is taken', async () => {
    const one = lossless([fault('sag')]);
    const { actions } = await upkeep(one);
    const won = actions[0]!.wonVolts;
    expect(won).toBeCloseTo(4500, 6);
    expect((await upkeep(one, { leastWonVolts: won })).steps).toHaveLength(1);
    // The mean of the three posts, (6000 − 3300) + (6000 − 2400) + 4500 over 3, is less than the weakest wins.
    expect((await upkeep(one, { leastWonVolts: won + 1 })).steps).toHaveLength(0);
  });

  test('ten volts are the least where nothing is said, and twelve steps the most', async () => {
    // R Ω at the far end: 6000 · 750 / (R + 750) V are lost. 9 V at R = 499,250 Ω; 11 V at 408,341 Ω.
    const of = (ohms: number) => upkeep(lossless([fault('sag', { ohms: exact(ohms, 'Ω') })]));
    expect((await of(499_250)).steps).toHaveLength(0);
    expect((await of(408_341)).steps).toHaveLength(1);
    const many = lossless(Array.from({ length: 14 }, (_, n) => fault(`f${n}`, { ohms: exact(1000 + n, 'Ω') })));
    expect((await upkeep(many)).steps).toHaveLength(12);
    expect((await upkeep(many, { mostSteps: 1 })).steps).toHaveLength(1);
    expect((await upkeep(many, { mostSteps: 100 })).steps).toHaveLength(14);
  });

  test('where the target holds nothing more is done, if so asked', async () => {
    // 1500 V short of 3000; with the fault of 2250 Ω alone 6000 · 2250 / 3000 = 4500 V hold.
    const two = lossless([fault('light', { ohms: exact(2250, 'Ω') }), fault('heavy')]);
    const texts = async (untilHolds: boolean) => (await upkeep(two, { untilHolds })).steps.length;
    expect(await texts(true)).toBe(1);
    expect(await texts(false)).toBe(2);
    const high = { ...two, target: { ...two.target, volts: 5000 } };
    expect((await upkeep(high, { untilHolds: true })).steps).toHaveLength(2);
  });

  test.each([
    [{ mostHours: -1 }, /mostHours.*a number, 0 or more/],
    [{ mostMoney: -0.01 }, /mostMoney.*a number, 0 or more/],
    [{ mostMoney: Number.NaN }, /mostMoney/],
    [{ mostSteps: 0.5 }, /mostSteps.*from 1 to 100/],
    [{ mostSteps: 101 }, /mostSteps.*from 1 to 100/],
    [{ leastWonVolts: -1 }, /leastWonVolts.*from 0 to 100000/],
    [{ leastWonVolts: 100_001 }, /leastWonVolts/],
  ])('refuses %j', async (options, message) => {
    await expect(upkeep(three, options)).rejects.toThrow(message);
  });
});

describe('what each thing takes', () => {
  /** Hours are typical; half of them at the low end and twice as many at the high end. */
  const hours = {
    ...{ 'replace insulator': 0.1, 'replace end insulator': 0.3, 'mend wire': 0.7, 'lift wire': 0.6 },
    ...{ 'clear branch': 1.1, 'remake joint': 0.2, 'add rod': 1.3 },
  };
  const range = (h: number) => `${h} (${h / 2} to ${2 * h})`;
  const plan = parsePlan(
    planOf((p) => {
      Object.assign(p.builds, {
        old: {
          ...p.builds['two wires'],
          ...{ insulator: 'cheap t-post clip', insulatorState: 'aged', endInsulatorState: 'new' },
        },
      });
      for (const [id, run] of Object.entries(p.runs)) run['build'] = id === 'lane' ? 'old' : 'two wires';
      p.conditions = { usual: { soil: 'moist', surface: 'damp' } };
      p['stretches'] = [{ run: 'north', from: '100 ft', to: '600 ft', growth: 'heavy' }];
      p['gates'] = [{ name: 'ford', run: 'west', span: 30, joint: 'bad' }];
      p['switches'] = [{ name: 'cut-out', run: 'lane', span: 1, joint: 'poor' }];
      p['jumpers'] = [
        { name: 'good one', run: 'north', post: 9, strands: ['top', 'bottom'] },
        { name: 'rusty one', run: 'north', post: 9, strands: ['top', 'bottom'], joint: 'poor' },
      ];
      p['faults'] = [
        { kind: 'branch on wire', run: 'west', post: 20 },
        { kind: 'wire on ground', run: 'lane', post: 5 },
        { kind: 'wire on metal', run: 'lane', post: 6 },
        { kind: 'wire on post', run: 'lane', post: 7 },
        { kind: 'animal', run: 'lane', post: 8 },
        { kind: 'bad splice', run: 'west', span: 3, strand: 'top' },
        { kind: 'broken wire', run: 'west', span: 4, strand: 'bottom' },
        { kind: 'cracked insulator', run: 'north', post: 2 },
        { kind: 'ticking insulator', run: 'north', post: 3 },
      ];
      p['prices'] = {
        currency: 'pounds',
        labour: '20 (10 to 40)',
        hours: {
          ...Object.fromEntries(Object.entries(hours).map(([id, h]) => [id, range(h)])),
          'clear growth': '1 per 500 ft',
        },
        insulators: { 't-post clip': '3 (2 to 5)', 'cheap t-post clip': 1, 'porcelain bullnose': 4 },
        parts: { 'ground rod': '5 per ft', 'rod clamp': 2, 'line clamp': '7 (6 to 9)' },
      };
    }),
  );
  const exactly = (typical: number) => ({ low: typical, typical, high: typical });
  const nothing = exactly(0);

  // Work at 20 (10 to 40) an hour: a quarter of the typical money at the low end, four times as much at the high end.
  test.each([
    ['mend branch on wire at west/20', 1.1, nothing],
    ['mend wire on ground at lane/5', 0.6, nothing],
    ['mend wire on metal at lane/6', 0.6, nothing],
    ['mend wire on post at lane/7', 0.6, nothing],
    ['mend animal at lane/8', 0.6, nothing],
    ['mend bad splice at west/3', 0.7, nothing],
    ['mend broken wire at west/4', 0.7, nothing],
    ['mend cracked insulator at north/2', 0.1, nothing],
    ['mend ticking insulator at north/3', 0.1, nothing],
    // 17 spans of the lane have 16 line posts of two strands.
    ['replace 32 aged cheap t-post clip insulators on lane', 3.2, exactly(32)],
    ['put 32 t-post clip insulators on lane', 3.2, { low: 64, typical: 96, high: 160 }],
    ['remake bad of ford', 0.2, { low: 6, typical: 7, high: 9 }],
    ['remake poor of cut-out', 0.2, { low: 6, typical: 7, high: 9 }],
    ['remake poor of rusty one', 0.2, { low: 6, typical: 7, high: 9 }],
    // A rod of 6 ft at 5 a foot, and its clamp.
    ['add a ground rod, number 4', 1.3, exactly(32)],
    ['add a ground rod, number 5', 1.3, exactly(32)],
    ['add a ground rod, number 6', 1.3, exactly(32)],
  ] as const)('%s', async (text, work, goods) => {
    const action = (await upkeep(plan)).actions.find((one) => one.text === text)!;
    expect(action.hours).toEqual({
      low: expect.closeTo(work / 2, 9),
      typical: expect.closeTo(work, 9),
      high: expect.closeTo(2 * work, 9),
    });
    expect(action.money).toEqual({
      low: expect.closeTo(5 * work + goods.low, 9),
      typical: expect.closeTo(20 * work + goods.typical, 9),
      high: expect.closeTo(80 * work + goods.high, 9),
    });
  });

  test('clearing growth counts by the length of its stretch, at so much a metre', async () => {
    const { actions, currency } = await upkeep(plan);
    expect(currency).toBe('pounds');
    const clear = actions.find(({ text }) => text === 'clear 500 ft of growth on north from 100 ft to 600 ft');
    // 500 ft take one hour.
    expect(clear!.hours.typical).toBeCloseTo(1, 9);
    expect(clear!.money).toEqual({
      low: expect.closeTo(10, 9),
      typical: expect.closeTo(20, 9),
      high: expect.closeTo(40, 9),
    });
    expect([clear!.fromM! / 0.3048, clear!.toM! / 0.3048]).toEqual([expect.closeTo(100, 9), expect.closeTo(600, 9)]);
  });

  // The half of a span that leads into the growth hangs on the post before it, which stands in the clean part.
  test.fails('no growth is cleared where none is', async () => {
    const { actions } = await upkeep(plan);
    expect(actions.filter(({ kind }) => kind === 'clear growth')).toHaveLength(1);
  });

  test('there is nothing else to do', async () => {
    // The 17 above: what is good already, and the better of two that are the same, is left out.
    const { actions } = await upkeep(plan);
    expect(actions.filter(({ kind }) => kind !== 'clear growth')).toHaveLength(17);
    const rods = actions.filter(({ kind }) => kind === 'add rod');
    for (const rod of rods) expect(rod).toMatchObject({ run: null, fromM: null, toM: null, distanceM: 0 });
  });

  test('each lies as far along the metal as the plan says', async () => {
    const far = new Map((await upkeep(plan)).actions.map(({ text, distanceM }) => [text, distanceM! / 0.3048]));
    // The lead-out of 60 ft, then north's 1320 ft; 66 spans of west are 40 ft, 17 of the lane 660 / 17 ft.
    expect(far.get('mend branch on wire at west/20')).toBeCloseTo(60 + 1320 + 20 * 40, 6);
    expect(far.get('mend wire on ground at lane/5')).toBeCloseTo(60 + 1320 + (5 * 660) / 17, 6);
    expect(far.get('mend cracked insulator at north/2')).toBeCloseTo(60 + 80, 6);
    expect(far.get('replace 32 aged cheap t-post clip insulators on lane')).toBeCloseTo(60 + 1320 + 660 / 17, 6);
    expect(far.get('clear 500 ft of growth on north from 100 ft to 600 ft')).toBeCloseTo(60 + 120, 6);
    expect(far.get('remake bad of ford')).toBeCloseTo(60 + 1320 + 30 * 40, 6);
    expect(far.get('remake poor of rusty one')).toBeCloseTo(60 + 9 * 40, 6);
  });

  test('each joint wins what a plan with a good one there has more', async () => {
    const least = (of: ResolvedPlan) => solvePlan(of).conditions[0]!.verdict.weakest.compared;
    // Only the joints are left, since the weakest post must not hide what they win.
    const sound = { ...plan, faults: [] };
    const { actions } = await upkeep(sound);
    const mended: Record<string, Partial<ResolvedPlan>> = {
      ford: { gates: sound.gates.map((gate) => ({ ...gate, joint: 'clamp' })) },
      'cut-out': { switches: sound.switches.map((own) => ({ ...own, joint: 'switch' })) },
      'rusty one': { jumpers: sound.jumpers.map((jumper) => ({ ...jumper, joint: 'clamp' })) },
    };
    for (const [name, change] of Object.entries(mended)) {
      const { wonVolts } = actions.find(({ text }) => text.endsWith(` of ${name}`))!;
      const rows = {
        ...sound.rows,
        joints: parsePlan(planOf((p) => (p['switches'] = [{ run: 'lane', span: 1 }]))).rows.joints,
      };
      const after = least({
        ...sound,
        ...change,
        rows: { ...sound.rows, joints: { ...rows.joints, ...sound.rows.joints } },
      });
      expect(wonVolts, name).toBeCloseTo(after - least(sound), 5);
    }
  });
});

test('two faults that spoil one span or one insulator are mended in one go', async () => {
  const twice = (kind: string, other: string, on: 'span' | 'post') =>
    lossless([fault('one', { kind, on, post: 1, ohms: null }), fault('two', { kind: other, on, post: 1, ohms: null })]);
  const splices = await upkeep(twice('bad splice', 'broken wire', 'span'));
  expect(splices.actions).toHaveLength(1);
  // Cut off at b before, whole after.
  expect(splices.actions[0]!.wonVolts).toBeCloseTo(6000, 6);
  const insulators = await upkeep(twice('cracked insulator', 'fouled insulator', 'post'));
  expect(insulators.actions).toHaveLength(1);
  // Two that lie on the ground are two things to do.
  const lifted = await upkeep(lossless([fault('one', { post: 1 }), fault('two', { post: 1 })]));
  expect(lifted.actions).toHaveLength(2);
});
