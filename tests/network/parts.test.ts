// Each kind of element by itself: where it stands, what it is made of, and its ohms by arithmetic.
import { openFence, type ResolvedPlan } from '@postvolt/core';
import { buildNetwork, elementKinds, elementsOfPart, isMetal, partOf } from '@postvolt/core/network';
import { rodArray, rodResistance } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { calibrated } from '../../packages/core/src/network/calibrate.js';
import { metalDistances } from '../../packages/core/src/network/distances.js';
import { drawValue, endOfRange } from '../../packages/core/src/network/draw-value.js';
import { FormulaProgram } from '../../packages/core/src/network/formula-program.js';
import {
  type Formula,
  formulaRange,
  formulaSensitivity,
  formulaSiemens,
} from '../../packages/core/src/network/formulas.js';
import { exact, plainPlan, strand } from '../support/fence.js';

const range = (low: number, typical: number, high: number, unit = 'Ω') => ({ ...exact(typical, unit), low, high });
const row = { id: 'own', about: '', aliases: [], ohms: null, gapVolts: null, insulatorState: null };
type Fault = ResolvedPlan['faults'][number];
const fault = (changes: Partial<Fault> = {}): Fault => ({
  ...{ id: 'f', kind: 'own', run: 'north', post: 1, on: 'post', strand: 'top', otherStrand: null },
  ...{ ohms: null, gapVolts: null, conditions: null },
  ...changes,
});
const withFault = (
  path: 'strand to post' | 'strand to earth' | 'spark gap',
  rest = {},
  changes: Partial<Fault> = {},
) => {
  const plan = plainPlan();
  plan.rows.faults['own'] = { ...row, path, ...rest };
  return { ...plan, faults: [fault(changes)] };
};

/** Every element of a kind, as the open fence has it. */
function elements(plan: ResolvedPlan, kind: (typeof elementKinds)[number]) {
  const { network, siemens } = openFence(plan, 'usual');
  const { elements: all } = network;
  return Array.from({ length: all.count }, (_, e) => e)
    .filter((e) => elementKinds[all.kind[e]!] === kind)
    .map((e) => ({ e, a: all.nodeA[e]!, b: all.nodeB[e]!, ohms: 1 / siemens[e]!, part: partOf(all, e) }));
}

describe('faults', () => {
  test('to the post join the strand to the body of that post', () => {
    const plan = withFault('strand to post', { ohms: exact(40, 'Ω') });
    const { layout } = buildNetwork(plan, plan.conditions[0]!);
    const [run] = layout.runs;
    const [found] = elements(plan, 'fault contact');
    expect(found).toMatchObject({ a: run!.nodes[0]![1]!, b: layout.body[run!.posts[1]!]!, part: 'fault' });
    expect(found!.ohms).toBeCloseTo(40, 9);
  });

  test('have the ohms that were entered before those of their row', () => {
    const [found] = elements(
      withFault('strand to earth', { ohms: exact(40, 'Ω') }, { ohms: exact(70, 'Ω') }),
      'fault leak',
    );
    expect(found).toMatchObject({ b: -1 });
    expect(found!.ohms).toBeCloseTo(70, 9);
  });

  test('on a span stand half at either end', () => {
    const found = elements(
      withFault('strand to earth', { ohms: exact(40, 'Ω') }, { on: 'span', post: 0 }),
      'fault leak',
    );
    expect(found.map(({ ohms }) => Math.round(ohms))).toEqual([80, 80]);
    const { layout } = openFence(plainPlan(), 'usual');
    expect(found.map(({ a }) => a)).toEqual([...layout.runs[0]!.nodes[0]!.subarray(0, 2)]);
  });

  test('of another condition are not there', () => {
    const plan = withFault('strand to earth', { ohms: exact(40, 'Ω') }, { conditions: ['spring'] });
    plan.conditions.push({ ...plan.conditions[0]!, id: 'spring' });
    expect(elements(plan, 'fault leak')).toEqual([]);
    expect(openFence(plan, 'spring').network.faultElements[0]).toHaveLength(1);
  });

  test.each([
    [null, 2000],
    [exact(3500, 'V'), 3500],
  ] as const)('of a spark fire at the volts entered, else at the row’s: %#', (gapVolts, volts) => {
    const plan = withFault('spark gap', { ohms: exact(60, 'Ω'), gapVolts: exact(2000, 'V') }, { gapVolts });
    const { network, layout, circuit } = openFence(plan, 'usual');
    const [gap] = network.sparkGaps;
    expect(network.parameters[gap!.volts]!.estimate.typical).toBe(volts);
    const [run] = layout.runs;
    const { a, b, volts: threshold, ohms } = circuit.network.gaps!;
    expect([a[0], b[0], threshold[0], ohms[0]]).toEqual([run!.nodes[0]![1], layout.body[run!.posts[1]!], volts, 60]);
  });

  test('that crack an insulator give it that state, its film and its body', () => {
    const plan = plainPlan();
    plan.rows.faults['own'] = { ...row, path: 'insulator', insulatorState: 'cracked' };
    plan.rows.insulators['claw'] = { ...plan.rows.insulators['claw']!, crackedBodyOhms: exact(500, 'Ω') };
    const ohms = elements({ ...plan, faults: [fault()] }, 'insulator').map((one) => Math.round(one.ohms));
    // 2000 Ω of film and 500 Ω of body side by side are 400 Ω; the others keep their 2000 Ω.
    expect(ohms.sort((x, y) => x - y)).toEqual([400, 2000, 2000]);
  });
});

