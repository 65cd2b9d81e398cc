// Verdict, budgets, explanation, counts and warnings of the plain fence, worked by hand.
import { explainPost, type PlanResult, type ResolvedPlan, solvePlan } from '@postvolt/core';
import { impulseLimitAmps } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { exact, plainPlan, strand } from '../support/fence.js';

/** Resistances side by side, Ω. */
const beside = (...ohms: number[]) => 1 / ohms.reduce((sum, r) => sum + 1 / r, 0);

/** The plain ladder by hand: 3000 Ω of insulator and post at each of three posts, 100 Ω a span, 500 Ω and 50 Ω before it. */
const ladder = (() => {
  const middle = beside(3000, 100 + 3000);
  const home = beside(3000, 100 + middle);
  const amps = 6000 / (550 + home);
  const v0 = amps * home;
  const v1 = (v0 * middle) / (100 + middle);
  const v2 = (v1 * 3000) / 3100;
  return { amps, volts: [v0, v1, v2] as const, ground: 50 * amps, inside: 500 * amps };
})();

const only = (plan: ResolvedPlan) => solvePlan(plan).conditions[0]!;
const at = (condition: PlanResult['conditions'][number], id: string) => condition.posts.find((post) => post.id === id)!;
const target = (volts: number, of: 'to earth' | 'across the animal' = 'to earth'): Partial<ResolvedPlan> => ({
  target: { volts, of, label: 'the target' },
});

describe('the plain fence', () => {
  const result = only(plainPlan());

  test('has the volts, amps and rise of the ladder worked by hand', () => {
    for (const [i, id] of ['a', 'north/1', 'b'].entries())
      expect(at(result, id).strands[0]!.voltsToEarth).toBeCloseTo(ladder.volts[i]!, 8);
    const { energizer } = result;
    expect(energizer.amps).toBeCloseTo(ladder.amps, 10);
    expect(energizer.groundRiseVolts).toBeCloseTo(ladder.ground, 8);
    expect(energizer.terminalVolts).toBeCloseTo(6000 - ladder.inside, 8);
    expect(energizer.fenceVoltsToEarth).toBeCloseTo(ladder.volts[0], 8);
    expect(energizer.inputOhms).toBeCloseTo(6000 / ladder.amps - 500, 8);
    expect([energizer.openVolts, energizer.groundOhms, energizer.sourceOhms]).toEqual([6000, 50, 500]);
  });

  test('has body volts and amps of a third of the strand’s, and currents that add up along the wire', () => {
    const [v0, v1, v2] = ladder.volts;
    const [a, middle, b] = ['a', 'north/1', 'b'].map((id) => at(result, id));
    // 2000 Ω of insulator over 1000 Ω of post.
    expect(middle!.bodyVolts).toBeCloseTo(v1 / 3, 8);
    expect(middle!.bodyAmps).toBeCloseTo(v1 / 3000, 10);
    expect(a!.strands[0]).toMatchObject({ spanAmps: expect.closeTo((v0 - v1) / 100, 8) });
    expect(middle!.strands[0]).toMatchObject({ spanAmps: expect.closeTo((v1 - v2) / 100, 8) });
    expect(b!.strands[0]!.spanAmps).toBeNull();
    expect(b!.strands[0]!.leakAmps).toBeCloseTo(v2 / 3000, 10);
    expect([a, middle, b].map((post) => post!.distanceM)).toEqual([0, 10, 20]);
    expect([a, middle, b].map((post) => post!.positionM)).toEqual([null, 10, null]);
  });

  test('splits the open volts into what is lost on the way and what is left', () => {
    const [v0, , v2] = ladder.volts;
    const { openVolts, insideEnergizer, groundSystem, leadOut, wire, leftAtWeakest } = result.voltsBudget;
    expect(openVolts).toBe(6000);
    expect(insideEnergizer).toBeCloseTo(ladder.inside, 8);
    expect(groundSystem).toBeCloseTo(ladder.ground, 8);
    expect(leadOut).toBe(0);
    expect(wire).toBeCloseTo(v0 - v2, 8);
    expect(leftAtWeakest).toBeCloseTo(v2, 8);
    expect(insideEnergizer + groundSystem + leadOut + wire + leftAtWeakest).toBeCloseTo(6000, 8);
  });

  test('with a lead-out loses volts in it, by hand', () => {
    const plan = plainPlan();
    plan.rows.wires['cable'] = { ...plan.rows.wires['wire']!, id: 'cable', ohmsPerMetre: exact(2, 'Ω/m') };
    plan.energizer.leadOut = { wire: 'cable', lengthM: 10 };
    const { voltsBudget, energizer } = only(plan);
    expect(voltsBudget.leadOut).toBeCloseTo(20 * energizer.amps, 8);
  });

  test('leaks by its insulators, which are the larger resistance, at three places', () => {
    const [leak, ...others] = result.leaks;
    expect(others).toEqual([]);
    expect(leak).toMatchObject({ kind: 'insulators', percent: expect.closeTo(100, 9), places: 3 });
    expect(leak!.amps).toBeCloseTo(ladder.amps, 10);
    // With posts of 5000 Ω the posts are the larger one.
    const posts = only(plainPlan({}, { ...values, postOhms: 5000 })).leaks;
    expect(posts.map(({ kind }) => kind)).toEqual(['posts']);
  });
});

