import { PlanError, parsePlan, type ResolvedPlan, solvePlan } from '@postvolt/core';
import {
  ageAtEndOf,
  ageingLaw,
  compare,
  insulatorAge,
  materials,
  type PlanChange,
  readChanges,
  readVariants,
} from '@postvolt/core/studies';
import { readVariantsText } from '@postvolt/core/yaml';
import { describe, expect, test } from 'vitest';
import { type LoosePlan, planOf } from '../plan/small-plan.js';
import { exact, plainPlan, strand } from '../support/fence.js';

const plan = (change?: (plan: LoosePlan) => void): ResolvedPlan => parsePlan(planOf(change));

/** The same numbers by two routes through one model: only rounding may part them. */
const rounding = 1e-9;

test('growth is paid for where it is held down, and nowhere else', async () => {
  const variants = ['growth light', 'growth overgrown', 'growth light on lane'].map((text) => ({
    name: text,
    changes: readChanges(text),
  }));
  const { variants: found } = await compare(plan(), { variants });
  const [present, light, overgrown] = found.map(({ costPerYear }) => costPerYear.typical);
  expect(light).toBeGreaterThan(present!);
  // There is none so high.
  expect(found[2]).toMatchObject({ wonVolts: 0 });
  expect(overgrown).toBe(present);
});

