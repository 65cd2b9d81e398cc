import { parsePlan, type ResolvedPlan, readResolvedPlan, wordPath } from '@postvolt/core';
import { describe, expect, it } from 'vitest';
import { loosePlan } from './small-plan.js';

/** What an importer would write: two runs in SI, and nothing that has an obvious value. */
const importer = () => ({
  format: 'postvolt resolved plan',
  formatVersion: 1,
  soil: 'loam',
  energizer: {
    junction: 'J-17',
    loads: [
      { ohms: null, volts: 9200 },
      { ohms: 500, volts: 7400 },
    ],
    ground: { kind: 'rods', count: 4 },
  },
  junctions: [{ id: 'J-17' }, { id: 'J-18', at: [8, 47] }],
  runs: [
    {
      id: 'field 3/edge 1',
      from: 'J-17',
      to: 'J-18',
      lengthM: 402,
      posts: { kind: 'equal', spacingM: 12 },
      build: 'b1',
    },
  ],
  builds: [
    { id: 'b1', post: 'wood', strands: [{ id: 's1', heightM: 0.9, wire: '12.5 ga', insulator: 'nail-on claw' }] },
  ],
});
type Importer = ReturnType<typeof importer> & Record<string, unknown>;

function good(input: unknown): ResolvedPlan {
  const outcome = readResolvedPlan(input);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues, null, 1));
  return outcome.value;
}
const errorsOf = (change: (plan: Importer) => void) => {
  const plan = importer() as Importer;
  change(plan);
  const outcome = readResolvedPlan(plan);
  return outcome.issues.filter((i) => i.severity === 'error').map((i) => `${wordPath(i.path)} ${i.code}`);
};

/** A plan that uses every part of the format. */
const everything = () =>
  parsePlan(
    loosePlan((p) => {
      p.builds['two wires'].strands.push({ name: 'return', height: '10 in', role: 'grounded' });
      p.builds['two wires'].strands[0]!['wire'] = { like: '12.5 ga', diameter: '2.4 mm' };
      Object.assign(p, {
        junctions: { barn: { at: [8, 47] }, corner: { post: 'wood corner', through: true }, creek: null, hill: {} },
        jumpers: [{ run: 'north', post: 3, strands: ['top', 'bottom'] }],
        switches: [{ run: 'lane', span: 0, openIn: ['storm'] }],
        gates: [{ run: 'west', span: '100 ft' }],
        cables: [{ from: 'creek', to: 'hill', length: '300 ft' }],
        groundedRods: [{ run: 'west', strand: 'return', every: '900 ft' }],
        stretches: [{ run: 'west', growth: 'heavy', leak: '1 uS/m' }],
        faults: [{ kind: 'broken wire', run: 'lane', span: 3, conditions: ['drought'] }],
        near: ['public way'],
      });
      p.energizer['derating'] = { storm: '80 %' };
    }),
  );

describe('a resolved plan', () => {
  it('reads back as it is', () => {
    const plan = everything();
    expect(good(plan)).toEqual(plan);
    expect(good(JSON.parse(JSON.stringify(plan)))).toEqual(plan);
  });

  it('needs no rows and no defaults from an importer', () => {
    const plan = good(importer());
    expect(plan.runs[0]!.id).toBe('field 3/edge 1');
    expect(plan.junctions.map(({ id, name }) => [id, name])).toEqual([
      ['J-17', 'J-17'],
      ['J-18', 'J-18'],
    ]);
    expect(plan.units).toBe('metric');
    expect(plan.target).toEqual({ volts: 3000, of: 'to earth', label: 'cattle' });
    expect(plan.energizer.loads[0]!.volts).toMatchObject({ low: 9200, high: 9200, unit: 'V', basis: 'entered' });
    expect(plan.energizer.ground).toMatchObject({ count: 4, lengthM: 1.8288, spacingM: 1.8288 });
    expect(plan.builds[0]!.strands[0]).toMatchObject({
      wire: '12.5 ga',
      role: 'hot',
      insulatorState: 'new',
      endInsulator: 'porcelain bullnose',
    });
    // The row stands under the name that the importer gave it.
    expect(plan.rows.wires['12.5 ga']!.id).toBe('12.5 ga high-tensile');
    expect(plan.conditions[0]!.id).toBe('usual');
  });

  it('is settled once read', () => {
    const once = good(importer());
    expect(good(once)).toEqual(once);
  });

  it('takes a class by its row, and a line by its places', () => {
    const input = importer() as Importer;
    input.energizer = { junction: 'J-17', row: '6 j', ground: { kind: 'measured', ohms: 20 } } as never;
    delete (input.runs[0] as Record<string, unknown>)['lengthM'];
    Object.assign(input.runs[0]!, {
      line: [
        [8, 47],
        [8.01, 47],
      ],
    });
    const plan = good(input);
    expect(plan.energizer.loads[0]!.volts.basis).toBe('estimate');
    expect(plan.energizer.ground).toMatchObject({ ohms: { typical: 20, unit: 'Ω' }, measuredIn: null });
    expect(plan.runs[0]!.lengthM).toBeCloseTo(760.6, 0);
  });

  it('prefers the rows that it carries', () => {
    const row = good(importer()).rows.wires['12.5 ga']!;
    const own = {
      ...row,
      ohmsPerMetre: {
        low: 1,
        typical: 1,
        high: 1,
        unit: 'Ω/m',
        basis: 'entered',
        source: 'field meter',
        fromMemory: false,
      },
    };
    const plan = good({ ...importer(), rows: { wires: { '12.5 ga': own } } });
    expect(plan.rows.wires['12.5 ga']!.ohmsPerMetre!.typical).toBe(1);
  });

  it.each<[string, (rows: ResolvedPlan['rows']) => void, string]>([
    ['a post as wide as the sky', (r) => setCell(r.posts['wood']!.contactRadiusM, 1e295), 'contactRadiusM.low'],
    ['a post of no depth', (r) => setCell(r.posts['wood']!.buriedM, 1e-6), 'buriedM.low'],
    ['a unit of another kind', (r) => Object.assign(r.posts['wood']!.buriedM, { unit: 'V' }), 'buriedM.unit'],
  ])('carries no rows of absurd values: %s', (_, change, place) => {
    const plan = structuredClone(good(importer()));
    change(plan.rows);
    const { ok, issues } = readResolvedPlan(plan);
    expect(ok).toBe(false);
    expect(issues.map(({ path }) => wordPath(path))).toContain(`rows.posts.wood.${place}`);
  });
});

