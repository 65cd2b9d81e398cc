import { formatLength, parsePlan, type ResolvedPlan } from '@postvolt/core';
import { formatAmount, formatMoney, formatMoneyRange, materials, wordBought, wordNeed } from '@postvolt/core/studies';
import { describe, expect, test } from 'vitest';
import { type LoosePlan, planOf } from '../plan/small-plan.js';
import { exact, plainPlan } from '../support/fence.js';

const ft = 0.3048;
type Result = ReturnType<typeof materials>;
type Triple = readonly [typical: number, low: number, high: number];

const needs = (result: Result, item: string) =>
  result.lines.filter((line) => line.item === item).map(({ need }) => need);
const money = ([typical, low, high]: Triple) => ({
  low: expect.closeTo(low, 6),
  typical: expect.closeTo(typical, 6),
  high: expect.closeTo(high, 6),
});

/** Metric, of two strands on T-posts 10 m apart; one run of 100 m to begin with. */
const metric = (change: (plan: LoosePlan) => void = () => {}): ResolvedPlan =>
  parsePlan(
    planOf((p) => {
      p['units'] = 'metric';
      p['junctions'] = ['barn', 'corner', 'hill'];
      p.energizer = { at: 'barn', class: '6 J', groundRods: { count: 3, length: '2 m', spacing: '3 m' } };
      p.builds['two wires']['postSpacing'] = '10 m';
      p.builds['two wires']['wire'] = '2.5 mm high-tensile';
      (p as { runs: object }).runs = { north: { from: 'barn', to: 'corner', length: '100 m' } };
      p['junctions'] = ['barn', 'corner'];
      change(p);
    }),
  );
const withRuns = (p: LoosePlan, runs: Record<string, [from: string, to: string, length: string]>) => {
  (p as { runs: object }).runs = Object.fromEntries(
    Object.entries(runs).map(([id, [from, to, length]]) => [id, { from, to, length }]),
  );
  p['junctions'] = Object.fromEntries(
    [...new Set(Object.values(runs).flatMap((run) => run.slice(0, 2)))].map((id) => [id, null]),
  );
};
const through = (p: LoosePlan, id: string) => {
  p['junctions'] = { ...(p['junctions'] as object), [id]: { through: true } };
};
const ground = (p: LoosePlan) => {
  p.builds['two wires'].strands[1]!['role'] = 'grounded';
};

