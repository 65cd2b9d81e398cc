import { openFence, type ResolvedPlan, solvePlan } from '@postvolt/core';
import { buildNetwork, elementKinds } from '@postvolt/core/network';
import { earthReturnOhmsPerMetre } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { exact, plainPlan, strand } from '../support/fence.js';

type Plan = ResolvedPlan;

const cable = { wire: 'cable', lengthM: 10 };
const grounded = (id: string, heightM: number) => strand(id, { role: 'grounded', heightM });

/** The plain plan on three spans of 10 m, with these strands, a cable of 2 Ω a metre and joints of 7 and 30 Ω. */
function threeSpans(strands = [strand('top')], changes: Partial<Plan> = {}): Plan {
  const plan = plainPlan();
  plan.runs[0]!.lengthM = 30;
  plan.builds[0]!.strands = strands;
  plan.rows.wires['cable'] = { ...plan.rows.wires['wire']!, id: 'cable', ohmsPerMetre: exact(2, 'Ω/m') };
  const joint = { about: '', aliases: [] };
  plan.rows.joints['seven'] = { ...joint, id: 'seven', ohms: exact(7, 'Ω') };
  plan.rows.joints['thirty'] = { ...joint, id: 'thirty', ohms: exact(30, 'Ω') };
  for (const [id, ohms] of [['bad splice', exact(500, 'Ω')] as const, ['broken wire', null] as const])
    plan.rows.faults[id] = { id, about: '', aliases: [], path: 'series', ohms, gapVolts: null, insulatorState: null };
  return { ...plan, ...changes };
}

/** Ohms of every element of a kind, in a condition of the plan. */
function ohmsOf(plan: Plan, kind: (typeof elementKinds)[number]) {
  const fence = openFence(plan, plan.conditions[0]!);
  const { elements, layout } = fence.network;
  return Array.from({ length: elements.count }, (_, e) => e)
    .filter((e) => elementKinds[elements.kind[e]!] === kind)
    .map((e) => ({
      run: layout.runs[elements.run[e]!]?.run.id,
      post: elements.post[e],
      strand: layout.runs[elements.run[e]!]?.strands[elements.strand[e]!]?.id,
      ohms: 1 / fence.siemens[e]!,
    }));
}

const gate = (changes: Partial<Plan['gates'][number]> = {}): Plan['gates'][number] => ({
  ...{ id: 'the gate', run: 'north', post: 1, cable, joint: 'seven', carriesGrounded: true },
  ...changes,
});
const onSpan1 = { run: 'north', post: 1 };
const seriesFault = (kind: string, on: string, id = kind): Plan['faults'][number] => ({
  ...{ id, kind, ...onSpan1, on: 'span', strand: on, otherStrand: null, ohms: null, gapVolts: null, conditions: null },
});

describe('a gate', () => {
  test('has the cable with a joint at either end in place of the wire, on one strand too', () => {
    const plan = threeSpans(undefined, { gates: [gate()] });
    // 10 m of 2 Ω/m and two joints of 7 Ω.
    expect(ohmsOf(plan, 'cable')).toEqual([{ run: 'north', post: 1, strand: 'top', ohms: expect.closeTo(34, 9) }]);
    expect(ohmsOf(plan, 'span').map(({ post }) => post)).toEqual([0, 2]);
  });

  test('ties further strands to the first on both sides', () => {
    const plan = threeSpans([strand('top'), strand('low', { heightM: 0.5 })], { gates: [gate()] });
    const ties = ohmsOf(plan, 'joint');
    expect(ties.map(({ post, strand: s, ohms }) => [post, s, ohms])).toEqual([
      [1, 'low', expect.closeTo(7, 9)],
      [2, 'low', expect.closeTo(7, 9)],
    ]);
  });

  test('that does not carry the grounded strand leaves nothing of it across the opening', () => {
    const strands = [strand('top'), grounded('return', 0.5)];
    const across = (carriesGrounded: boolean) =>
      ohmsOf(threeSpans(strands, { gates: [gate({ carriesGrounded })] }), 'span').filter(({ post }) => post === 1);
    expect(across(false)).toEqual([]);
    const cables = (carriesGrounded: boolean) =>
      ohmsOf(threeSpans(strands, { gates: [gate({ carriesGrounded })] }), 'cable').map(({ strand: s }) => s);
    expect(cables(true)).toEqual(['top', 'return']);
    expect(cables(false)).toEqual(['top']);
  });

  test('takes a bad splice and a closed switch on its span in series with its cable', () => {
    const plan = threeSpans(undefined, {
      gates: [gate()],
      faults: [seriesFault('bad splice', 'top')],
      switches: [{ id: 'cut-out', ...onSpan1, joint: 'thirty', openIn: [] }],
    });
    // 34 Ω as above, 500 Ω of splice, 30 Ω of switch.
    expect(ohmsOf(plan, 'cable')[0]!.ohms).toBeCloseTo(564, 9);
  });

  test('is parted by a broken wire on its span, and everything beyond is dead', () => {
    const plan = threeSpans(undefined, { gates: [gate()], faults: [seriesFault('broken wire', 'top')] });
    expect(ohmsOf(plan, 'cable')[0]!.ohms).toBe(Number.POSITIVE_INFINITY);
    expect(solvePlan(plan).conditions[0]!.deadPosts).toEqual(['b', 'north/2']);
  });

  test('has no fence wire in the counts across its opening', () => {
    const { counts } = solvePlan(threeSpans([strand('top'), strand('low')], { gates: [gate()] }));
    // Two strands on two of three spans of 10 m; the cable by itself.
    expect(counts.wireM).toEqual({ wire: expect.closeTo(40, 9), cable: 10 });
    expect(counts.hotStrandM).toBeCloseTo(40, 9);
  });
});