describe('ground', () => {
  const soils = (plan: ResolvedPlan, topsoil: number, deep: number) => {
    const loam = plan.rows.soils['loam']!;
    const at = (factor: number) => ({ topsoilOhmM: exact(topsoil * factor), deepOhmM: exact(deep * factor) });
    const states = { ...Object.fromEntries(Object.keys(loam.states).map((s) => [s, at(1)])), dry: at(3) };
    plan.rows.soils['loam'] = { ...loam, states: states as typeof loam.states };
  };

  test('rods stand in the deep soil, as many and as they lie', () => {
    const plan = plainPlan();
    soils(plan, 77, 100);
    const rods = { count: 3, lengthM: 2, diameterM: 0.016, spacingM: 3 };
    for (const layout of ['line', 'ring'] as const) {
      plan.energizer.ground = { kind: 'rods', ...rods, layout };
      const [ground] = elements(plan, 'ground system');
      expect(ground!.ohms).toBeCloseTo(100 * rodArray({ ...rods, layout }).ohmsPerOhmM, 9);
      expect(ground).toMatchObject({ part: 'ground', b: -1 });
    }
    // Three in a ring, which is a triangle, lie closer together than three in a line: more ohms.
    const of = (layout: 'line' | 'ring') => rodArray({ ...rods, layout }).ohmsPerOhmM;
    expect(of('ring')).toBeGreaterThan(of('line'));
  });

  test('a measured resistance follows the soil from the state that it was measured in', () => {
    const plan = plainPlan();
    soils(plan, 77, 100);
    const measured = (measuredIn: 'moist' | 'dry' | null) => {
      plan.energizer.ground = { kind: 'measured', ohms: exact(40, 'Ω'), measuredIn };
      return elements(plan, 'ground system')[0]!.ohms;
    };
    expect(measured(null)).toBeCloseTo(40, 9);
    expect(measured('moist')).toBeCloseTo(40, 9);
    // Dry soil has three times the ohm-metres: moist now, a third of what was measured dry.
    expect(measured('dry')).toBeCloseTo(40 / 3, 9);
  });

  test('a grounded strand’s own rods are single ones in the deep soil', () => {
    const plan = plainPlan();
    soils(plan, 77, 100);
    plan.builds[0]!.strands = [strand('top'), strand('return', { role: 'grounded', heightM: 0.5 })];
    plan.strandRods = [{ id: 'r', run: 'north', strand: 'return', posts: [0, 2], lengthM: 1.5, diameterM: 0.016 }];
    const found = elements(plan, 'strand rod');
    expect(found).toHaveLength(2);
    for (const rod of found) expect(rod.ohms / rodResistance(100, 1.5, 0.016)).toBeCloseTo(1, 3);
  });

  test('a steel post stands in the topsoil', () => {
    const plan = plainPlan();
    soils(plan, 77, 100);
    const { id } = plan.rows.posts['post']!;
    plan.rows.posts[id] = { ...plan.rows.posts[id]!, buriedM: exact(0.5, 'm'), contactRadiusM: exact(0.02, 'm') };
    for (const post of elements(plan, 'post')) expect(post.ohms).toBeCloseTo(1000 + rodResistance(77, 0.5, 0.04), 6);
  });
});