describe('a variant has the volts of a plan that was written so from the start', () => {
  const cases: [changes: string, written: (plan: LoosePlan) => void][] = [
    ['rods +2', (p) => ((p.energizer['groundRods'] as { count: number }).count = 5)],
    ['rods 1', (p) => ((p.energizer['groundRods'] as { count: number }).count = 1)],
    ['energizer 12 J', (p) => (p.energizer['class'] = '12 J')],
    ['wire 14 ga', (p) => (p.builds['two wires']['wire'] = '14 ga')],
    ['post wood', (p) => Object.assign(p.builds['two wires'], { post: 'wood', insulator: 't-post clip' })],
    ['spacing 20 ft', (p) => (p.builds['two wires']['postSpacing'] = '20 ft')],
    ['spacing 20 ft on lane', (p) => (p.runs.lane['postSpacing'] = '20 ft')],
    [
      'insulator cheap t-post clip aged',
      (p) =>
        Object.assign(p.builds['two wires'], {
          insulator: 'cheap t-post clip',
          insulatorState: 'aged',
          endInsulatorState: 'new',
        }),
    ],
    [
      'end insulator doughnut cracked',
      (p) => Object.assign(p.builds['two wires'], { endInsulator: 'porcelain doughnut', endInsulatorState: 'cracked' }),
    ],
    ['insulators fouled', (p) => (p.builds['two wires']['insulatorState'] = 'fouled')],
    [
      'spray',
      (p) => {
        for (const condition of Object.values(p.conditions)) delete condition['growth'];
      },
    ],
    [
      'growth light',
      (p) => {
        for (const condition of Object.values(p.conditions)) condition['growth'] = 'light';
      },
    ],
    ['strands +1', (p) => p.builds['two wires'].strands.push({ name: 'added', height: '36 in' })],
    [
      'spray, rods +2',
      (p) => {
        for (const condition of Object.values(p.conditions)) delete condition['growth'];
        (p.energizer['groundRods'] as { count: number }).count = 5;
      },
    ],
  ];
  test.each(cases)('%s', async (text, written) => {
    const result = await compare(plan(), { variants: [{ name: 'changed', changes: readChanges(text) }] });
    const [present, changed] = result.variants;
    for (const [variant, whole] of [
      [present!, plan()],
      [changed!, plan(written)],
    ] as const) {
      for (const { id, verdict, leaks } of solvePlan(whole).conditions) {
        const found = variant.conditions.find((condition) => condition.id === id)!;
        expect(Math.abs(found.weakest.compared / verdict.weakest.compared - 1)).toBeLessThan(rounding);
        expect(found.marginVolts).toBeCloseTo(verdict.marginVolts, 4);
        expect(found.holds).toBe(verdict.holds);
        expect(found.leaks[0]!.cause).toBe(leaks[0]!.cause);
      }
      expect(variant.cost.typical).toBeCloseTo(materials(whole).cost.typical, 6);
    }
    expect(changed!.costDifference.typical).toBeCloseTo(changed!.cost.typical - present!.cost.typical, 6);
    expect(result.sentence).toMatch(/^As it is the weakest post has .* kV in /);
  });

  test('mending takes the faults away, and on one run only those of that run', async () => {
    const broken = (p: LoosePlan) => {
      p['faults'] = [
        { kind: 'wire on ground', run: 'lane', post: 5 },
        { kind: 'branch on wire', run: 'west', post: 9 },
      ];
    };
    const result = await compare(plan(broken), {
      variants: [
        { name: 'all', changes: [{ what: 'mend' }] },
        { name: 'lane', changes: [{ what: 'mend', run: 'lane' }] },
      ],
    });
    const least = (p: ResolvedPlan) => Math.min(...solvePlan(p).conditions.map((c) => c.verdict.weakest.compared));
    const one = plan((p) => (p['faults'] = [{ kind: 'branch on wire', run: 'west', post: 9 }]));
    expect(result.variants.map(({ leastVolts }) => leastVolts)).toEqual(
      [plan(broken), plan(), one].map((p) => expect.closeTo(least(p), 5)),
    );
  });

  test('a row that the plan corrects is the corrected one by any of its names', async () => {
    const corrected = plan((p) => {
      p['tables'] = { wires: { '14 ga high-tensile': { resistance: '2 ohm/m' } } };
      Object.assign(p.builds, { thin: { ...p.builds['two wires'], wire: '14 ga high-tensile' } });
      for (const [id, run] of Object.entries(p.runs)) run['build'] = id === 'lane' ? 'thin' : 'two wires';
    });
    const names = ['14 ga high-tensile', '14 ga', '14 GA'];
    const variants = names.map((name) => ({ name, changes: [{ what: 'wire' as const, row: name }] }));
    const result = await compare(corrected, { variants });
    const written = plan((p) => {
      p['tables'] = { wires: { '14 ga high-tensile': { resistance: '2 ohm/m' } } };
      p.builds['two wires']['wire'] = '14 ga high-tensile';
    });
    const least = Math.min(...solvePlan(written).conditions.map(({ verdict }) => verdict.weakest.compared));
    for (const variant of result.variants.slice(1)) expect(variant.leastVolts).toBeCloseTo(least, 5);
  });

  test('changes of two runs of one build stay each on its own run', async () => {
    const changes = readChanges('insulator cheap t-post clip on lane, wire 14 ga on west');
    const { variants } = await compare(plan(), { variants: [{ name: 'v', changes }] });
    const written = plan((p) => {
      const build = p.builds['two wires'];
      Object.assign(p.builds, {
        lane: { ...build, insulator: 'cheap t-post clip', endInsulatorState: 'new' },
        west: { ...build, wire: '14 ga' },
      });
      for (const [id, run] of Object.entries(p.runs)) run['build'] = id === 'north' ? 'two wires' : id;
    });
    const volts = solvePlan(written).conditions.map(({ verdict }) => verdict.weakest.compared);
    expect(variants[1]!.conditions.map(({ weakest }) => weakest.compared)).toEqual(
      volts.map((wanted) => expect.closeTo(wanted, 5)),
    );
  });

  test('two changes of one run after the other leave the other runs alone', async () => {
    const changes = readChanges(
      'insulator cheap t-post clip on lane, insulators aged on lane, insulators aged on west',
    );
    const { variants } = await compare(plan(), { variants: [{ name: 'v', changes }] });
    const written = plan((p) => {
      const build = p.builds['two wires'];
      Object.assign(p.builds, {
        lane: { ...build, insulator: 'cheap t-post clip', insulatorState: 'aged' },
        west: { ...build, insulatorState: 'aged' },
        north: build,
      });
      for (const run of ['lane', 'west', 'north'] as const) p.runs[run]['build'] = run;
      delete (p.builds as Record<string, unknown>)['two wires'];
    });
    const [v] = variants.slice(1);
    for (const { id, verdict } of solvePlan(written).conditions)
      expect(v!.conditions.find((c) => c.id === id)!.weakest.compared).toBeCloseTo(verdict.weakest.compared, 5);
  });
});