const setCell = (cell: object, value: number) => Object.assign(cell, { low: value, typical: value, high: value });

describe('a bad resolved plan', () => {
  it.each<[string, (plan: Importer) => unknown, string]>([
    [
      'an unknown row',
      (p: Importer) => Object.assign(p.builds[0]!.strands[0]!, { wire: '12.5 gauje' }),
      'builds[0].strands[0].wire unknown-row',
    ],
    ['an unknown junction', (p: Importer) => Object.assign(p.runs[0]!, { to: 'J-19' }), 'runs[0].to unknown-junction'],
    ['a key too many', (p: Importer) => Object.assign(p.runs[0]!, { length: 3 }), 'runs[0].length unknown-key'],
    [
      'text for a number',
      (p: Importer) => Object.assign(p.runs[0]!, { lengthM: '402 m' }),
      'runs[0].lengthM bad-value',
    ],
    ['a negative length', (p: Importer) => Object.assign(p.runs[0]!, { lengthM: -1 }), 'runs[0].lengthM bad-value'],
    ['no length', (p: Importer) => Object.assign(p.runs[0]!, { lengthM: undefined }), 'runs[0].lengthM missing-key'],
    ['not a number', (p: Importer) => Object.assign(p.runs[0]!, { lengthM: Number.NaN }), 'runs[0].lengthM bad-number'],
    ['another version', (p: Importer) => Object.assign(p, { formatVersion: 2 }), 'formatVersion bad-value'],
    [
      'volts that rise',
      (p: Importer) => Object.assign(p.energizer.loads[1]!, { volts: 9300 }),
      'energizer.loads curve-not-falling',
    ],
    [
      'a fault of negative ohms',
      (p: Importer) =>
        Object.assign(p, {
          faults: [
            { id: 'f', kind: 'wire on post', run: 'field 3/edge 1', post: 2, on: 'post', strand: 's1', ohms: -5 },
          ],
        }),
      'faults[0].ohms.low value-range',
    ],
    ['an endless run', (p: Importer) => Object.assign(p.runs[0]!, { lengthM: 1e300 }), 'runs[0].lengthM bad-value'],
    ['one id twice', (p: Importer) => void p.junctions.push({ id: 'J-17' }), 'junctions[2] repeated'],
    ['too many posts', (p: Importer) => Object.assign(p.runs[0]!.posts, { spacingM: 1e-7 }), 'runs[0] too-many-posts'],
    [
      'posts that miss the end',
      (p: Importer) => Object.assign(p.runs[0]!, { posts: { kind: 'at', positionsM: [0, 100] } }),
      'runs[0].posts out-of-range',
    ],
    [
      'a fault on the wrong kind of place',
      (p: Importer) =>
        Object.assign(p, { faults: [{ id: 'f', kind: 'broken wire', run: 'field 3/edge 1', post: 2, strand: 's1' }] }),
      'faults[0].post wrong-place',
    ],
  ] as const)('%s', (_, change, expected) => {
    expect(errorsOf((p) => void change(p))).toEqual([expected]);
  });
});