const values = {
  ohmsPerMetre: 10,
  insulatorOhms: 2000,
  postOhms: 1000,
  groundOhms: 50,
  openVolts: 6000,
  sourceOhms: 500,
};

describe('the verdict', () => {
  const least = ladder.volts[2];

  test('holds at the target exactly, falls short a volt above what is there', () => {
    const weakest = only(plainPlan()).verdict.weakest.voltsToEarth;
    expect(only(plainPlan(target(weakest))).verdict).toMatchObject({ holds: true, marginVolts: 0 });
    expect(only(plainPlan(target(weakest + 1))).verdict).toMatchObject({ holds: false });
    expect(only(plainPlan(target(weakest - 1))).verdict).toMatchObject({ holds: true });
  });

  test('says above where it holds and under where it falls short, by the volts between', () => {
    // 4084 V at the end, and 84 over 4 kV, 16 under 4.1 kV.
    expect(Math.round(least)).toBe(Math.round(only(plainPlan()).verdict.weakest.compared));
    const over = only(plainPlan(target(Math.round(least) - 1000))).verdict;
    expect(over.sentence).toMatch(/^Holds in usual: the weakest post, b \(top\), has [\d.]+ kV, 1 kV above the /);
    const under = only(plainPlan(target(Math.round(least) + 1000))).verdict;
    expect(under.sentence).toMatch(
      /^Falls short in usual: the weakest post, b \(top\), has [\d.]+ kV, 1 kV under the /,
    );
    expect(over.marginVolts).toBeCloseTo(least - Math.round(least) + 1000, 6);
    expect(over.largestCause).toMatchObject({ kind: 'insulators' });
    expect(over.sentence).toMatch(/the largest leak is .*insulators.* \(100 %\)\.$/);
  });

  test('of the plan holds only where every condition does, and names the least of those that fall short', () => {
    const plan = plainPlan(target(3000));
    plan.conditions.push({ ...plan.conditions[0]!, id: 'weak', name: 'weak' });
    plan.energizer.derating = { weak: 0.5 };
    const both = solvePlan(plan);
    expect(both.conditions.map(({ verdict }) => verdict.holds)).toEqual([true, false]);
    expect(both.holds).toBe(false);
    expect(both.sentence).toMatch(
      /^The fence falls short of 3 kV .* in weak \(1 of 2 conditions\); the least is .* in weak\.$/,
    );
    expect(solvePlan(plan, { conditions: ['usual'] }).holds).toBe(true);
    expect(both.conditions[1]!.verdict.weakest.compared).toBeCloseTo(least / 2, 8);
  });

  test('fails where a fault cuts posts off, whatever stands there, and names the posts', () => {
    const plan = plainPlan(target(1));
    const row = { id: 'broken', about: '', aliases: [], ohms: null, gapVolts: null, insulatorState: null };
    plan.rows.faults['broken'] = { ...row, path: 'series' };
    const fault = { id: 'f', kind: 'broken', run: 'north', on: 'span', strand: 'top', otherStrand: null } as const;
    plan.faults = [{ ...fault, post: 1, ohms: null, gapVolts: null, conditions: null }];
    const one = only(plan);
    expect(one.verdict.holds).toBe(false);
    expect(one.deadPosts).toEqual(['b']);
    expect(one.verdict.sentence).toBe('Falls short in usual: post b is cut off from the energizer by a fault.');
    plan.faults = [{ ...plan.faults[0]!, post: 0 }];
    expect(only(plan).verdict.sentence).toMatch(/2 posts from b on are cut off/);
    expect(only(plan).warnings.map(({ code }) => code)).toContain('dead-posts');
  });

  test('of two volts that print alike tells the one that falls short', () => {
    // The end has 4 V under a target that both print as the same kilovolts.
    const { sentence } = only(plainPlan(target(least + 4))).verdict;
    const [, has, of] = /has ([\d.]+) kV, .* under the ([\d.]+) kV/.exec(sentence)!;
    expect(has).not.toBe(of);
  });
});