describe('changes as they are written', () => {
  test.each<[string, PlanChange[]]>([
    ['rods +2', [{ what: 'rods', more: 2 }]],
    ['rods 4', [{ what: 'rods', count: 4 }]],
    ['strands -1', [{ what: 'hot strands', more: -1 }]],
    ['insulator porcelain doughnut', [{ what: 'insulator', row: 'porcelain doughnut' }]],
    ['insulator  claw aged on north 1', [{ what: 'insulator', row: 'claw', state: 'aged', run: 'north 1' }]],
    ['spray, mend', [{ what: 'growth', atMost: 'none' }, { what: 'mend' }]],
    ['spacing 100 ft', [{ what: 'spacing', metres: 30.48 }]],
  ])('%s', (text, changes) => {
    expect(readChanges(text)).toEqual(changes);
  });

  test.each([
    ['paint it green', /insulator NAME/],
    ['rods two', /rods \+2/],
    ['rods +2 on north', /there is one of it/],
    ['insulator', /name of a row/],
    ['spacing wide', /60 ft/],
    ['', /insulator NAME/],
  ])('refuses %j', (text, message) => {
    expect(() => readChanges(text)).toThrow(message);
  });

  test.each([
    ['insulator brick', /table of insulators/],
    ['insulator cheap t-post clip on moon', /a run of the plan/],
    ['insulator porcelain bullnose', /for line posts/],
    ['insulator nail-on claw', /goes on the posts/],
    ['strands -2', /1 hot strand/],
    ['rods -3', /from 1 to 500/],
    ['energizer 7 J', /table of energizers/],
  ])('does not fit: %s', async (text, message) => {
    const asked = compare(plan(), { variants: [{ name: 'v', changes: readChanges(text) }] });
    await expect(asked).rejects.toThrow(PlanError);
    await expect(asked).rejects.toThrow(message);
  });

  test('a file of variants is a map from names to changes', () => {
    const read = readVariantsText('sprayed: spray\nboth: [spray, rods +2]\n');
    expect(read.ok && read.value).toEqual(readVariants({ sprayed: 'spray', both: ['spray', 'rods +2'] }));
    const wrong = readVariantsText('a: spray\nb: [rods plus]\n');
    expect(wrong.ok).toBe(false);
    expect(wrong.issues[0]!.at?.line).toBe(2);
    expect(readVariantsText('- spray').ok).toBe(false);
  });
});