describe('ends, corners and what strains the wire', () => {
  test.each<[what: string, change: (p: LoosePlan) => void, item: string, expected: number[]]>([
    ['an end at either end', () => {}, 'deep end post', [2]],
    // Nine line posts and two ends, which are assemblies.
    ['no line post for an end', () => {}, 'steel t-post', [9]],
    [
      'a gate has an end on both sides',
      (p) => {
        p['gates'] = [{ run: 'north', span: 3 }];
      },
      'deep end post',
      [4],
    ],
    [
      'and two line posts less',
      (p) => {
        p['gates'] = [{ run: 'north', span: 3 }];
      },
      'steel t-post',
      [7],
    ],
    [
      'beside a junction the junction is one of them',
      (p) => {
        p['gates'] = [
          { run: 'north', span: 0 },
          { run: 'north', span: 9 },
        ];
      },
      'deep end post',
      [4],
    ],
    [
      'a corner of two runs is one post',
      (p) => withRuns(p, { north: ['barn', 'corner', '100 m'], lane: ['corner', 'hill', '50 m'] }),
      'deep end post',
      [3],
    ],
    [
      'where the fence passes by there is none',
      (p) => {
        withRuns(p, { north: ['barn', 'corner', '100 m'], lane: ['corner', 'hill', '50 m'] });
        through(p, 'corner');
      },
      'deep end post',
      [2],
    ],
    [
      'but one where a third run ends there',
      (p) => {
        withRuns(p, {
          north: ['barn', 'corner', '100 m'],
          lane: ['corner', 'hill', '50 m'],
          spur: ['corner', 'pond', '50 m'],
        });
        through(p, 'corner');
      },
      'deep end post',
      [4],
    ],
    // A strand is strained every 402.336 m: 100 m on two strands.
    ['a strainer a strand', () => {}, 'strainer', [2]],
    ['a quarter mile takes one', (p) => (p.runs.north['length'] = '402.336 m'), 'strainer', [2]],
    ['a little more two', (p) => (p.runs.north['length'] = '402.5 m'), 'strainer', [4]],
    ['1 km takes three', (p) => (p.runs.north['length'] = '1 km'), 'strainer', [6]],
    ['springs as many', (p) => (p.runs.north['length'] = '1 km'), 'tension spring', [6]],
    [
      'springs on hot strands only',
      (p) => {
        p.runs.north['length'] = '1 km';
        ground(p);
      },
      'tension spring',
      [3],
    ],
    [
      'strainers on grounded ones too',
      (p) => {
        p.runs.north['length'] = '1 km';
        ground(p);
      },
      'strainer',
      [6],
    ],
    [
      'two pieces beside a gate',
      (p) => {
        p['gates'] = [{ run: 'north', span: 3 }];
      },
      'strainer',
      [4],
    ],
    [
      'three pieces between two gates',
      (p) => {
        p['gates'] = [
          { run: 'north', span: 3 },
          { run: 'north', span: 6 },
        ];
      },
      'strainer',
      [6],
    ],
    [
      // 1 km in three pieces of 333 m.
      'a kilometre in three pieces takes no more than those',
      (p) => {
        p.runs.north['length'] = '1 km';
        p['gates'] = [
          { run: 'north', span: 3 },
          { run: 'north', span: 6 },
        ];
      },
      'strainer',
      [6],
    ],
    [
      'runs that meet are strained each for itself',
      (p) => withRuns(p, { north: ['barn', 'corner', '200 m'], lane: ['corner', 'hill', '100 m'] }),
      'strainer',
      [4],
    ],
    [
      'those that pass a post are strained as one',
      (p) => {
        withRuns(p, { north: ['barn', 'corner', '200 m'], lane: ['corner', 'hill', '100 m'] });
        through(p, 'corner');
      },
      'strainer',
      [2],
    ],
    [
      'three in a chain too, by their length together: 450 m',
      (p) => {
        withRuns(p, {
          north: ['barn', 'corner', '200 m'],
          lane: ['corner', 'hill', '150 m'],
          ridge: ['hill', 'pond', '100 m'],
        });
        through(p, 'corner');
        through(p, 'hill');
      },
      'strainer',
      [4],
    ],
    [
      'unless one has more strands than the other',
      (p) => {
        withRuns(p, { north: ['barn', 'corner', '200 m'], lane: ['corner', 'hill', '100 m'] });
        through(p, 'corner');
        const build = p.builds['two wires'];
        Object.assign(p.builds, { one: { ...build, strands: [build.strands[0]!] } });
        p.runs.north['build'] = 'two wires';
        p.runs.lane['build'] = 'one';
      },
      'strainer',
      [3],
    ],
    ['poly twine is strained by hand', (p) => (p.builds['two wires']['wire'] = 'poly twine'), 'strainer', []],
    // Two strands tied at both ends.
    ['clamps at the ties', () => {}, 'line clamp', [4]],
    ['none for one hot strand', ground, 'line clamp', []],
    ['at one end where one is tied', (p) => (p.builds['two wires']['ties'] = 'from'), 'line clamp', [2]],
    [
      'those of a jumper alone where none is',
      (p) => {
        p.builds['two wires']['ties'] = 'none';
        p['jumpers'] = [{ run: 'north', post: 5, strands: ['top', 'bottom'] }];
      },
      'line clamp',
      [2],
    ],
    ['one more for the lead-out', (p) => (p.energizer['leadOut'] = { length: '20 m' }), 'line clamp', [5]],
    [
      'a clamp a strand at jumpers',
      (p) => {
        p['jumpers'] = [{ run: 'north', post: 5, strands: ['top', 'bottom'] }];
      },
      'line clamp',
      [6],
    ],
    [
      'and on both sides of a gate',
      (p) => {
        p['gates'] = [{ run: 'north', span: 3 }];
      },
      'line clamp',
      [8],
    ],
    [
      'with the grounded strand where the gate carries it',
      (p) => {
        ground(p);
        p['gates'] = [{ run: 'north', span: 3 }];
      },
      'line clamp',
      [4],
    ],
    [
      'without where it does not',
      (p) => {
        ground(p);
        p['gates'] = [{ run: 'north', span: 3, carriesGrounded: false }];
        p['groundedRods'] = [{ run: 'north', strand: 'bottom', posts: [7] }];
      },
      'line clamp',
      [2],
    ],
    [
      'two for a cable from junction to junction',
      (p) => {
        p['cables'] = [{ from: 'barn', to: 'corner', wire: 'under-gate cable', length: '100 m' }];
      },
      'line clamp',
      [6],
    ],
    [
      'switches one by one',
      (p) => {
        p['switches'] = [
          { run: 'north', span: 1 },
          { run: 'north', span: 2 },
        ];
      },
      'switch',
      [2],
    ],
    ['no signs away from the road', () => {}, 'warning sign', []],
    ['a sign every 100 m', (p) => (p['near'] = ['public way']), 'warning sign', [1]],
    [
      'or part of them',
      (p) => {
        p['near'] = ['public way'];
        p.runs.north['length'] = '101 m';
      },
      'warning sign',
      [2],
    ],
    [
      'and one a gate',
      (p) => {
        p['near'] = ['public way'];
        p['gates'] = [{ run: 'north', span: 3 }];
      },
      'warning sign',
      [2],
    ],
    ['rods by their length', () => {}, 'ground rod, 2 m', [3]],
    [
      'those along a grounded strand beside them',
      (p) => {
        ground(p);
        p['groundedRods'] = [{ run: 'north', strand: 'bottom', posts: [2, 7], length: '1.5 m' }];
      },
      'ground rod, 1.5 m',
      [2],
    ],
    [
      'with those of the same length in one line',
      (p) => {
        ground(p);
        p['groundedRods'] = [{ run: 'north', strand: 'bottom', posts: [2, 7], length: '2 m' }];
      },
      'ground rod, 2 m',
      [5],
    ],
    [
      'a clamp for each rod of any length',
      (p) => {
        ground(p);
        p['groundedRods'] = [{ run: 'north', strand: 'bottom', posts: [2, 7], length: '1.5 m' }];
      },
      'rod clamp',
      [5],
    ],
  ])('%s', (_, change, item, expected) => {
    expect(needs(materials(metric(change)), item)).toEqual(expected);
  });

  test('three strands are braced, at a corner with two braces, and at gates', () => {
    const third = (p: LoosePlan) => {
      withRuns(p, { north: ['barn', 'corner', '100 m'], lane: ['corner', 'hill', '50 m'] });
      p.builds['two wires'].strands.push({ name: 'mid', height: '70 cm' });
      p['gates'] = [{ run: 'north', span: 3 }];
    };
    const result = materials(metric(third));
    expect(needs(result, 'deep end post')).toEqual([]);
    expect(needs(result, 'braced end')).toEqual([4]);
    expect(needs(result, 'braced corner')).toEqual([1]);
  });

  test('where builds meet the one with more strands decides, and the depth is that of the highest wire', () => {
    const mixed = (strands: number) => (p: LoosePlan) => {
      withRuns(p, { north: ['barn', 'corner', '100 m'], lane: ['corner', 'hill', '50 m'] });
      const build = p.builds['two wires'];
      Object.assign(p.builds, {
        other: {
          ...build,
          strands: Array.from({ length: strands }, (_, n) => ({ name: `s${n}`, height: `${120 - 20 * n} cm` })),
        },
      });
      p.runs.north['build'] = 'two wires';
      p.runs.lane['build'] = 'other';
    };
    const three = materials(metric(mixed(3)));
    expect(needs(three, 'deep end post')).toEqual([1]);
    expect(needs(three, 'braced end')).toEqual([1]);
    expect(needs(three, 'braced corner')).toEqual([1]);
    const [end] = materials(metric(mixed(2))).lines.filter(({ item }) => item === 'deep end post');
    expect(end).toMatchObject({ need: 3, note: 'set 1.2 m deep under as high a top wire' });
  });

  test('posts of a junction are of the kind that the plan has there', () => {
    const result = materials(
      metric((p) => {
        p['junctions'] = { barn: null, corner: { post: 'wood corner' } };
        p['stretches'] = [{ run: 'north', from: '30 m', to: '60 m', post: 'wood', insulator: 'pin' }];
      }),
    );
    // Posts 3, 4 and 5 are of wood; the wooden corner is bought as an end.
    expect(needs(result, 'steel t-post')).toEqual([6]);
    expect(needs(result, 'wood')).toEqual([3]);
    expect(needs(result, 'wood corner')).toEqual([]);
    expect(needs(result, 'pin')).toEqual([6]);
  });

  test('what holds in one condition only is not built', () => {
    const result = materials(
      metric((p) => {
        p['stretches'] = [
          { run: 'north', from: '30 m', to: '60 m', post: 'wood', insulator: 'pin', conditions: ['storm'] },
        ];
      }),
    );
    expect(needs(result, 'wood')).toEqual([]);
    expect(needs(result, 'steel t-post')).toEqual([9]);
  });
});

