import { PlanError, parsePlan, type ResolvedPlan, readPlan } from '@postvolt/core';
import { materials } from '@postvolt/core/studies';
import { findRow, labourPerHour, priceRowSchema, prices, standardTables, workRowSchema, works } from '@postvolt/tables';
import { describe, expect, test } from 'vitest';
import { type LoosePlan, planOf } from '../plan/small-plan.js';

const ft = 0.3048;
const plan = (change?: (plan: LoosePlan) => void): ResolvedPlan => parsePlan(planOf(change));
const take = (result: ReturnType<typeof materials>, item: string) =>
  result.lines.filter((line) => line.item === item).map(({ need, buy }) => [need, buy]);

describe('the prices', () => {
  test('are rows of their schema, invented and said to be, each name once', () => {
    for (const row of prices) expect(() => priceRowSchema.parse(row)).not.toThrow();
    for (const row of works) expect(() => workRowSchema.parse(row)).not.toThrow();
    const cells = [...prices.map(({ money }) => money), ...works.map(({ hours }) => hours), labourPerHour];
    for (const { basis, source, low, typical, high } of cells) {
      expect(basis).toBe('estimate');
      expect(source).toMatch(/invented default rate/);
      expect(low).toBeGreaterThan(0);
      expect(low).toBeLessThan(typical);
      expect(high).toBeGreaterThan(typical);
    }
    const names = prices.map(({ group, id }) => `${group} ${id}`);
    expect(new Set(names).size).toBe(names.length);
  });

  test('hold every kind of wire, post, insulator and energizer of the tables', () => {
    const have = new Set(prices.map(({ group, id }) => `${group} ${id}`));
    for (const { kind } of standardTables.wires)
      expect(have).toContain(`wires ${kind === 'cable' ? 'insulated cable' : `${kind} wire`}`);
    for (const { kind } of standardTables.posts) expect(have).toContain(`posts ${kind} post`);
    for (const { material } of standardTables.insulators) expect(have).toContain(`insulators ${material} insulator`);
    for (const { id } of standardTables.energizers) expect(have).toContain(`energizers ${id}`);
  });
});

describe('what the small plan takes, counted by hand', () => {
  // Three runs of two strands: 33, 66 and 17 spans of 40 ft at most; four junctions, one of them of three runs.
  const result = materials(plan());

  test('wire by whole coils of 4000 ft, with 5 % of waste', () => {
    const [wire] = result.lines.filter(({ item }) => item === '12.5 ga high-tensile');
    expect(wire!.need).toBeCloseTo(2 * 4620 * ft, 6);
    // 9,702 ft.
    expect(wire!.coils!.count).toBe(3);
    expect(wire!.coils!.coilM).toBeCloseTo(findRow(standardTables, 'wires', '12.5 ga')!.coilM!.typical, 9);
    expect(materials(plan(), { waste: 0.31 }).lines[0]!.coils!.count).toBe(4);
  });

  test.each([
    ['steel t-post', [[113, 113]]],
    ['t-post clip', [[226, 226]]],
    ['porcelain bullnose', [[12, 12]]],
    ['deep end post', [[4, 4]]],
    // A quarter mile, two of them, and an eighth, on two strands.
    ['strainer', [[8, 8]]],
    ['tension spring', [[8, 8]]],
    // Two strands tied at both ends of three runs, and the lead-out.
    ['line clamp', [[13, 13]]],
    ['ground rod, 6 ft', [[3, 3]]],
    ['rod clamp', [[3, 3]]],
    ['energizer, 6 J', [[1, 1]]],
    ['warning sign', []],
    ['switch', []],
  ])('%s', (item, expected) => {
    expect(take(result, item)).toEqual(expected);
  });

  test('a third strand makes braced ends; along a public way there are signs', () => {
    const three = plan((p) => {
      p.builds['two wires'].strands.push({ name: 'mid', height: '28 in' });
      p['near'] = ['public way'];
    });
    const found = materials(three);
    expect(take(found, 'deep end post')).toEqual([]);
    expect(take(found, 'braced end')).toEqual([[3, 3]]);
    expect(take(found, 'braced corner')).toEqual([[1, 1]]);
    // 1,408 m.
    expect(take(found, 'warning sign')).toEqual([[15, 15]]);
    expect(found.cautions.map(({ id }) => id)).toContain('warning signs');
  });

  test('a single end post goes as deep as its top wire is high', () => {
    expect(result.lines.find(({ item }) => item === 'deep end post')!.note).toBe(
      'set 36 in deep under as high a top wire',
    );
  });
});

