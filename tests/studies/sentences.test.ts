// What a study says first agrees with what it says as data: numbers, names, and the words for holding and falling short.
import { formatVolts, formatVoltsBeside, solvePlan } from '@postvolt/core';
import { compare, months, readChanges, supply, upkeep } from '@postvolt/core/studies';
import { readPlanText } from '@postvolt/core/yaml';
import { scenarios } from '@postvolt/scenarios';
import { describe, expect, test } from 'vitest';
import { someOf } from '../support/length.js';

const plans = scenarios.map(({ id, plan }) => {
  const read = readPlanText(plan);
  if (!read.ok) throw new Error(id);
  return [id, read.value] as const;
});

describe.each(someOf(plans.toReversed(), 5))('%s', (_, plan) => {
  const goal = `${formatVolts(plan.target.volts)} for ${plan.target.label}`;

  test('solve names the conditions that fall short, and the least where it is', () => {
    const { sentence, conditions, holds } = solvePlan(plan);
    expect(holds).toBe(conditions.every(({ verdict }) => verdict.holds));
    expect(sentence.startsWith(`The fence ${holds ? 'holds' : 'falls short of'} ${goal} in `)).toBe(true);
    const short = conditions.filter(({ verdict }) => !verdict.holds);
    const among = short.length > 0 ? short : conditions;
    const worst = among.reduce((a, b) => (b.verdict.marginVolts < a.verdict.marginVolts ? b : a));
    const { compared, postId } = worst.verdict.weakest;
    expect(sentence).toContain(`${formatVoltsBeside(compared, plan.target.volts)} at ${postId} in ${worst.name}`);
    if (short.length > 0 && short.length <= 3) for (const { name } of short) expect(sentence).toContain(name);
    for (const { name, verdict } of conditions) {
      expect(verdict.sentence.startsWith(`${verdict.holds ? 'Holds' : 'Falls short'} in ${name}: `)).toBe(true);
      expect(verdict.sentence).toContain(verdict.marginVolts >= 0 ? ' above the ' : ' under the ');
      expect(verdict.holds).toBe(verdict.marginVolts >= 0);
    }
  });

  test('months holds only where every month does, by its worst weather', async () => {
    const year = await months(plan);
    expect(year.holds).toBe(year.months.every((month) => month.holds));
    for (const month of year.months) {
      expect(month.holds).toBe(month.weathers.every(({ holds }) => holds));
      expect(month.volts).toBe(Math.min(...month.weathers.map(({ weakest }) => weakest.compared)));
      expect(month.bestVolts).toBe(Math.max(...month.weathers.map(({ weakest }) => weakest.compared)));
      for (const { holds, weakest } of month.weathers) expect(holds).toBe(weakest.compared >= plan.target.volts);
    }
    const worst = year.months.find(({ month }) => month === year.worst)!;
    expect(worst.volts).toBe(Math.min(...year.months.map(({ volts }) => volts)));
    expect(year.sentence).toContain(`The fence ${year.holds ? `holds ${goal} all year` : `falls short of ${goal} in`}`);
    expect(year.sentence).toContain(`${year.worst} is the worst month, with ${formatVolts(worst.volts)}`);
    expect(year.sentence).toContain(` at ${worst.weathers[0]!.weakest.postId} (${worst.weathers[0]!.condition.name})`);
  });

  test('compare says what the plan has as it is, and which variant gives most', async () => {
    const variants = ['rods +3', 'spray'].map((text) => ({ name: text, changes: readChanges(text) }));
    const usable = plan.energizer.ground.kind === 'rods' ? variants : variants.slice(1);
    const { variants: found, sentence } = await compare(plan, { variants: usable });
    const [present, ...others] = found;
    expect(present!.holds).toBe(solvePlan(plan).holds);
    expect(sentence).toContain(`As it is the weakest post has ${formatVolts(present!.leastVolts)} in `);
    expect(sentence).toContain(`which ${present!.holds ? 'holds' : 'falls short of'} ${goal}`);
    for (const variant of found) {
      const worst = variant.conditions.find(({ id }) => id === variant.worst)!;
      expect(worst.marginVolts).toBe(Math.min(...variant.conditions.map(({ marginVolts }) => marginVolts)));
      expect(variant.leastVolts).toBe(worst.weakest.compared);
      expect(variant.wonVolts).toBeCloseTo(variant.leastVolts - present!.leastVolts, 9);
      expect(variant.holds).toBe(variant.conditions.every(({ holds }) => holds));
    }
    const best = others.reduce((a, b) => (b.leastVolts > a.leastVolts ? b : a));
    if (best.wonVolts < 1) expect(sentence).toMatch(/none of the \d variants? gives it more/);
    else expect(sentence).toContain(`"${best.name}" gives it most, ${formatVolts(best.leastVolts)}`);
  });

  test('upkeep begins with its first step, and ends at what its steps lead to', async () => {
    const result = await upkeep(plan, { mostSteps: 3 });
    const { sentence, steps, actions, holds, holdsAfter, afterVolts } = result;
    const solved = solvePlan(plan);
    expect(holds).toBe(solved.holds);
    expect(result.leastVolts).toBe(Math.min(...solved.conditions.map(({ verdict }) => verdict.weakest.compared)));
    if (steps.length === 0) {
      expect(sentence).toMatch(/^Nothing in this plan wins volts/);
      expect(sentence).toContain(`which ${holds ? 'holds' : 'falls short of'} ${goal}`);
      return;
    }
    const first = actions.find(({ id }) => id === steps[0]!.action)!;
    expect(sentence.startsWith(`First ${first.text}: it wins most for an hour of work; `)).toBe(true);
    expect(sentence).toContain(steps.length === 1 ? 'after that (' : `after all ${steps.length} steps (`);
    expect(sentence).toContain(`has ${formatVoltsBeside(afterVolts, plan.target.volts)}, which`);
    expect(sentence.endsWith(`which ${holdsAfter ? 'holds' : 'still falls short of'} ${goal}.`)).toBe(true);
    expect(afterVolts).toBe(steps.at(-1)!.leastVolts);
    expect(holdsAfter).toBe(afterVolts >= plan.target.volts);
    let before = result.leastVolts;
    let [hours, money] = [0, 0];
    for (const step of steps) {
      const { hours: h, money: m } = actions.find(({ id }) => id === step.action)!;
      hours += h.typical;
      money += m.typical;
      expect(step.wonVolts).toBeCloseTo(step.leastVolts - before, 6);
      expect(step.hoursSoFar).toBeCloseTo(hours, 9);
      expect(step.moneySoFar).toBeCloseTo(money, 6);
      before = step.leastVolts;
    }
  });

  test('supply says whether the energizer that is there is enough', async () => {
    const result = await supply(plan);
    const { present, conditions, leastOutput } = result;
    expect(present.holds).toBe(solvePlan(plan).holds);
    const factors = conditions.map(({ leastFactor }) => leastFactor ?? Number.POSITIVE_INFINITY);
    expect(leastOutput.factor ?? Number.POSITIVE_INFINITY).toBeCloseTo(Math.max(...factors), 9);
    // The energizer holds where no more than its own output is asked for.
    expect(present.holds).toBe(Math.max(...factors) <= 1);
    for (const condition of conditions) {
      const { verdict } = solvePlan(plan, { conditions: [condition.id] }).conditions[0]!;
      expect(condition.weakestVolts).toBeCloseTo(verdict.weakest.compared, 6);
    }
  });
});