describe('wire', () => {
  const wire = (change: (p: LoosePlan) => void, item: string, options = {}) =>
    materials(metric(change), options).lines.find((line) => line.item === item)!;

  test('cable stands in place of it across a gate', () => {
    const gate = (p: LoosePlan) => {
      p['gates'] = [{ run: 'north', span: 3, cable: { wire: '12.5 ga insulated cable', length: '12 m' } }];
    };
    expect(wire(gate, '2.5 mm high-tensile').need).toBeCloseTo(180, 9);
    expect(wire(gate, '12.5 ga insulated cable').need).toBeCloseTo(12, 9);
  });

  // Coils of 625 m: 595.238 m and a twentieth are 625 m.
  test.each([
    ['297.6 m', 1],
    ['297.62 m', 2],
  ])('two strands of %s fill %i coils with the waste', (length, count) => {
    const { coils, buy, need } = wire((p) => (p.runs.north['length'] = length), '2.5 mm high-tensile');
    expect(need).toBeCloseTo(2 * Number.parseFloat(length), 9);
    expect(coils).toEqual({ count, coilM: 625 });
    expect(buy).toBe(625 * count);
  });

  test('without waste a full coil is enough; all of it may be wasted', () => {
    const long = (p: LoosePlan) => (p.runs.north['length'] = '312.5 m');
    expect(wire(long, '2.5 mm high-tensile', { waste: 0 }).coils!.count).toBe(1);
    expect(wire(long, '2.5 mm high-tensile', { waste: 1 }).coils!.count).toBe(2);
    expect(materials(metric()).waste).toBe(0.05);
  });

  test('sold by the metre it is bought with its waste', () => {
    const plan = plainPlan();
    plan.rows.wires['wire'] = { ...plan.rows.wires['wire']!, coilM: null };
    const [line] = materials(plan).lines;
    expect(line).toMatchObject({ need: 20, buy: 21, coils: null, per: 'metre' });
    expect(wordNeed(line!, 'metric')).toBe('20 m');
    expect(wordBought(line!, 'metric')).toBe('21 m');
  });

  test.each([
    [{ waste: -0.01 }, /waste.*from 0 to 1/],
    [{ waste: 1.01 }, /waste.*from 0 to 1/],
    [{ years: 0.5 }, /years.*from 1 to 100/],
    [{ years: 101 }, /years.*from 1 to 100/],
  ])('refuses %j', (options, message) => {
    expect(() => materials(metric(), options)).toThrow(message);
  });
});