describe('an explanation', () => {
  const plan = plainPlan();
  const range = (low: number, typical: number, high: number, unit: string) => ({ ...exact(typical, unit), low, high });
  plan.rows.insulators['claw'] = { ...plan.rows.insulators['claw']!, formFactor: range(0.5, 1, 4, '1') };
  const [explained] = explainPost(plan, { post: 'b' });

  test('lists what meets at the post, with ohms, volts, amps and share by hand', () => {
    const [, v1, v2] = ladder.volts;
    const part = (what: RegExp) => explained!.parts.find((one) => what.test(one.what))!;
    const insulator = part(/^insulator of top at north\/2/);
    // A form factor of 0.5 to 4 on a film of 2000 Ω a square.
    expect([insulator.lowOhms, insulator.ohms, insulator.highOhms].map(Math.round)).toEqual([1000, 2000, 8000]);
    expect(insulator.volts).toBeCloseTo((v2 * 2) / 3, 8);
    expect(insulator.amps).toBeCloseTo(v2 / 3000, 10);
    expect(insulator.percent).toBeCloseTo((100 * v2) / 3000 / ladder.amps, 8);
    expect(insulator.inputs.map(({ name }) => name)).toContain('claw, form factor');
    const body = part(/^post at north\/2/);
    expect(body.volts).toBeCloseTo(v2 / 3, 8);
    const span = part(/^span of top from north\/1/);
    expect(span.volts).toBeCloseTo(v1 - v2, 8);
    // Of all that is lost on the way to this post.
    expect(span.percent).toBeCloseTo((100 * (v1 - v2)) / (6000 - v2), 8);
    expect(explained!.parts).toHaveLength(3);
  });

  test('says in a sentence where the most is lost', () => {
    expect(explained!.sentence).toMatch(
      /^Post b has [\d.]+ kV of the energizer's 6 kV in usual: [\d.]+ k?V stay inside the energizer and/,
    );
  });

  test('of a spark names its threshold and its ohms; of a dark one no end of ohms', () => {
    const ticking = plainPlan();
    ticking.rows.faults['tick'] = {
      ...{ id: 'tick', about: '', aliases: [], path: 'spark gap', insulatorState: null },
      ...{ ohms: exact(50, 'Ω'), gapVolts: exact(1000, 'V') },
    };
    const fault = {
      id: 'f',
      kind: 'tick',
      run: 'north',
      post: 2,
      on: 'post',
      strand: 'top',
      otherStrand: null,
    } as const;
    const sparkAt = (volts: number) => {
      ticking.faults = [{ ...fault, ohms: null, gapVolts: exact(volts, 'V'), conditions: null }];
      const [{ parts, post }] = explainPost(ticking, { post: 'b' }) as [ReturnType<typeof explainPost>[number]];
      return { spark: parts.find(({ what }) => what.startsWith('spark gap'))!, post };
    };
    const { spark, post } = sparkAt(1000);
    const across = post.strands[0]!.voltsToEarth - post.bodyVolts;
    expect(spark.inputs.map(({ typical }) => typical)).toEqual([1000, 50]);
    expect(spark.amps).toBeCloseTo((across - 1000) / 50, 8);
    expect(spark.ohms).toBeCloseTo(across / spark.amps, 6);
    expect(sparkAt(50_000).spark).toMatchObject({ amps: 0, ohms: Number.POSITIVE_INFINITY });
  });

  test('answers for a post behind an open switch, and one by its run and number', () => {
    const off = plainPlan();
    off.switches = [{ id: 's', run: 'north', post: 1, joint: Object.keys(off.rows.joints)[0]!, openIn: ['usual'] }];
    const [behind] = explainPost(off, { post: 'b' });
    expect(behind!.post.strands[0]!.status).toBe('switched off');
    expect(behind!.voltsBudget.leftAtWeakest).toBeCloseTo(behind!.post.strands[0]!.voltsToEarth, 9);
    expect(explainPost(off, { post: 'north/2' })[0]!.postId).toBe('b');
    expect(() => explainPost(off, { post: 'north/3' })).toThrow('a post number from 0 to 2');
    expect(() => explainPost(off, { post: 'south' })).toThrow(/a junction \(a, b\) or RUN\/POST/);
  });
});

