import { PlanError, type ResolvedPlan, solvePlan, toNetlist } from '@postvolt/core';
import { describe, expect, test } from 'vitest';
import { plainPlan, strand } from '../support/fence.js';

const elementLine = /^([RB]\w*) (\w+) (\w+) (.*)$/;

/** The element lines of a deck: name, two nodes, value. */
const elementsOf = (deck: string) =>
  deck.split('\n').flatMap((line) => {
    const found = elementLine.exec(line);
    return found ? [{ name: found[1]!, a: found[2]!, b: found[3]!, value: found[4]! }] : [];
  });

const twoStrands = (changes: Partial<ResolvedPlan> = {}) => {
  const plan = plainPlan(changes);
  plan.builds[0]!.strands.push(strand('low', { heightM: 0.5 }));
  return plan;
};

describe('a deck', () => {
  test('is the same text every time, and holds only what a simulator takes or skips', () => {
    const deck = toNetlist(twoStrands(), 'usual');
    expect(toNetlist(twoStrands(), 'usual')).toBe(deck);
    const [title, ...lines] = deck.split('\n');
    expect(title).toBe('Fence network: plain, usual');
    expect(lines.slice(-3)).toEqual(['.op', '.end', '']);
    for (const line of lines.slice(0, -3)) expect(line).toMatch(/^(\*( |$)|\.options |R\d+ |Benergizer )/);
    expect(deck).toMatchSnapshot();
  });

  test('names every node of the result, with its post and strand in a comment', () => {
    const plan = twoStrands();
    const deck = toNetlist(plan, 'usual');
    const used = new Set(elementsOf(deck).flatMap(({ a, b }) => [a, b]));
    const { posts } = solvePlan(plan).conditions[0]!;
    expect(posts).toHaveLength(3);
    for (const post of posts) {
      for (const { node, strand: id } of post.strands) {
        expect(used).toContain(node);
        expect(deck).toMatch(new RegExp(`^\\* ${node}: .*post ${post.id}, .*${id}\\b`, 'm'));
      }
    }
  });

  test('keeps every digit of a resistance', () => {
    const plan = plainPlan();
    const third = { ...plan.energizer.ground, ohms: { ...plan.rows.joints['clamp']!.ohms, typical: 100 / 3 } };
    plan.energizer.ground = third as typeof plan.energizer.ground;
    const ground = elementsOf(toNetlist(plan, 'usual')).find(({ a, b }) => a === 'ground_terminal' && b === '0')!;
    expect(Number(ground.value)).toBeCloseTo(100 / 3, 13);
    expect(ground.value.replace('.', '').length).toBeGreaterThanOrEqual(15);
  });

  test('leaves out what is open, says so, and lets nothing float', () => {
    const plan = twoStrands({
      switches: [{ id: 'cut', run: 'north', post: 1, joint: 'switch', openIn: ['usual'] }],
    });
    const deck = toNetlist(plan, 'usual');
    expect(deck).toContain('* open by a switch: r0_p1_s0 j1_hot\n');
    expect(elementsOf(deck).some(({ a, b }) => a === 'r0_p1_s0' && b === 'j1_hot')).toBe(false);
    expect(deck).not.toContain('hold them at earth');
    // An insulator that conducts nothing at all leaves the far strands on no path to earth.
    for (const row of Object.values(plan.rows.films)) {
      const none = { ...row.siemens.dry, low: 0, typical: 0, high: 0 };
      plan.rows.films[row.id] = { ...row, siemens: { dry: none, damp: none, wet: none } };
    }
    const held = toNetlist(plan, 'usual');
    expect(held).toMatch(/^Rheld_j1_hot j1_hot 0 1000000000000$/m);
    expect(held).toContain('* 3 left out: they conduct nothing\n');
  });

  test('takes no line, control word or continuation from the words of a plan', () => {
    const odd = 'Fi\u0301ne\r\n.end\u2028R9 0 j0_hot 1\u0000\\ \\\\ \u7267\u5834 \u202egnihtyna*#quit';
    const plan = twoStrands({ title: odd, conditions: plainPlan().conditions.map((c) => ({ ...c, name: odd })) });
    plan.junctions.forEach((junction, j) => {
      junction.id = `${odd}${j}`;
    });
    plan.energizer.junction = `${odd}0`;
    plan.runs[0] = { ...plan.runs[0]!, id: odd, from: `${odd}0`, to: `${odd}1` };
    plan.builds[0]!.strands[0] = strand(odd);
    const [deck, usual] = [toNetlist(plan, 'usual'), toNetlist(twoStrands(), 'usual')];
    expect(deck).toMatch(/^[\x20-\x7e\n]*$/);
    expect(deck).not.toContain('\\');
    expect(elementsOf(deck)).toEqual(elementsOf(usual));
    expect(deck.split('\n').length).toBe(usual.split('\n').length);
    for (const line of deck.split('\n')) expect(line.length).toBeLessThan(200);
  });

  test('is of a condition that the plan has', () => {
    expect(() => toNetlist(plainPlan(), 'monsoon')).toThrow(PlanError);
    expect(() => toNetlist(plainPlan(), 'monsoon')).toThrow('found "monsoon", expected one of "usual"');
  });
});