describe('insulators through the years', () => {
  test('are new, then aged, then crack a growing part until their life is over', () => {
    const { agedFrom, cracksFrom, crackedAtEnd } = ageingLaw;
    for (const { basis } of [agedFrom, cracksFrom, crackedAtEnd]) expect(basis).toBe('estimate');
    expect(insulatorAge(0, 20)).toEqual({ state: 'new', cracked: 0 });
    expect(insulatorAge(4, 20)).toEqual({ state: 'aged', cracked: 0 });
    expect(insulatorAge(10, 20).cracked).toBe(0);
    expect(insulatorAge(15, 20).cracked).toBeCloseTo(0.05 / 4, 12);
    expect(insulatorAge(20, 20).cracked).toBeCloseTo(0.05, 12);
    expect([0, 1, 6, 7, 12, 25].map((year) => ageAtEndOf(year, 6))).toEqual([0, 1, 6, 1, 6, 1]);
  });

  /** Twenty spans of one strand: 21 insulators, junctions first, films that leak more with age. */
  function ageing(): ResolvedPlan {
    const p = plainPlan();
    p.runs[0] = { ...p.runs[0]!, lengthM: 200 };
    for (const [state, siemens] of [
      ['new', 1e-5],
      ['aged', 1e-4],
      ['cracked', 1e-2],
    ] as const) {
      const film = exact(siemens, 'S');
      p.rows.films[state] = { ...p.rows.films[state]!, siemens: { dry: film, damp: film, wet: film } };
    }
    p.rows.insulators['claw'] = { ...p.rows.insulators['claw']!, serviceYears: exact(10, 'year') };
    return p;
  }

  test('have the volts of a plan with the same insulators cracked', async () => {
    const { years } = await compare(ageing(), { insulatorYears: { years: 25, choices: [{ name: 'v', changes: [] }] } });
    const [series] = years!.series;
    const volts = (state: 'new' | 'aged', cracked: number | null) => {
      const p = ageing();
      p.builds[0] = { ...p.builds[0]!, strands: [strand('top', { insulatorState: state, endInsulatorState: state })] };
      if (cracked !== null)
        p.faults = [
          {
            ...{ id: 'f', kind: 'cracked insulator', run: 'north', post: cracked, on: 'post', strand: 'top' },
            ...{ otherStrand: null, ohms: null, gapVolts: null, conditions: null },
          } as ResolvedPlan['faults'][number],
        ];
      return solvePlan(p).conditions[0]!.verdict.weakest.compared;
    };
    // One in twenty of 21 at the end of its life: the twentieth, which is post 18 after the two junctions.
    const expected = (year: number) => {
      const age = year === 0 ? 0 : ((year - 1) % 10) + 1;
      return age < 2 ? volts('new', null) : age < 10 ? volts('aged', null) : volts('aged', 18);
    };
    expect(series!.points).toHaveLength(26);
    for (const { year, volts: found } of series!.points)
      expect(Math.abs(found / expected(year) - 1), `year ${year}`).toBeLessThan(rounding);
    expect(series!.kinds).toEqual([{ row: 'claw', count: 21, serviceYears: 10, replacedIn: [10, 20] }]);
    expect(series!.leastVolts).toBe(Math.min(...series!.points.map((point) => point.volts)));
    // Bought once and replaced twice, at the default rates of dense plastic.
    const [price, hour] = [0.5, 25];
    const [line, end] = [19 * (price + 0.1 * hour), 2 * (price + 0.4 * hour)];
    expect(series!.cost.typical).toBeCloseTo(21 * price + 2 * (line + end), 9);
    expect(series!.costPerYear.typical).toBeCloseTo(series!.cost.typical / 25, 9);
  });

  test('good ones keep more volts than cheap ones, and the choices go on the posts', async () => {
    const { years, sentence } = await compare(plan(), { insulatorYears: {}, conditions: ['storm'] });
    const byName = new Map(years!.series.map((series) => [series.name, series]));
    expect([...byName.keys()]).toEqual([
      'as planned',
      'dense plastic, porcelain ends',
      'dense plastic, tube ends',
      'cheap plastic, tube ends',
      'porcelain',
    ]);
    const good = byName.get('dense plastic, porcelain ends')!;
    const cheap = byName.get('cheap plastic, tube ends')!;
    expect(cheap.leastVolts).toBeLessThan(good.leastVolts);
    expect(cheap.meanVolts).toBeLessThan(good.meanVolts);
    expect(cheap.kinds[0]!.replacedIn).toEqual([6, 12, 18, 24]);
    expect(sentence).toContain('over 25 years');
  });

  test('stay in salt air whatever their age and kind', async () => {
    const salty = plan((p) => (p.builds['two wires']['insulatorState'] = 'salt'));
    const { years } = await compare(salty, { insulatorYears: { years: 12 } });
    for (const { name, points } of years!.series)
      for (const { volts } of points) expect(volts, name).toBe(points[0]!.volts);
    const { variants } = await compare(salty, {
      variants: [
        { name: 'salted', changes: readChanges('insulator pin') },
        { name: 'washed', changes: readChanges('insulators new') },
      ],
    });
    const written = plan((p) => Object.assign(p.builds['two wires'], { insulator: 'pin', insulatorState: 'salt' }));
    const least = (p: ResolvedPlan) => Math.min(...solvePlan(p).conditions.map((c) => c.verdict.weakest.compared));
    expect(variants[1]!.leastVolts).toBeCloseTo(least(written), 5);
    expect(variants[2]!.leastVolts).toBeCloseTo(least(plan()), 5);
  });

  test('stop when they are told to', async () => {
    const signal = AbortSignal.abort(new Error('enough'));
    await expect(compare(plan(), { signal, insulatorYears: {} })).rejects.toThrow('enough');
  });
});