describe('volts beside a grounded strand', () => {
  const plan = plainPlan();
  plan.builds[0]!.strands = [strand('top'), strand('return', { role: 'grounded', heightM: 0.5 })];
  const { strands } = at(only(plan), 'north/1');

  test('are those between the two for the hot strand, and none for the grounded one', () => {
    const [hot, grounded] = strands;
    expect(hot!.voltsToGrounded).toBeCloseTo(hot!.voltsToEarth - grounded!.voltsToEarth, 9);
    expect(grounded!.voltsToGrounded).toBeNull();
    expect(strands.map(({ status }) => status)).toEqual(['live', 'grounded']);
  });
});

describe('counts', () => {
  test('of posts, insulators, wire and length', () => {
    const plan = plainPlan();
    plan.runs.push({ ...plan.runs[0]!, id: 'on', name: 'on', from: 'b', to: 'c' });
    plan.junctions.push({ id: 'c', name: 'c', at: null, through: false, post: null });
    const { counts } = solvePlan(plan);
    // Two runs of two spans of 10 m: five posts, two of them between; two ends at the junction in the middle.
    expect(counts).toMatchObject({
      posts: { post: 5 },
      lineInsulators: { claw: 2 },
      endInsulators: { claw: 4 },
      wireM: { wire: 40 },
      hotStrandM: 40,
      groundedStrandM: 0,
      runM: 40,
    });
    plan.junctions[1]!.through = true;
    // The fence passes: its strand hangs there once, on a line insulator.
    expect(solvePlan(plan).counts).toMatchObject({ lineInsulators: { claw: 3 }, endInsulators: { claw: 2 } });
  });
});

