import {
  openFence,
  PlanError,
  postsOfRun,
  putFault,
  type ResolvedPlan,
  setRow,
  setSwitch,
  setValue,
  solvePlan,
  verdictOf,
} from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import { scenarios } from '@postvolt/scenarios';
import { describe, expect, test } from 'vitest';
import { exact, plainPlan, strand } from '../support/fence.js';

const planOf = (id: string): ResolvedPlan => {
  const read = readPlanText(scenarios.find((scenario) => scenario.id === id)!.plan);
  if (!read.ok) throw new Error(read.issues[0]!.found);
  return read.value;
};

/** Same volts at every node, to rounding: two ways of eliminating positive numbers. */
function expectSameVolts(found: ArrayLike<number>, expected: ArrayLike<number>): void {
  expect(found.length).toBe(expected.length);
  const most = Math.max(...Array.from(expected, Math.abs));
  for (let n = 0; n < found.length; n++) expect(Math.abs(found[n]! - expected[n]!)).toBeLessThan(1e-9 * most);
}

/** The verdict of an open fence is that of solving the plan, to rounding. */
function expectSameVerdict(fence: ReturnType<typeof openFence>, plan: ResolvedPlan): void {
  const { verdict } = solvePlan(plan).conditions[0]!;
  const found = verdictOf(fence);
  expect(found.weakest.animalVolts).toBeCloseTo(verdict.weakest.animalVolts, 6);
  expect(found.weakest.voltsToEarth).toBeCloseTo(verdict.weakest.voltsToEarth, 6);
  expect(found).toMatchObject({ holds: verdict.holds, sentence: verdict.sentence, targetVolts: verdict.targetVolts });
  expect(found.weakest).toMatchObject({ postId: verdict.weakest.postId, strand: verdict.weakest.strand });
}

const fault = (changes: Partial<ResolvedPlan['faults'][number]>): ResolvedPlan['faults'][number] => ({
  ...{ id: 'f', kind: 'by hand', run: 'north', post: 1, on: 'post', strand: 'top', otherStrand: null },
  ...{ ohms: exact(300, 'Ω'), gapVolts: null, conditions: null },
  ...changes,
});

/** The plain plan with a fault of a path of 300 Ω. */
function withFault(path: 'strand to earth' | 'series' | 'strand to grounded', changes = {}, base = plainPlan()) {
  const row = { id: 'by hand', about: '', aliases: [], ohms: null, gapVolts: null, insulatorState: null };
  base.rows.faults['by hand'] = { ...row, path };
  return { ...base, faults: [fault(changes)] };
}

const returning = () => {
  const plan = plainPlan();
  plan.builds[0]!.strands = [strand('top'), strand('return', { role: 'grounded', heightM: 0.5 })];
  return plan;
};