describe('what it costs', () => {
  const priced = plan((p) => {
    p['prices'] = {
      currency: 'dollars',
      wires: { '12.5 ga': '120 per 4000 ft', 'insulated cable': '1 per m' },
      posts: { 'steel post': '6 (5 to 8)' },
      insulators: { 't-post clip': 0.4, 'porcelain insulator': 2 },
      energizers: { '6 J': 300 },
      parts: {
        'deep end post': 20,
        strainer: 4,
        'tension spring': 7,
        'line clamp': 1,
        'ground rod': '5 per m',
        'rod clamp': 2,
      },
      labour: 20,
      hours: { 'replace insulator': 0.1, 'string wire': '1 per 500 m' },
    };
  });
  const result = materials(priced, { years: 25 });

  test('is the sum of the user’s own prices', () => {
    // One coil, far longer than the lead-out.
    const cable = findRow(standardTables, 'wires', 'lead-out cable')!.coilM!.typical;
    const expected =
      3 * 120 + cable * 1 + 113 * 6 + 226 * 0.4 + 12 * 2 + 300 + 4 * 20 + 8 * 4 + 8 * 7 + 13 + 3 * 6 * ft * 5 + 3 * 2;
    expect(result.cost.typical).toBeCloseTo(expected, 6);
    expect(result.cost.high - result.cost.typical).toBeCloseTo(113 * 2, 6);
    expect(result.cost.typical - result.cost.low).toBeCloseTo(113, 6);
    expect(result.ownPriceShare).toBeCloseTo(1, 12);
    expect(result.currency).toBe('dollars');
  });

  test('over the years holds every replacement, with its work', () => {
    // Dense plastic lasts 20 years: once in 25, twice in 41, not within 20.
    const clips = (years: number) => materials(priced, { years }).lines.find(({ item }) => item === 't-post clip')!;
    expect(clips(20).replacedIn).toEqual([]);
    expect(clips(25).replacedIn).toEqual([20]);
    expect(clips(41).replacedIn).toEqual([20, 40]);
    expect(clips(25).replacementCost.typical).toBeCloseTo(226 * (0.4 + 0.1 * 20), 9);
    const sum = result.lines.reduce((total, line) => total + line.replacementCost.typical, result.cost.typical);
    expect(result.lifeCycle.cost.typical).toBeCloseTo(sum, 6);
    expect(result.lifeCycle.costPerYear.typical).toBeCloseTo(sum / 25, 6);
  });

  test.each(standardTables.energizers.map(({ id, joules }) => [id, joules] as const))(
    'rises with the energizer: %s',
    (id, joules) => {
      const row = prices.find(({ group, id: other }) => group === 'energizers' && other === id)!;
      expect(row.money.typical).toBeCloseTo(Number((80 + 35 * joules).toPrecision(2)), 9);
    },
  );

  test.each([
    ['a wire without a length', { wires: { '12.5 ga': 100 } }, ['prices', 'wires', '12.5 ga']],
    ['a post for a length', { posts: { wood: '3 per ft' } }, ['prices', 'posts', 'wood']],
    ['a part that is none', { parts: { stainer: 4 } }, ['prices', 'parts', 'stainer']],
    ['a price below nothing', { posts: { wood: -1 } }, ['prices', 'posts', 'wood']],
    ['work that is none', { hours: { whistling: 1 } }, ['prices', 'hours', 'whistling']],
  ])('refuses %s, with its place', (_, own, path) => {
    const outcome = readPlan(planOf((p) => (p['prices'] = own)));
    expect(outcome.ok).toBe(false);
    expect(outcome.issues[0]!.path).toEqual(path);
    expect(outcome.issues[0]!.expected).not.toBe('');
  });

  test('refuses years and waste that are none', () => {
    expect(() => materials(priced, { years: 0 })).toThrow(PlanError);
    expect(() => materials(priced, { waste: Number.NaN })).toThrow(PlanError);
  });
});