describe('two switches in one span', () => {
  const both = (first: string[], second: string[]) =>
    threeSpans(undefined, {
      switches: [
        { id: 'first', ...onSpan1, joint: 'seven', openIn: first },
        { id: 'second', ...onSpan1, joint: 'thirty', openIn: second },
      ],
    });

  test('are in series: either opens it, and closed both joints count', () => {
    expect(ohmsOf(both([], []), 'span')[1]!.ohms).toBeCloseTo(100 + 37, 9);
    for (const plan of [both(['usual'], []), both([], ['usual'])]) {
      expect(ohmsOf(plan, 'span')[1]!.ohms).toBe(Number.POSITIVE_INFINITY);
      expect(solvePlan(plan).conditions[0]!.switchedOffPosts).toEqual(['b', 'north/2']);
    }
  });
});

describe('earth return', () => {
  test('belongs to each run by what returns there: a run with a grounded strand has none, the others keep theirs', () => {
    const plan = threeSpans();
    plan.junctions.push({ id: 'c', name: 'c', at: null, through: false, post: null });
    plan.builds.push({
      id: 'returning',
      post: 'post',
      strands: [strand('hot'), grounded('return', 0.5)],
      ties: 'both',
    });
    plan.runs.push({ ...plan.runs[0]!, id: 'stub', name: 'stub', from: 'b', to: 'c', lengthM: 10, build: 'returning' });
    const spans = ohmsOf(plan, 'span');
    const earth = 10 * earthReturnOhmsPerMetre(plan.pulseHz);
    // The plain wire is 10 Ω/m with the earth's part in it.
    for (const span of spans.filter(({ run }) => run === 'north')) expect(span.ohms).toBeCloseTo(100, 9);
    for (const span of spans.filter(({ run }) => run === 'stub')) expect(span.ohms).toBeCloseTo(100 - earth, 9);
  });

  test('is shared by parallel hot strands, so that each carries it once for every strand', () => {
    const spans = ohmsOf(threeSpans([strand('top'), strand('low')]), 'span');
    const earth = 10 * earthReturnOhmsPerMetre(5000);
    for (const span of spans) expect(span.ohms).toBeCloseTo(100 + earth, 9);
  });
});

describe('growth', () => {
  const stretch = (id: string, set: Partial<Plan['stretches'][number]['set']>): Plan['stretches'][number] => {
    const nothing = { post: null, soil: null, wire: null, insulator: null, insulatorState: null, fouledFraction: null };
    const unset = { ...nothing, growth: null, growthWetness: null, leakSiemensPerMetre: null, postWetness: null };
    return { id, run: 'north', fromM: 0, toM: null, strands: null, conditions: null, set: { ...unset, ...set } };
  };
  const leak = stretch('wet grass', { leakSiemensPerMetre: exact(1e-5, 'S/m') });
  const mown = stretch('mown', { growth: { vegetation: 'none', heightM: 0 } });

  test('and an entered leak answer one question: the later stretch decides', () => {
    // 30 m of 10 µS/m.
    const siemens = (stretches: Plan['stretches']) =>
      ohmsOf(threeSpans(undefined, { stretches }), 'vegetation').reduce((sum, { ohms }) => sum + 1 / ohms, 0);
    expect(siemens([leak])).toBeCloseTo(3e-4, 12);
    expect(siemens([leak, mown])).toBe(0);
    expect(siemens([mown, leak])).toBeCloseTo(3e-4, 12);
  });
});