describe('an open fence', () => {
  test('of the plain plan has the volts that a ladder worked by hand has', () => {
    // Leaks of 2000 + 1000 Ω at three posts, spans of 100 Ω, source of 500 Ω behind 6000 V, ground of 50 Ω.
    const leak = 3000;
    const beside = (a: number, b: number) => 1 / (1 / a + 1 / b);
    const last = beside(leak, Number.POSITIVE_INFINITY);
    const middle = beside(leak, 100 + last);
    const home = beside(leak, 100 + middle);
    const atHome = (6000 * home) / (home + 550);
    const atMiddle = (atHome * middle) / (100 + middle);
    const atLast = (atMiddle * last) / (100 + last);
    const fence = openFence(plainPlan(), 'usual');
    const [nodes] = fence.layout.runs[0]!.nodes;
    expectSameVolts(
      Array.from(nodes!, (node) => fence.volts[node]!),
      [atHome, atMiddle, atLast],
    );
    expect(fence.lowest()).toMatchObject({ postId: 'b', holds: true, anyDead: false, run: 0, post: 2, strand: 0 });
    expect(fence.lowest().volts).toBeCloseTo(atLast, 9);
    expect(fence.lowest().marginVolts).toBeCloseTo(atLast - 3000, 9);
  });

  test('that was forked and changed leaves the first as it was', () => {
    const fence = openFence(plainPlan(), 'usual');
    const before = fence.volts.slice();
    const fork = fence.fork();
    for (let e = 0; e < fence.siemens.length; e++) fork.setElement(e, 2 * fence.siemens[e]!);
    fork.addLeak(0, 1e-3);
    expect(fork.volts[0]).not.toBeCloseTo(before[0]!, 0);
    expectSameVolts(fence.volts, before);
  });

  test('is put back to the last bit after a trial', () => {
    const plan = planOf('one wire dairy');
    const fence = openFence(plan, plan.conditions[0]!);
    const [before, lowest] = [fence.volts.slice(), fence.lowest()];
    const span = fence.network.elements.kind.indexOf(0);
    const dead = fence.tried({ elements: [span], siemens: [0] }, (tried) => tried.lowest());
    expect(dead.anyDead).toBe(true);
    expect(dead.holds).toBe(false);
    expect(fence.volts).toEqual(before);
    expect(fence.lowest()).toEqual(lowest);
  });

  test('whose metal is parted has dead posts, and none any more once it is mended', () => {
    const fence = openFence(plainPlan(), 'usual');
    const span = fence.network.elements.kind.indexOf(0);
    const siemens = fence.siemens[span]!;
    fence.setElement(span, 0);
    expect(verdictOf(fence)).toMatchObject({ holds: false, sentence: expect.stringMatching(/2 posts from b on are/) });
    fence.setElement(span, siemens);
    expectSameVerdict(fence, plainPlan());
  });
});

describe('what an open fence holds', () => {
  test('follows the energizer in proportion, and each value in its own', () => {
    const fence = openFence(plainPlan(), 'usual');
    const before = fence.volts.slice();
    fence.setValues(fence.values, 2);
    // Every load's volts doubled are every volt doubled: the network is linear.
    expectSameVolts(
      fence.volts,
      before.map((volts) => 2 * volts),
    );
    fence.setValues(fence.values);
    expectSameVolts(fence.volts, before);
  });

  test('compares what the target is of: volts to earth, or across the animal', () => {
    const across = plainPlan({ target: { volts: 1, of: 'across the animal', label: 'x' } });
    const fence = openFence(across, 'usual');
    expect(fence.lowest().volts).toBe(fence.animal.volts[fence.lowest().node]);
    expect(fence.lowest().volts).toBeLessThan(fence.volts[fence.lowest().node]! - 1);
    const toEarth = openFence(plainPlan(), 'usual');
    expect(toEarth.lowest().volts).toBe(toEarth.volts[toEarth.lowest().node]);
  });

  test.each([
    ['to earth', plainPlan],
    ['to the grounded strand', returning],
  ] as const)('what the animal gets at one node is what it gets when all are touched: %s', (_, make) => {
    const fence = openFence(make(), 'usual');
    const all = openFence(make(), 'usual').animal.volts;
    for (const node of fence.hot.nodes) expect(fence.animalVoltsAt(node)).toBeCloseTo(all[node]!, 8);
    // After a change it is worked out anew.
    const before = fence.animalVoltsAt(fence.lowest().node);
    void fence.animal;
    fence.addLeak(fence.lowest().node, 1e-2);
    expect(fence.animalVoltsAt(fence.lowest().node)).toBeLessThan(before / 2);
  });

  test('lists each hot node once with its post, and no grounded ones', () => {
    const { hot, layout, ...fence } = openFence(returning(), 'usual');
    const [run] = layout.runs;
    expect([...hot.nodes]).toEqual([run!.nodes[0]![0], run!.nodes[0]![2], run!.nodes[0]![1]]);
    expect(hot.start).toEqual(Int32Array.of(0, 1, 2, 3));
    expect([0, 1, 2].map((p) => hot.postAt(p).id)).toEqual(['a', 'b', 'north/1']);
    expect(fence.siemens.length).toBeGreaterThan(0);
    expect(openFence(returning(), 'usual').statusOf('grounded', run!.nodes[1]![1]!)).toBe('grounded');
  });
});