describe('what belongs together', () => {
  const plan = plainPlan();
  plan.rows.wires['cable'] = { ...plan.rows.wires['wire']!, id: 'cable', ohmsPerMetre: exact(2, 'Ω/m') };
  plan.rows.joints['seven'] = { id: 'seven', about: '', aliases: [], ohms: exact(7, 'Ω') };
  plan.builds[0]!.strands = [strand('top'), strand('mid', { heightM: 0.6 }), strand('low', { heightM: 0.3 })];
  plan.energizer.leadOut = { wire: 'cable', lengthM: 30 };
  plan.links = [{ id: 'short cut', from: 'a', to: 'b', role: 'hot', cable: { wire: 'cable', lengthM: 12 } }];
  plan.jumpers = [
    { id: 'one', run: 'north', post: 1, strands: ['top', 'mid'], joint: 'seven' },
    { id: 'two', run: 'north', post: 1, strands: ['top', 'mid', 'low'], joint: 'seven' },
  ];
  const { network, siemens } = openFence(plan, 'usual');
  const ohmsOf = (members: readonly number[]) => members.map((e) => Math.round(1 / siemens[e]!));

  test('elements are found by the thing of the plan that they are of', () => {
    expect(ohmsOf(elementsOfPart(network.elements, 'jumper', 0))).toEqual([7]);
    // Three strands in a chain: two joints.
    expect(ohmsOf(elementsOfPart(network.elements, 'jumper', 1))).toEqual([7, 7]);
    expect(ohmsOf(elementsOfPart(network.elements, 'link', 0))).toEqual([24]);
    expect(ohmsOf(elementsOfPart(network.elements, 'lead-out', -1))).toEqual([60]);
    expect(elementsOfPart(network.elements, 'link', 1)).toEqual([]);
  });

  test('a chain of jumpers goes from each strand to the next', () => {
    const { nodeA, nodeB } = network.elements;
    const nodes = network.layout.runs[0]!.nodes.map((own) => own[1]!);
    expect(elementsOfPart(network.elements, 'jumper', 1).map((e) => [nodeA[e], nodeB[e]])).toEqual([
      [nodes[0], nodes[1]],
      [nodes[1], nodes[2]],
    ]);
  });

  test('metal is wire, joints and cables, and nothing else', () => {
    expect(elementKinds.filter((_, kind) => isMetal(kind))).toEqual(['span', 'joint', 'cable']);
  });

  test('the shortest way of metal is what an exhaustive search finds', () => {
    const { elements: all, layout } = network;
    const found = metalDistances(all, layout.nodeCount, layout.fenceTerminal);
    // R. Bellman 1958: every element relaxed as often as there are nodes.
    const best = new Float64Array(layout.nodeCount).fill(Infinity);
    best[layout.fenceTerminal] = 0;
    for (let turn = 0; turn < layout.nodeCount; turn++)
      for (let e = 0; e < all.count; e++) {
        if (!isMetal(all.kind[e]!)) continue;
        const [a, b, lengthM] = [all.nodeA[e]!, all.nodeB[e]!, all.lengthM[e]!];
        best[b] = Math.min(best[b]!, best[a]! + lengthM);
        best[a] = Math.min(best[a]!, best[b]! + lengthM);
      }
    expect(found).toEqual(best);
    // By hand: 30 m of lead-out to post 0, 12 m of cable to post 2, 10 m of wire to post 1 from either end: 40 m.
    const at = (i: number) => found[layout.runs[0]!.nodes[0]![i]!];
    expect([at(0), at(1), at(2)]).toEqual([30, 40, 42]);
  });
});