describe('a junction of two soils', () => {
  test('stands in the soil of the first run listed there: its post, the animal there, and an animal in contact', () => {
    const plan = threeSpans();
    plan.junctions.push({ id: 'c', name: 'c', at: null, through: false, post: null });
    plan.runs.push({ ...plan.runs[0]!, id: 'sandy', name: 'sandy', from: 'b', to: 'c' });
    const sand = (ohmM: number) => ({ topsoilOhmM: exact(ohmM, 'Ω·m'), deepOhmM: exact(ohmM, 'Ω·m') });
    const loam = plan.rows.soils['loam']!;
    const states = (ohmM: number) =>
      Object.fromEntries(Object.keys(loam.states).map((state) => [state, sand(ohmM)])) as typeof loam.states;
    plan.rows.soils['loam'] = { ...loam, states: states(100) };
    plan.rows.soils['sand'] = { ...loam, id: 'sand', states: states(1000) };
    const nothing = { post: null, wire: null, insulator: null, insulatorState: null, fouledFraction: null };
    const unset = { ...nothing, growth: null, growthWetness: null, leakSiemensPerMetre: null, postWetness: null };
    plan.stretches = [
      { id: 's', run: 'sandy', fromM: 0, toM: null, strands: null, conditions: null, set: { ...unset, soil: 'sand' } },
    ];
    const { animalToEarth, formulas, parameters } = buildNetwork(plan, plan.conditions[0]!);
    const soils = (formula: number) =>
      formulas[formula]!.terms.flatMap(({ powers }) => powers.map((power) => parameters[power.parameter]!.key)).filter(
        (key) => key.startsWith('soil|'),
      );
    expect(soils(animalToEarth[0]![3]!)).toEqual(['soil|loam|moist|topsoil']);
    expect(soils(animalToEarth[1]![0]!)).toEqual(['soil|loam|moist|topsoil']);
    expect(soils(animalToEarth[1]![1]!)).toEqual(['soil|sand|moist|topsoil']);
  });
});

describe('an animal in contact as a fault', () => {
  const animal = (strandId: string): Plan['faults'][number] => ({
    ...{ id: 'cow', kind: 'animal', run: 'north', post: 3, on: 'post', strand: strandId, otherStrand: null },
    ...{ ohms: null, gapVolts: null, conditions: null },
  });
  const withAnimal = (strands: Plan['builds'][number]['strands']) => {
    const plan = threeSpans(strands, { faults: [animal('top')] });
    const row = { id: 'animal', about: '', aliases: [], ohms: null, gapVolts: null, insulatorState: null };
    plan.rows.faults['animal'] = { ...row, path: 'animal' };
    plan.rows.animals['cattle'] = {
      ...plan.rows.animals['cattle']!,
      ...{ bodyOhms: exact(500, 'Ω'), hideOhms: exact(0, 'Ω'), feetOhmsPerOhmM: exact(1.45, '1/m') },
    };
    plan.rows.groundCovers['bare'] = { ...plan.rows.groundCovers['bare']!, hoofOhms: exact(5000, 'Ω') };
    return plan;
  };
  const carried = (plan: Plan) => {
    const fence = openFence(plan, plan.conditions[0]!);
    return fence.network.faultElements[0]!.map((e) => Math.round(1 / fence.siemens[e]!));
  };

  test('goes through the soil where there is no grounded strand', () => {
    // 500 Ω of body, 1.45 × next to no soil, 5 kΩ under the feet.
    expect(carried(withAnimal([strand('top')]))).toEqual([5500]);
  });

  test('goes by the grounded strand beside it where that gives more, as the animal volts do', () => {
    const plan = withAnimal([strand('top'), grounded('return', 0.5)]);
    expect(carried(plan)).toEqual([Number.POSITIVE_INFINITY, 500]);
    const { animalAmps } = solvePlan({ ...plan, faults: [] })
      .conditions[0]!.posts.find(({ id }) => id === 'b')!
      .strands.find(({ role }) => role === 'hot')!;
    const fence = openFence(plan, plan.conditions[0]!);
    expect(fence.amps(fence.network.faultElements[0]![1]!)).toBeCloseTo(animalAmps, 9);
  });
});