describe('warnings at their limits', () => {
  const codes = (energizer: Partial<ResolvedPlan['energizer']>) => {
    const plan = plainPlan();
    plan.energizer = { ...plan.energizer, ...energizer };
    return solvePlan(plan).warnings.map(({ code, path }) => `${code} ${path.at(-1)}`);
  };

  test('of IEC 60335-2-76: one impulse a second, 10 ms, 5 J unless the current is limited', () => {
    const within = { joules: 5, pulseWidthS: 0.01, pulsesPerSecond: 1 };
    expect(codes(within)).toEqual([]);
    expect(codes({ ...within, pulsesPerSecond: 1.01 })).toEqual(['iec-60335-2-76 pulsesPerSecond']);
    expect(codes({ ...within, pulseWidthS: 0.0101 })).toEqual(['iec-60335-2-76 pulseWidth']);
    expect(codes({ joules: 5.1, pulseWidthS: null, pulsesPerSecond: 1 })).toEqual(['iec-60335-2-76 joules']);
    expect(codes({ joules: null, pulseWidthS: null, pulsesPerSecond: null })).toEqual(['iec-not-checked energizer']);
    expect(codes({ joules: null, pulseWidthS: null, pulsesPerSecond: 1 })).toEqual([]);
  });

  test('above 5 J the r.m.s. current of 95 % of the energy in 500 Ω is held against the limit line', () => {
    const width = 5e-4;
    // I² · 500 Ω · t = 0.95 J: the joules of the limit current, and a hundredth either way.
    const limit = (impulseLimitAmps(width) ** 2 * 500 * width) / 0.95;
    expect(limit).toBeGreaterThan(5);
    expect(codes({ joules: 0.99 * limit, pulseWidthS: width, pulsesPerSecond: 1 })).toEqual([]);
    expect(codes({ joules: 1.01 * limit, pulseWidthS: width, pulsesPerSecond: 1 })).toEqual(['iec-60335-2-76 joules']);
  });

  test('of a curve drawn on beyond its heaviest test load', () => {
    const heavy = (insulatorOhms: number) =>
      only(plainPlan({}, { ...values, insulatorOhms, postOhms: 1, groundOhms: 1 })).warnings.map(({ code }) => code);
    // The last point is 500 Ω; three leaks side by side lie above or below it.
    expect(heavy(3000)).not.toContain('beyond-curve');
    expect(heavy(300)).toContain('beyond-curve');
  });

  test('of an animal that the ground starves: where under half of its path is body and hide', () => {
    const onGround = (hoofOhms: number) => {
      const plan = plainPlan();
      const cattle = plan.rows.animals['cattle']!;
      plan.rows.animals['cattle'] = { ...cattle, bodyOhms: exact(500, 'Ω'), hideOhms: exact(0, 'Ω') };
      plan.rows.groundCovers['bare'] = { ...plan.rows.groundCovers['bare']!, hoofOhms: exact(hoofOhms, 'Ω') };
      return only(plan).warnings.map(({ code }) => code);
    };
    expect(onGround(499)).not.toContain('starved-animal');
    expect(onGround(501)).toContain('starved-animal');
  });
});

describe('what an animal gets', () => {
  test('to earth: by Thévenin, the body’s part of the volts alone', () => {
    const plan = plainPlan(target(1, 'across the animal'));
    const cattle = plan.rows.animals['cattle']!;
    plan.rows.animals['cattle'] = { ...cattle, bodyOhms: exact(500, 'Ω'), hideOhms: exact(300, 'Ω') };
    plan.rows.groundCovers['bare'] = { ...plan.rows.groundCovers['bare']!, hoofOhms: exact(700, 'Ω') };
    const end = at(only(plan), 'b').strands[0]!;
    // Seen from the end: 3000 Ω beside 100 Ω and what lies before it, and so on home to 550 Ω of source and ground.
    const home = beside(3000, 550);
    const middle = beside(3000, 100 + home);
    const source = beside(3000, 100 + middle);
    const amps = ladder.volts[2] / (source + 500 + 300 + 700);
    expect(end.sourceOhms).toBeCloseTo(source, 8);
    expect(end.animalAmps).toBeCloseTo(amps, 10);
    expect(end.animalVolts).toBeCloseTo(amps * 800, 7);
    expect(only(plan).verdict.weakest.compared).toBeCloseTo(end.animalVolts, 9);
  });
});