describe('replacements over 45 years, by hand', () => {
  /** Hours are half at the low end and twice as many at the high end; work costs 20 (10 to 40) an hour. */
  const hours = {
    ...{ 'replace insulator': 0.1, 'replace end insulator': 0.3, 'set post': 0.5, 'build assembly': 2 },
    ...{ 'add rod': 1, 'fit part': 0.25 },
  };
  const plan = metric((p) => {
    ground(p);
    p.energizer['leadOut'] = { wire: '12.5 ga insulated cable', length: '30 m' };
    p['near'] = ['public way'];
    p['switches'] = [{ run: 'north', span: 1 }];
    p['prices'] = {
      labour: '20 (10 to 40)',
      hours: {
        ...Object.fromEntries(Object.entries(hours).map(([id, h]) => [id, `${h} (${h / 2} to ${2 * h})`])),
        'string wire': '1 per 500 m',
      },
      wires: { '2.5 mm high-tensile': '0.1 per m', 'insulated cable': '2 per m' },
      posts: { 'steel post': '6 (5 to 8)' },
      insulators: {
        't-post clip': '0.5 (0.4 to 0.8)',
        'porcelain insulator': 3,
        'metal insulator': '0.25 (0.125 to 0.5)',
      },
      parts: {
        ...{ 'deep end post': 20, strainer: 4, 'tension spring': 7, 'line clamp': 1.5 },
        ...{ 'ground rod': '5 (4 to 7) per m', 'rod clamp': 2, switch: 11, 'warning sign': 3 },
      },
      energizers: { '6 J': '300 (200 to 500)' },
    };
  });
  const result = materials(plan, { years: 45 });

  /** How often a thing is replaced: at its usual life, at its longest and at its shortest. */
  type Times = readonly [usual: number, longest: number, shortest: number];
  const lines: [item: string, need: number, price: Triple, work: number, times: Times, years: number[]][] = [
    // 50 and 15 years at the ends: never, and at 15 and 30. One coil of 625 m, strung 200 m.
    ['2.5 mm high-tensile', 200, [62.5, 62.5, 62.5], 0, [1, 0, 2], [30]],
    // 165 ft at 2 a metre; 20 (10 to 30) years. It comes with the lead-out's other work.
    ['12.5 ga insulated cable', 30, [100.584, 100.584, 100.584], 0, [2, 1, 4], [20, 40]],
    // 25 (15 to 40) years.
    ['steel t-post', 9, [54, 45, 72], 9 * 0.5, [1, 1, 2], [25]],
    // 20 (15 to 30) years.
    ['t-post clip', 9, [4.5, 3.6, 7.2], 9 * 0.1, [2, 1, 2], [20, 40]],
    // 50 (30 to 80) years.
    ['porcelain bullnose', 2, [6, 6, 6], 2 * 0.3, [0, 0, 1], []],
    ['deep end post', 2, [40, 40, 40], 2 * 2, [1, 1, 2], [25]],
    ['strainer', 2, [8, 8, 8], 2 * 0.25, [2, 1, 4], [20, 40]],
    ['tension spring', 1, [7, 7, 7], 0.25, [2, 1, 4], [20, 40]],
    // 15 (8 to 25) years: 45 years are three lives, so two replacements.
    ['line clamp', 1, [1.5, 1.5, 1.5], 0.25, [2, 1, 5], [15, 30]],
    ['switch', 1, [11, 11, 11], 0.25, [2, 1, 5], [15, 30]],
    // 10 (5 to 15) years.
    ['warning sign', 1, [3, 3, 3], 0.25, [4, 2, 8], [10, 20, 30, 40]],
    // Three rods of 2 m; 20 (10 to 40) years.
    ['ground rod, 2 m', 3, [30, 24, 42], 3, [2, 1, 4], [20, 40]],
    ['rod clamp', 3, [6, 6, 6], 3 * 0.25, [2, 1, 5], [15, 30]],
    ['energizer, 6 J', 1, [300, 200, 500], 0.25, [4, 2, 8], [10, 20, 30, 40]],
  ];

  test.each(lines)('%s', (item, need, price, work, [usual, longest, shortest], years) => {
    const line = result.lines.find((one) => one.item === item)!;
    expect(line.need).toBeCloseTo(need, 9);
    expect(line.cost).toEqual(money(price));
    expect(line.replacedIn).toEqual(years);
    // Wire is strung again at 0.002 h a metre; its hours have no range.
    const strung = item === '2.5 mm high-tensile' ? 0.4 : 0;
    const [typical, low, high] = price;
    expect(line.replacementCost).toEqual(
      money([
        usual * (typical + (work + strung) * 20),
        longest * (low + (work / 2 + strung) * 10),
        shortest * (high + (2 * work + strung) * 40),
      ]),
    );
  });

  test('staples go with the strand that they hold: no work of their own', () => {
    const staples = result.lines.filter(({ group, item }) => group === 'insulators' && /staple/.test(item));
    // Nine line posts and two ends of the grounded strand; 30 (15 to 50) years.
    expect(staples.map(({ need, note }) => [need, note])).toEqual([
      [9, 'on line posts'],
      [2, 'at ends and corners'],
    ]);
    for (const { need, replacementCost } of staples)
      expect(replacementCost).toEqual(money([need * 0.25, 0, 2 * need * 0.5]));
  });

  test('the sums', () => {
    const staples: Triple = [11 * 0.25, 11 * 0.125, 11 * 0.5];
    const sum = (end: 0 | 1 | 2) => lines.reduce((total, [, , price]) => total + price[end], staples[end]);
    expect(result.cost).toEqual(money([sum(0), sum(1), sum(2)]));
    expect(result.ownPriceShare).toBeCloseTo(1, 12);
    const whole = (end: 'low' | 'typical' | 'high') =>
      result.lines.reduce((total, line) => total + line.replacementCost[end], result.cost[end]);
    expect(result.lifeCycle.years).toBe(45);
    expect(result.lifeCycle.cost).toEqual(money([whole('typical'), whole('low'), whole('high')]));
    expect(result.lifeCycle.costPerYear).toEqual(money([whole('typical') / 45, whole('low') / 45, whole('high') / 45]));
  });

  test('the part of own prices is by money', () => {
    const few = metric((p) => {
      p['prices'] = { energizers: { '6 J': 300 } };
    });
    const { ownPriceShare, cost } = materials(few);
    expect(ownPriceShare).toBeCloseTo(300 / cost.typical, 12);
    expect(materials(metric()).ownPriceShare).toBe(0);
  });
});

