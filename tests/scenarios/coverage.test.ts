import { parsePlan, planSchema, type ResolvedPlan, solvePlan } from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import { scenario, scenarios } from '@postvolt/scenarios';
import { standardTables } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';

const plans = scenarios.map((s): [string, ResolvedPlan] => {
  const read = readPlanText(s.plan);
  if (!read.ok) throw new Error(`${s.id}: ${JSON.stringify(read.issues)}`);
  return [s.id, read.value];
});
const all = (pick: (plan: ResolvedPlan) => Iterable<string | null>) =>
  new Set(plans.flatMap(([, plan]) => [...pick(plan)]).filter((value) => value !== null));

describe('the scenarios together', () => {
  test('are at least nine farms with different ids, titles and lessons', () => {
    expect(scenarios.length).toBeGreaterThanOrEqual(9);
    for (const key of ['id', 'title', 'teaches', 'plan'] as const) {
      expect(new Set(scenarios.map((s) => s[key])).size).toBe(scenarios.length);
    }
  });

  test('use every kind of conductor, insulator, post, soil, growth, ground cover, fault and joint', () => {
    expect(all((p) => Object.values(p.rows.wires).map((row) => row.kind))).toEqual(
      new Set(standardTables.wires.map((row) => row.kind)),
    );
    expect(all((p) => Object.values(p.rows.insulators).map((row) => row.material))).toEqual(
      new Set(standardTables.insulators.map((row) => row.material)),
    );
    expect(all((p) => Object.values(p.rows.posts).map((row) => row.kind))).toEqual(
      new Set(standardTables.posts.map((row) => row.kind)),
    );
    for (const table of ['soils', 'vegetation', 'groundCovers', 'faults'] as const) {
      const used = all((p) => Object.keys(p.rows[table]));
      expect([table, standardTables[table].map((row) => row.id).filter((id) => !used.has(id))]).toEqual([table, []]);
    }
    expect(all((p) => Object.values(p.rows.insulators).map((row) => row.place))).toEqual(
      new Set(['line', 'end', 'either']),
    );
    expect(all((p) => p.conditions.flatMap((c) => [c.soil]))).toEqual(new Set(['dry', 'moist', 'wet', 'frozen']));
    for (const wetness of ['film', 'post', 'growthWetness'] as const) {
      expect(all((p) => p.conditions.map((c) => c[wetness]))).toEqual(new Set(['dry', 'damp', 'wet']));
    }
    expect(
      all((p) => [
        ...p.builds.flatMap((b) => b.strands.flatMap((s) => [s.insulatorState, s.endInsulatorState])),
        ...p.stretches.map((s) => s.set.insulatorState),
        ...p.stretches.map((s) => (s.set.fouledFraction === null ? null : 'fouled')),
      ]),
    ).toEqual(new Set(['new', 'aged', 'fouled', 'cracked', 'salt']));
  });

  test('write every field of the plan format', () => {
    const written = new Set<string>();
    const walk = (value: unknown) => {
      if (typeof value !== 'object' || value === null) return;
      for (const [key, below] of Object.entries(value)) {
        written.add(key);
        walk(below);
      }
    };
    for (const { plan } of scenarios) walk(parse(plan));
    const unused = Object.keys(planSchema.shape).filter((key) => !written.has(key));
    // Derived where it is not written; the tests of the reader cover it.
    expect(unused).toEqual(['pulseFrequency']);
    for (const key of [
      'through',
      'line',
      'posts',
      'ties',
      'insulatorsPerPost',
      'derating',
      'measuredIn',
      'layout',
      'groundLead',
      'firesAt',
      'leak',
      'postWetness',
      'fouledFraction',
      'carriesGrounded',
      'openIn',
      'otherStrand',
      'like',
    ]) {
      expect([key, written.has(key)]).toEqual([key, true]);
    }
  });
});

describe.each(plans)('%s', (_, plan) => {
  const result = solvePlan(plan);
  test('is solved to rounding in every condition, every live hot strand above zero', () => {
    for (const { posts, residuals, leaks, energizer } of result.conditions) {
      expect(residuals.kirchhoff).toBeLessThan(1e-12);
      expect(residuals.powerBalance).toBeLessThan(1e-11);
      expect(leaks.reduce((sum, leak) => sum + leak.amps, 0) / energizer.amps).toBeCloseTo(1, 8);
      for (const { strands } of posts) {
        for (const { status, voltsToEarth } of strands) {
          if (status === 'live') expect(voltsToEarth).toBeGreaterThan(0);
          expect(voltsToEarth).toBeLessThanOrEqual(energizer.fenceVoltsToEarth * (1 + 1e-12));
        }
      }
    }
  });

  test('reads the same from JSON', () => {
    expect(parsePlan(parse(scenario(_).plan))).toEqual(plan);
  });
});

describe('the lessons', () => {
  const verdicts = (id: string) =>
    new Map(solvePlan(plans.find(([known]) => known === id)![1]).conditions.map((c) => [c.id, c]));

  test('sheep on sand: the fence without grounded strands is the one that starves the animal', () => {
    const dry = verdicts('sheep on sand').get('dry spell')!;
    expect(dry.verdict.holds).toBe(false);
    expect(dry.verdict.weakest.run).toBe('south');
    const shore = dry.posts
      .filter((post) => post.run === 'shore')
      .flatMap((post) => post.strands.filter((s) => s.role === 'hot'));
    expect(Math.min(...shore.map((s) => s.animalVolts))).toBeGreaterThan(2000);
  });

  test('snowed-in pasture: the wire keeps its volts where an animal to earth would get none', () => {
    const winter = verdicts('snowed-in pasture').get('deep winter')!;
    expect(winter.verdict.weakest.voltsToEarth).toBeGreaterThan(4000);
    expect(winter.verdict.weakest.animalVolts).toBeGreaterThan(1000);
  });

  test('loop with a switch: what lies behind the open switches is listed and left out', () => {
    const open = verdicts('loop with a switch').get('south side off')!;
    expect(open.verdict.holds).toBe(true);
    expect(open.switchedOffPosts.length).toBeGreaterThan(10);
  });

  test('mixed ages: a dry week’s largest leak is the ticking insulator, and the storm falls short', () => {
    const week = verdicts('mixed ages');
    expect(week.get('dry week')!.leaks[0]!.cause).toContain('ticking insulator');
    expect(week.get('stormy night')!.verdict.holds).toBe(false);
  });
});