describe('leaks by their cause', () => {
  const fault = (path: 'strand to earth' | 'strand to post' | 'strand to grounded', changes = {}) => {
    const plan = plainPlan();
    plan.builds[0]!.strands = [
      strand('top'),
      strand('low', { heightM: 0.6 }),
      strand('return', { role: 'grounded', heightM: 0.3 }),
    ];
    const row = { id: 'own', about: '', aliases: [], ohms: exact(400, 'Ω'), gapVolts: null, insulatorState: null };
    plan.rows.faults['own'] = { ...row, path };
    const place = { id: 'f', kind: 'own', run: 'north', post: 1, on: 'post', strand: 'top' } as const;
    plan.faults = [{ ...place, otherStrand: null, ohms: null, gapVolts: null, conditions: null, ...changes }];
    return only(plan);
  };
  const shareOf = ({ leaks }: ReturnType<typeof fault>) => leaks.find(({ kind }) => kind === 'fault');

  test('a fault is named as itself, with the amps of its own ohms', () => {
    const result = fault('strand to earth');
    const volts = at(result, 'north/1').strands[0]!.voltsToEarth;
    expect(shareOf(result)).toMatchObject({ places: 1, cause: 'own at north/1' });
    expect(shareOf(result)!.amps).toBeCloseTo(volts / 400, 8);
    expect(result.leaks.reduce((sum, { percent }) => sum + percent, 0)).toBeCloseTo(100, 9);
    expect(result.leaks.map(({ amps }) => amps)).toEqual(
      result.leaks.map(({ amps }) => amps).toSorted((a, b) => b - a),
    );
  });

  test('a contact with the grounded strand counts, one between two hot strands does not leave the fence', () => {
    const toGrounded = fault('strand to grounded', { otherStrand: 'return' });
    const [top, , grounded] = at(toGrounded, 'north/1').strands;
    expect(shareOf(toGrounded)!.amps).toBeCloseTo((top!.voltsToEarth - grounded!.voltsToEarth) / 400, 8);
    expect(shareOf(fault('strand to grounded', { otherStrand: 'low' }))).toBeUndefined();
  });

  test('insulators of grounded strands are no leak of the fence', () => {
    const insulators = fault('strand to earth').leaks.find(({ kind }) => kind === 'insulators')!;
    // Two hot strands at three posts.
    expect(insulators.places).toBe(6);
  });

  test('a wire off its insulator leaks as the fault, by its way through the post', () => {
    const result = fault('strand to post');
    const post = at(result, 'north/1');
    expect(shareOf(result)!.amps).toBeCloseTo((post.strands[0]!.voltsToEarth - post.bodyVolts) / 400, 8);
  });
});

describe('cables and leads', () => {
  const plan = plainPlan();
  plan.rows.wires['cable'] = { ...plan.rows.wires['wire']!, id: 'cable', ohmsPerMetre: exact(200, 'Ω/m') };
  plan.energizer.leadOut = { wire: 'cable', lengthM: 10 };
  plan.links = [{ id: 'link', from: 'a', to: 'b', role: 'hot', cable: { wire: 'cable', lengthM: 7 } }];

  test('are counted as wire to buy', () => {
    expect(solvePlan(plan).counts.wireM).toEqual({ wire: 20, cable: 17 });
  });

  test('that cost most are named first in the sentence of a post', () => {
    // 2 kΩ of lead-out before all else.
    expect(explainPost(plan, { post: 'b' })[0]!.sentence).toMatch(
      /V stay in the lead-out and .* inside the energizer\.$/,
    );
    const wire = plainPlan({}, { ...values, ohmsPerMetre: 100, sourceOhms: 1, groundOhms: 1 });
    expect(explainPost(wire, { post: 'b' })[0]!.sentence).toMatch(/V stay along the wire and/);
    const ground = plainPlan({}, { ...values, groundOhms: 900, sourceOhms: 1 });
    expect(explainPost(ground, { post: 'b' })[0]!.sentence).toMatch(/V stay in the ground system and/);
  });
});

test('a fence that falls short only by what a fault cuts off says so in the sentence of the plan', () => {
  const plan = plainPlan(target(1));
  const row = { id: 'broken', about: '', aliases: [], ohms: null, gapVolts: null, insulatorState: null };
  plan.rows.faults['broken'] = { ...row, path: 'series' };
  const fault = { id: 'f', kind: 'broken', run: 'north', on: 'span', strand: 'top', otherStrand: null } as const;
  plan.faults = [{ ...fault, post: 1, ohms: null, gapVolts: null, conditions: null }];
  // The end that is cut off has no volts at all, so it is under any target: it is both.
  expect(solvePlan(plan).sentence).toMatch(/falls short of 1 V for the target in usual; /);
  // With a leak that carries volts over to it, it would stand above the target, and is cut off all the same.
  plan.builds[0]!.strands = [strand('top'), strand('low', { heightM: 0.5 })];
  plan.builds[0]!.ties = 'from';
  plan.runs[0]!.posts = { kind: 'equal', spacingM: 10 };
  const { sentence, conditions } = solvePlan(plan);
  expect(conditions[0]!.verdict.marginVolts).toBeGreaterThan(0);
  expect(sentence).toBe('The fence falls short of 1 V for the target in usual; a fault cuts off b in usual.');
});