describe('formulas', () => {
  const parameters = [range(10, 20, 40), range(1, 2, 3)].map((estimate, p) => ({
    ...{ key: String(p), kind: 'joint' as const, name: '', estimate, tableRow: '', group: String(p) },
  }));
  const power = (parameter: number, exponent: number) => ({ parameter, exponent });
  // 3 · p0 / p1 + p1², as ohms in series or as siemens side by side.
  const terms = [
    { factor: 3, powers: [power(0, 1), power(1, -1)] },
    { factor: 1, powers: [power(1, 2)] },
  ];
  const formulas: Formula[] = [
    { combine: 'series', terms },
    { combine: 'parallel', terms },
    { combine: 'parallel', terms: [] },
  ];

  test('in series add as ohms, side by side as siemens; none is an open path', () => {
    // 3 · 20/2 + 4 = 34.
    expect(formulas.map((formula) => formulaSiemens(formula, [20, 2]))).toEqual([1 / 34, 34, 0]);
  });

  test('run as arrays are the same', () => {
    const siemens = new Float64Array(3);
    const program = new FormulaProgram(formulas, 2);
    program.run([20, 2], siemens);
    expect([...siemens]).toEqual([1 / 34, 34, 0]);
    // 3 · 10/5 + 25 = 31.
    program.run([10, 5], siemens);
    expect([...siemens]).toEqual([1 / 31, 31, 0]);
  });

  test('have as their range each term at its own extremes', () => {
    // Least 3 · 10/3 + 1 = 11, most 3 · 40/1 + 9 = 129.
    expect(formulaRange(formulas[1]!, parameters)).toEqual({ low: 11, high: 129 });
    expect(formulaRange(formulas[0]!, parameters)).toEqual({ low: 1 / 129, high: 1 / 11 });
  });

  test('follow the logarithms of their values as small differences do', () => {
    for (const formula of formulas.slice(0, 2)) {
      const slopes = new Map(formulaSensitivity(formula, [20, 2]));
      for (const p of [0, 1]) {
        const at = (step: number) =>
          formulaSiemens(
            formula,
            [20, 2].map((v, i) => (i === p ? v * Math.exp(step) : v)),
          );
        expect(slopes.get(p)).toBeCloseTo((at(1e-5) - at(-1e-5)) / 2e-5, 6);
      }
    }
  });
});

describe('values drawn and calibrated', () => {
  const estimate = range(5, 10, 40);

  test('follow the range: low, typical and high are the 5th, 50th and 95th percentile', () => {
    expect(endOfRange).toBeCloseTo(1.6448536, 7);
    expect(drawValue(estimate, -endOfRange)).toBeCloseTo(5, 9);
    expect(drawValue(estimate, 0)).toBe(10);
    expect(drawValue(estimate, endOfRange)).toBeCloseTo(40, 9);
    // Half the steps are half the way in the logarithm.
    expect(drawValue(estimate, endOfRange / 2)).toBeCloseTo(20, 9);
  });

  test('whose range begins at nothing fall evenly to it, and never below', () => {
    const fromNothing = range(0, 10, 40);
    expect(drawValue(fromNothing, -endOfRange)).toBeCloseTo(0, 9);
    expect(drawValue(fromNothing, -endOfRange / 2)).toBeCloseTo(5, 9);
    expect(drawValue(fromNothing, -3)).toBe(0);
    expect(drawValue(fromNothing, endOfRange)).toBeCloseTo(40, 9);
    // A value of nothing that may be something rises evenly; one that is sure stays.
    expect(drawValue(range(0, 0, 8), endOfRange / 4)).toBeCloseTo(2, 9);
    expect(drawValue(exact(7), 2)).toBe(7);
    expect(drawValue(range(7, 7, 9), -2)).toBe(7);
  });

  test('by readings are moved within the range and narrowed', () => {
    const moved = calibrated(estimate, { shift: endOfRange / 2, spread: 0.5 });
    // The middle at half the way up, a half range either side: 20, down to 10 and up to 40.
    expect([moved.low, moved.typical, moved.high].map((value) => Number(value.toFixed(9)))).toEqual([10, 20, 40]);
    expect(moved).toMatchObject({ basis: 'derived', unit: 'Ω' });
    const same = calibrated(estimate, { shift: 0, spread: 1 });
    expect([same.low, same.typical, same.high].map((value) => Number(value.toFixed(9)))).toEqual([5, 10, 40]);
  });
});