describe('a change by the plan’s names is what opening the changed plan gives', () => {
  test('a switch, opened and closed', () => {
    const plan = plainPlan();
    plan.switches = [{ id: 'cut-out', run: 'north', post: 1, joint: Object.keys(plan.rows.joints)[0]!, openIn: [] }];
    const open = { ...plan, switches: [{ ...plan.switches[0]!, openIn: ['usual'] }] };
    const fence = openFence(plan, 'usual');
    const closed = fence.volts.slice();
    setSwitch(fence, 'cut-out', 'open');
    expectSameVolts(fence.volts, openFence(open, 'usual').volts);
    expect(fence.lowest().postId).toBe('north/1');
    expectSameVerdict(fence, open);
    setSwitch(fence, 'cut-out', 'closed');
    expectSameVolts(fence.volts, closed);
  });

  test('a fault to earth, in series, and between strands', () => {
    const toEarth = openFence(plainPlan(), 'usual');
    putFault(toEarth, { kind: 'to earth', run: 'north', post: 1, strand: 'top', ohms: 300 });
    expectSameVolts(toEarth.volts, openFence(withFault('strand to earth'), 'usual').volts);

    const series = openFence(plainPlan(), 'usual');
    putFault(series, { kind: 'in series', run: 'north', post: 1, strand: 'top', ohms: 300 });
    expectSameVolts(series.volts, openFence(withFault('series', { on: 'span' }), 'usual').volts);
    putFault(series, { kind: 'in series', run: 'north', post: 0, strand: 'top', ohms: Infinity });
    expect(series.lowest().anyDead).toBe(true);

    const between = openFence(returning(), 'usual', { contacts: true });
    putFault(between, { kind: 'between strands', run: 'north', post: 1, strand: 'top', ohms: 300 });
    const entered = openFence(withFault('strand to grounded', { otherStrand: 'return' }, returning()), 'usual');
    expectSameVolts(between.volts, entered.volts);
  });

  test('a row, and a single value', () => {
    const plan = plainPlan();
    const claw = plan.rows.insulators['claw']!;
    const worse = { ...claw, formFactor: exact(0.5) };
    const fence = openFence(plan, 'usual');
    setRow(fence, 'insulators', 'claw', worse);
    const changed = { ...plan, rows: { ...plan.rows, insulators: { claw: worse } } };
    expectSameVolts(fence.volts, openFence(changed, 'usual').volts);

    const single = openFence(plan, 'usual');
    setValue(single, 'form|claw', 0.5);
    expectSameVolts(single.volts, fence.volts);
    setValue(single, 'form|claw', 1);
    expectSameVolts(single.volts, openFence(plan, 'usual').volts);
  });

  test.each(scenarios.map(({ id }) => id))('the posts of a run of %s are those of the whole result', (id) => {
    const plan = planOf(id);
    const condition = plan.conditions[0]!;
    const { posts } = solvePlan(plan, { conditions: [condition.id] }).conditions[0]!;
    const fence = openFence(plan, condition);
    for (const run of plan.runs) {
      const own = postsOfRun(fence, run.id);
      expect(own.map(({ strands }) => strands[0]!.post)).toEqual(own.map((_, i) => i));
      for (const post of own) {
        const whole = posts.find((other) => other.id === post.id)!;
        for (const one of post.strands) expect(whole.strands).toContainEqual(one);
      }
    }
  });
});