describe('in words', () => {
  test('the sentence counts, and its money is the result’s', () => {
    const result = materials(parsePlan(planOf()), { years: 30 });
    const { cost, currency, lifeCycle } = result;
    // 33, 66 and 17 spans: 113 line posts of two strands, and 12 end insulators; 9240 ft of wire and 60 ft of lead-out.
    const wire = formatLength(9300 * ft, 'imperial');
    expect(wire).toBe('1.76 mi');
    expect(result.sentence).toBe(
      `The fence takes ${wire} of wire and cable (4 coils), 113 line posts, 4 ends and corners and 238 insulators: about ${formatMoney(cost, currency)} (${formatMoneyRange(cost)}) to buy, and ${formatMoney(lifeCycle.costPerYear, currency)} a year over 30 years.`,
    );
    const clips = result.lines.find(({ item }) => item === 't-post clip')!;
    expect(wordNeed(clips, 'imperial')).toBe('226');
    expect(wordBought(clips, 'imperial')).toBe('226');
    expect(wordBought(result.lines[0]!, 'imperial')).toBe('3 × 4,000 ft');
  });

  test('one of a thing is one', () => {
    const plan = plainPlan();
    // A loop of three posts: the junction, and two on the way of which a gate takes one.
    plan.rows.wires['wire'] = { ...plan.rows.wires['wire']!, coilM: exact(1000, 'm') };
    expect(materials(plan).sentence).toMatch(
      /^The fence takes 20 m of wire and cable \(1 coil\), 1 line post, 2 ends and corners and 3 insulators: /,
    );
    plan.rows.wires['wire'] = { ...plan.rows.wires['wire']!, coilM: null };
    expect(materials(plan).sentence).toContain('20 m of wire and cable, 1 line post');
  });

  test('notes say what is invented, measured or left out, and only where it is', () => {
    const usual = materials(metric());
    expect(usual.notes).toEqual([
      expect.stringMatching(new RegExp(`^${usual.lines.length} of ${usual.lines.length} prices are invented`)),
    ]);
    const few = materials(metric((p) => (p['prices'] = { parts: { strainer: 4 } })));
    expect(few.notes[0]).toMatch(new RegExp(`^${few.lines.length - 1} of ${few.lines.length} prices are invented`));
    const gated = materials(
      metric((p) => {
        p['gates'] = [{ run: 'north', span: 3 }];
      }),
    );
    expect(gated.notes.filter((note) => /gates themselves/.test(note))).toHaveLength(1);
    // The plain plan's ground was measured, and its energizer is of no class.
    const plain = materials(plainPlan());
    expect(plain.notes.slice(1)).toEqual([
      expect.stringMatching(/ground system was measured/),
      expect.stringMatching(/no class of the table/),
    ]);
    const energizer = plain.lines.at(-1)!;
    expect(energizer).toMatchObject({ item: 'energizer', need: 1, price: null, cost: { low: 0, typical: 0, high: 0 } });
    // It has no price, so it is no invented one.
    expect(plain.notes[0]).toMatch(new RegExp(`^${plain.lines.length - 1} of ${plain.lines.length} prices`));
    expect(plain.lines.filter(({ group }) => group === 'ground')).toEqual([]);
  });

  test.each([
    [9.994, 2, '10'],
    [9.44, 2, '9.4'],
    [10.4, 2, '10'],
    [0.126, 2, '0.13'],
    [12_345, 2, '12,000'],
    [12_345, 3, '12,300'],
    [-15.6, 2, '−16'],
    [0, 2, '0'],
  ])('%d to %i digits is %s', (amount, digits, words) => {
    expect(formatAmount(amount, digits)).toBe(words);
  });

  test('money without a range has three digits, with one two', () => {
    expect(formatMoney({ low: 1234, typical: 1234, high: 1234 }, 'crowns')).toBe('1,230 crowns');
    expect(formatMoney({ low: 1000, typical: 1234, high: 2000 }, 'crowns')).toBe('1,200 crowns');
    expect(formatMoneyRange({ low: 6912, typical: 9000, high: 14_321 })).toBe('6,900 to 14,000');
  });
});