describe('causes in words', () => {
  const plan = plainPlan();
  plan.builds[0]!.strands = [strand('top'), strand('low', { heightM: 0.3, insulatorState: 'aged' })];
  plan.conditions[0]!.growth = { vegetation: 'light', heightM: 0.5 };
  plan.rows.vegetation['light'] = {
    ...{ id: 'light', about: '', aliases: [] },
    wetSiemensPerMetre: range(1e-6, 2e-6, 4e-6, 'S/m'),
    usualHeightM: exact(0.5, 'm'),
  };
  const network = buildNetwork(plan, plan.conditions[0]!);
  const { elements: all, causes } = network;
  const of = (kind: (typeof elementKinds)[number], strandNumber: number) =>
    new Set(
      Array.from({ length: all.count }, (_, e) => e)
        .filter((e) => elementKinds[all.kind[e]!] === kind && all.strand[e] === strandNumber)
        .map((e) => causes[all.cause[e]!]),
    );

  test('say what the element is, its state and its wetness, each once', () => {
    expect([...of('insulator', 0)]).toEqual([{ kind: 'insulators', text: 'new claw insulators, damp' }]);
    // The ends of the strand are new.
    expect([...of('insulator', 1)].map((cause) => cause!.text).sort()).toEqual([
      'aged claw insulators, damp',
      'new claw insulators, damp',
    ]);
    expect([...of('span', 0)]).toEqual([{ kind: 'wire', text: 'wire' }]);
    expect([...of('post', -1)]).toEqual([{ kind: 'posts', text: 'post posts, damp' }]);
    expect([...of('vegetation', 1)]).toEqual([{ kind: 'vegetation', text: 'light growth, wet' }]);
    expect(new Set(causes.map(({ text }) => text)).size).toBe(causes.length);
  });

  test('growth hangs on the strand below its top alone, half of each span at either end', () => {
    const siemens = elements(plan, 'vegetation').map(({ ohms }) => 1e6 / ohms);
    // 2 µS/m on 5, 10 and 5 m of the low strand.
    expect(siemens.map((own) => Number(own.toFixed(9)))).toEqual([10, 20, 10]);
    expect([...of('vegetation', 0)]).toEqual([]);
  });

  test('a calibration moves the values of its group and no others', () => {
    const groups = [{ key: 'growth|north', shift: endOfRange, spread: 1 }];
    const calibration = { groups, correlation: [[1]] } as unknown as NonNullable<ResolvedPlan['calibration']>;
    const moved = buildNetwork({ ...plan, calibration }, plan.conditions[0]!);
    const typical = (own: typeof network) =>
      own.parameters.map(({ estimate }) => Number(estimate.typical.toPrecision(9)));
    const [before, after] = [typical(network), typical(moved)];
    network.parameters.forEach(({ group }, p) => {
      expect(after[p]).toBe(group === 'growth|north' ? 4e-6 : before[p]);
    });
    expect(network.parameters.some(({ group }) => group === 'growth|north')).toBe(true);
  });
});

describe('grounded strands', () => {
  const plan = plainPlan();
  plan.builds[0]!.strands = [
    strand('top'),
    strand('return', { role: 'grounded', heightM: 0.5 }),
    strand('low', { heightM: 0.2 }),
  ];
  plan.switches = [{ id: 's', run: 'north', post: 0, joint: Object.keys(plan.rows.joints)[0]!, openIn: ['usual'] }];

  test('are not opened by a switch', () => {
    const open = elements(plan, 'span').map(({ ohms }) => Number.isFinite(ohms));
    // Spans post by post: top, return, low; the first span's hot strands are open.
    expect(open).toEqual([false, true, false, true, true, true]);
  });

  test('stand beside each hot strand at every post, where contacts are asked for', () => {
    const { contacts, elements: all, layout } = buildNetwork(plan, plan.conditions[0]!, { contacts: true });
    const { nodes } = layout.runs[0]!;
    const ends = Array.from(contacts, (e) => [all.nodeA[e], all.nodeB[e]]);
    // Top and low are tied at both ends: one node there.
    expect(ends).toEqual([...[0, 1, 2].map((i) => [nodes[0]![i], nodes[1]![i]]), [nodes[2]![1], nodes[1]![1]]]);
    expect(buildNetwork(plan, plan.conditions[0]!).contacts).toHaveLength(0);
  });
});