describe('what cannot be is refused by name', () => {
  const message = (act: () => unknown): string => {
    try {
      act();
    } catch (error) {
      if (error instanceof PlanError) return error.message;
      throw error;
    }
    throw new Error('nothing was thrown');
  };
  const fence = () => openFence(plainPlan(), 'usual');

  test('switches, runs, strands, posts, ohms, keys, rows', () => {
    const leak = { kind: 'to earth', run: 'north', post: 1, strand: 'top', ohms: 300 } as const;
    expect(message(() => setSwitch(fence(), 'gate', 'open'))).toMatch(/^switch: found "gate"/);
    expect(message(() => putFault(fence(), { ...leak, run: 'nort' }))).toMatch(/^run: found "nort".*north/);
    expect(message(() => putFault(fence(), { ...leak, strand: 'tip' }))).toMatch(/^strand: found "tip"/);
    expect(message(() => putFault(fence(), { ...leak, post: 3 }))).toMatch(/^post: found 3.*0 to 2/);
    expect(message(() => putFault(fence(), { ...leak, kind: 'in series', post: 2 }))).toMatch(/^post: found 2.*0 to 1/);
    expect(message(() => putFault(fence(), { ...leak, ohms: 0 }))).toMatch(/^ohms: found 0, expected more than 0/);
    expect(message(() => putFault(fence(), { ...leak, kind: 'between strands' }))).toMatch(/contacts: true/);
    expect(message(() => setValue(fence(), 'form|clow', 1))).toMatch(/^key: found "form\|clow"/);
    expect(message(() => setValue(fence(), 'form|claw', Number.NaN))).toMatch(/^form\|claw: found NaN/);
    const { claw } = plainPlan().rows.insulators;
    expect(message(() => setRow(fence(), 'insulators', 'toString', claw!))).toMatch(/^row: found "toString"/);
    expect(message(() => openFence(plainPlan(), 'spring'))).toMatch(/^conditions: found "spring"/);
    expect(message(() => postsOfRun(fence(), 'nort'))).toMatch(/^run: found "nort"/);
  });

  test('a plan that was changed by hand and no longer holds together, in words that say so', () => {
    const spoilt: ((plan: ResolvedPlan) => void)[] = [
      (plan) => delete plan.rows.insulators['claw'],
      (plan) => delete plan.rows.wires['wire'],
      (plan) => Object.assign(plan.runs[0]!, { build: 'other' }),
      (plan) => Object.assign(plan.runs[0]!, { to: 'nowhere' }),
      (plan) => Object.assign(plan.energizer, { junction: 'nowhere' }),
      (plan) => Object.assign(plan, { soil: 'sand' }),
      (plan) => Object.assign(plan, { builds: undefined }),
      (plan) => Object.assign(plan.builds[0]!.strands[0]!, { insulatorsPerPost: Number.NaN }),
      (plan) => plan.faults.push(fault({})),
    ];
    for (const spoil of spoilt) {
      const plan = plainPlan();
      spoil(plan);
      for (const act of [() => solvePlan(plan), () => openFence(plan, 'usual')])
        expect(message(act), String(spoil)).toMatch(/changed after it was read.*`readResolvedPlan` again/);
    }
  });

  test('and it names the first thing that is wrong, and no other', () => {
    const plan = plainPlan();
    delete plan.rows.insulators['claw'];
    plan.runs[0]!.to = 'nowhere';
    expect(message(() => openFence(plan, 'usual'))).toMatch(/^runs\[0\]\.to: found "nowhere"[^\n]*$/);
    plan.runs[0]!.to = 'b';
    expect(message(() => openFence(plan, 'usual'))).toMatch(
      /^builds\[0\]\.strands\[0\]\.insulator: found "claw", expected a row that the plan carries in rows\.insulators\.[^\n]*$/,
    );
  });

  test('a contact where no grounded strand hangs, whether or not contacts were asked for', () => {
    const between = { kind: 'between strands', run: 'north', post: 1, strand: 'top', ohms: 300 } as const;
    const withContacts = openFence(plainPlan(), 'usual', { contacts: true });
    expect(message(() => putFault(withContacts, between))).toMatch(/a hot strand beside a grounded one\./);
    const asked = openFence(returning(), 'usual', { contacts: true });
    expect(message(() => putFault(asked, { ...between, strand: 'return' }))).not.toMatch(/contacts: true/);
  });
});
