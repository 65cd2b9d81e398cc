import { readPlan, wordPath } from '@postvolt/core';
import { describe, expect, it } from 'vitest';
import { type LoosePlan, loosePlan } from './small-plan.js';

type Case = [what: string, change: (plan: LoosePlan) => void, path: string, code: string, hint?: RegExp];
const strand = (plan: LoosePlan, index = 0) => plan.builds['two wires'].strands[index]!;
const ground = (plan: LoosePlan) => strand(plan, 1);

const cases: Case[] = [
  // Keys and shapes
  ['a key too many', (p) => Object.assign(p, { energiser: {} }), 'energiser', 'unknown-key', /"energizer"/],
  [
    'a misspelt key',
    (p) => Object.assign(p.runs.north, { lenght: '1 ft' }),
    'runs.north.lenght',
    'unknown-key',
    /"length"/,
  ],
  [
    'a misspelt key of an override',
    (p) => Object.assign(strand(p), { wire: { like: '14 ga high-tensile', diametre: '2 mm' } }),
    'builds.two wires.strands[0].wire.diametre',
    'unknown-key',
    /"diameter"/,
  ],
  ['no format version', (p) => delete p['formatVersion'], 'formatVersion', 'missing-key'],
  ['another format version', (p) => Object.assign(p, { formatVersion: 2 }), 'formatVersion', 'bad-value'],
  ['no soil', (p) => delete p['soil'], 'soil', 'missing-key'],
  ['no height', (p) => delete strand(p)['height'], 'builds.two wires.strands[0].height', 'missing-key'],
  ['text where a list belongs', (p) => Object.assign(p, { faults: 'none' }), 'faults', 'bad-value'],
  ['a number where a name belongs', (p) => Object.assign(p, { soil: 12 }), 'soil', 'bad-value'],
  [
    'a misspelt choice',
    (p) => Object.assign(p.conditions['storm']!, { soil: 'moisty' }),
    'conditions.storm.soil',
    'bad-value',
    /"moist"/,
  ],
  ['no strands', (p) => Object.assign(p.builds['two wires'], { strands: [] }), 'builds.two wires.strands', 'bad-value'],
  ['a name with a slash', (p) => Object.assign(p.runs, { 'a/b': p.runs.lane }), 'runs.a/b', 'bad-name'],
  // Quantities
  [
    'a bare number',
    (p) => Object.assign(p.runs.north, { length: 1320 }),
    'runs.north.length',
    'missing-unit',
    /1320 ft or 1320 m/,
  ],
  [
    'a bare number as text',
    (p) => Object.assign(p.runs.north, { length: '1320' }),
    'runs.north.length',
    'missing-unit',
    /1320 ft/,
  ],
  ['volts for a length', (p) => Object.assign(p.runs.north, { length: '9 kV' }), 'runs.north.length', 'wrong-unit'],
  [
    'a unit that is none',
    (p) => Object.assign(p.runs.north, { length: '9 furlong' }),
    'runs.north.length',
    'wrong-unit',
    /furlong/,
  ],
  [
    'a gauge for a length',
    (p) => Object.assign(p.runs.north, { length: '12.5 ga' }),
    'runs.north.length',
    'wrong-unit',
    /wire/,
  ],
  ['a negative length', (p) => Object.assign(p.runs.north, { length: '-5 ft' }), 'runs.north.length', 'out-of-range'],
  ['a length of nothing', (p) => Object.assign(p.runs.north, { length: '0 ft' }), 'runs.north.length', 'out-of-range'],
  ['not a number', (p) => Object.assign(p.runs.north, { length: Number.NaN }), 'runs.north.length', 'bad-number'],
  [
    'an endless number',
    (p) => Object.assign(p, { formatVersion: Number.POSITIVE_INFINITY }),
    'formatVersion',
    'bad-number',
  ],
  [
    'a height out of reach',
    (p) => Object.assign(strand(p), { height: '30 ft' }),
    'builds.two wires.strands[0].height',
    'out-of-range',
  ],
  [
    'a strand on the ground',
    (p) => Object.assign(strand(p), { height: '0 in' }),
    'builds.two wires.strands[0].height',
    'out-of-range',
  ],
  [
    'a share over the whole',
    (p) => Object.assign(p, { stretches: [{ run: 'north', fouledFraction: 15 }] }),
    'stretches[0].fouledFraction',
    'out-of-range',
    /15 %/,
  ],
  [
    'a range the wrong way round',
    (p) => Object.assign(p.energizer, { groundRods: undefined, groundResistance: '35 ohm (50 to 20)' }),
    'energizer.groundResistance',
    'bad-quantity',
  ],
  // Table rows
  ['an animal that is none', (p) => Object.assign(p, { target: 'cattel' }), 'target', 'unknown-row', /"cattle"/],
  ['a misspelt soil', (p) => Object.assign(p, { soil: 'loem' }), 'soil', 'unknown-row', /"loam"/],
  [
    'a misspelt post',
    (p) => Object.assign(p.builds['two wires'], { post: 'steel T-pots' }),
    'builds.two wires.post',
    'unknown-row',
    /"steel t-post"/,
  ],
  [
    'a misspelt wire',
    (p) => Object.assign(strand(p), { wire: '12.5 ga high-tensil' }),
    'builds.two wires.strands[0].wire',
    'unknown-row',
    /"12.5 ga high-tensile"/,
  ],
  [
    'an unknown row to start from',
    (p) => Object.assign(p, { soil: { like: 'lome', resistivity: '80 ohm m' } }),
    'soil.like',
    'unknown-row',
    /"loam"/,
  ],
  ['an unknown class', (p) => Object.assign(p.energizer, { class: '6.5 J' }), 'energizer.class', 'unknown-row'],
  // As letters go, 5 J is nearest to 0.5 J.
  [
    'a class of another size',
    (p) => Object.assign(p.energizer, { class: '5 J' }),
    'energizer.class',
    'unknown-row',
    /^Did you mean "6 j"\?$/,
  ],
  [
    'a class far from any other',
    (p) => Object.assign(p.energizer, { class: '100 J' }),
    'energizer.class',
    'unknown-row',
    /^Known: /,
  ],
  [
    'a value that the row has not',
    (p) => Object.assign(strand(p), { wire: { like: '12.5 ga aluminium', coatingThickness: '10 um' } }),
    'builds.two wires.strands[0].wire.coatingThickness',
    'no-such-value',
  ],
  [
    'a value that a corrected row has not',
    (p) => Object.assign(p, { tables: { wires: { '12.5 ga aluminium': { coatingThickness: '10 um' } } } }),
    'tables.wires.12.5 ga aluminium.coatingThickness',
    'no-such-value',
  ],
  [
    'a post stouter than it stands deep',
    (p) => Object.assign(p, { tables: { posts: { wood: { buried: '1 in' } } } }),
    'tables.posts.wood.buried',
    'row-range',
  ],
  [
    'a ground rod as thick as long',
    (p) => Object.assign(p.energizer['groundRods'] as object, { length: '2 in', diameter: '2 in' }),
    'energizer.groundRods.length',
    'stout-rod',
  ],
  [
    'ground rods that touch',
    (p) => Object.assign(p.energizer['groundRods'] as object, { spacing: '0.5 in' }),
    'energizer.groundRods.spacing',
    'rods-touch',
  ],
  // Names within the plan
  [
    'an unknown junction',
    (p) => Object.assign(p.runs.west, { to: 'crek' }),
    'runs.west.to',
    'unknown-junction',
    /"creek"/,
  ],
  [
    'an energizer nowhere',
    (p) => Object.assign(p.energizer, { at: 'bran' }),
    'energizer.at',
    'unknown-junction',
    /"barn"/,
  ],
  [
    'an unknown build',
    (p) => Object.assign(p.runs.west, { build: 'two wire' }),
    'runs.west.build',
    'unknown-build',
    /"two wires"/,
  ],
  [
    'an unknown run',
    (p) => Object.assign(p, { stretches: [{ run: 'nort', growth: 'heavy' }] }),
    'stretches[0].run',
    'unknown-run',
    /"north"/,
  ],
  [
    'an unknown strand',
    (p) => Object.assign(p, { faults: [{ kind: 'broken wire', run: 'north', span: 3, strand: 'topp' }] }),
    'faults[0].strand',
    'unknown-strand',
    /"top"/,
  ],
  [
    'an unknown condition',
    (p) => Object.assign(p.energizer, { derating: { sumer: '80 %' } }),
    'energizer.derating.sumer',
    'unknown-condition',
    /"summer"/,
  ],
  [
    'an unknown condition of a switch',
    (p) => Object.assign(p, { switches: [{ run: 'lane', span: 0, openIn: ['strom'] }] }),
    'switches[0].openIn[0]',
    'unknown-condition',
    /"storm"/,
  ],
  [
    'two strands of one name',
    (p) => Object.assign(ground(p), { name: 'top' }),
    'builds.two wires.strands[1]',
    'repeated',
  ],
  // Places
  [
    'a post past the end',
    (p) => Object.assign(p, { faults: [{ kind: 'wire on post', run: 'north', post: 34 }] }),
    'faults[0].post',
    'out-of-range',
  ],
  [
    'a span past the end',
    (p) => Object.assign(p, { switches: [{ run: 'north', span: 33 }] }),
    'switches[0].span',
    'out-of-range',
  ],
  [
    'a distance past the end',
    (p) => Object.assign(p, { jumpers: [{ run: 'north', post: '1321 ft', strands: ['top', 'bottom'] }] }),
    'jumpers[0].post',
    'out-of-range',
  ],
  [
    'a stretch past the end',
    (p) => Object.assign(p, { stretches: [{ run: 'lane', from: '0 ft', to: '700 ft', growth: 'heavy' }] }),
    'stretches[0].to',
    'out-of-range',
  ],
  [
    'a stretch backwards',
    (p) => Object.assign(p, { stretches: [{ run: 'lane', from: '100 ft', to: '50 ft', growth: 'heavy' }] }),
    'stretches[0].to',
    'out-of-range',
  ],
  [
    'a post beyond the run',
    (p) => Object.assign(p.runs.lane, { posts: ['0 ft', '100 ft', '700 ft'] }),
    'runs.lane.posts[2]',
    'out-of-range',
  ],
  [
    'posts out of order',
    (p) => Object.assign(p.runs.lane, { posts: ['0 ft', '200 ft', '100 ft'] }),
    'runs.lane.posts[2]',
    'not-rising',
  ],
  [
    'neither post nor span',
    (p) => Object.assign(p, { faults: [{ kind: 'broken wire', run: 'north' }] }),
    'faults[0].post',
    'one-of',
  ],
  [
    'a thousand million posts',
    (p) => Object.assign(p.runs.north, { length: '600 mi', postSpacing: '1 mm' }),
    'runs.north',
    'too-many-posts',
    /spacing/,
  ],
  // One of two
  [
    'class and output',
    (p) => Object.assign(p.energizer, { output: { open: '9 kV', '500 ohm': '7 kV' } }),
    'energizer.output',
    'one-of',
  ],
  ['neither class nor output', (p) => delete p.energizer['class'], 'energizer.class', 'missing-key'],
  [
    'length and line',
    (p) =>
      Object.assign(p.runs.north, {
        line: [
          [7, 47],
          [7.1, 47],
        ],
      }),
    'runs.north.line',
    'one-of',
  ],
  ['neither length nor line', (p) => delete p.runs.north['length'], 'runs.north.length', 'missing-key'],
  [
    'spacing and posts',
    (p) => Object.assign(p.runs.north, { posts: ['40 ft'], postSpacing: '40 ft' }),
    'runs.north.posts',
    'one-of',
  ],
  ['no ground at all', (p) => delete p.energizer['groundRods'], 'energizer.groundRods', 'missing-key', /ground/],
  [
    'a height of no growth',
    (p) => Object.assign(p, { stretches: [{ run: 'lane', growthHeight: '20 in' }] }),
    'stretches[0].growth',
    'missing-key',
  ],
  // Sense
  [
    'volts that do not fall',
    (p) => Object.assign(p.energizer, { class: undefined, output: { open: '7 kV', '500 ohm': '7.2 kV' } }),
    'energizer.output',
    'curve-not-falling',
  ],
  [
    'amps that do not rise',
    (p) =>
      Object.assign(p.energizer, {
        class: undefined,
        output: { open: '9 kV', '500 ohm': '7 kV', '100 ohm': '1.2 kV' },
      }),
    'energizer.output',
    'curve-not-falling',
  ],
  [
    'one load twice',
    (p) =>
      Object.assign(p.energizer, { class: undefined, output: { open: '9 kV', '500 ohm': '7 kV', '0.5 kohm': '6 kV' } }),
    'energizer.output',
    'loads-not-falling',
  ],
  [
    'a load that is none',
    (p) => Object.assign(p.energizer, { class: undefined, output: { open: '9 kV', half: '7 kV' } }),
    'energizer.output.half',
    'bad-load',
  ],
  [
    'no open circuit',
    (p) => Object.assign(p.energizer, { class: undefined, output: { '500 ohm': '7 kV', '100 ohm': '4 kV' } }),
    'energizer.output',
    'no-open-circuit',
  ],
  [
    'a derating to nothing',
    (p) => Object.assign(p.energizer, { derating: { storm: '0 %' } }),
    'energizer.derating.storm',
    'out-of-range',
  ],
  [
    'an energizer off the fence',
    (p) => {
      p['junctions'] = ['barn', 'corner', 'creek', 'hill', 'shed'];
      p.energizer['at'] = 'shed';
    },
    'energizer.at',
    'energizer-not-connected',
  ],
  [
    'a junction that nothing uses',
    (p) => {
      p['junctions'] = ['barn', 'corner', 'creek', 'hill', 'shed'];
    },
    'junctions[4]',
    'not-connected',
  ],
  [
    'a run that hangs on nothing',
    (p) => {
      p['junctions'] = ['barn', 'corner', 'creek', 'hill', 'a', 'b'];
      p.runs['far'] = { from: 'a', to: 'b', length: '100 ft' };
    },
    'runs.far',
    'not-fed',
  ],
  [
    'a strand that nothing feeds',
    (p) => {
      const builds: Record<string, unknown> = p.builds;
      builds['untied'] = { ...p.builds['two wires'], ties: 'none' };
      p.runs.north['build'] = p.runs.west['build'] = 'two wires';
      p.runs.lane['build'] = 'untied';
    },
    'runs.lane',
    'not-fed',
  ],
  [
    'a grounded strand joined to nothing',
    (p) => {
      p.builds['grounded' as 'two wires'] = {
        ...p.builds['two wires'],
        strands: [strand(p), { name: 'return', height: '10 in', role: 'grounded' }],
      };
      p.runs.north['build'] = 'two wires';
      p.runs.lane['build'] = 'two wires';
      p.runs.west['build'] = 'grounded';
    },
    'runs.west',
    'grounded-strand-loose',
    /rods/,
  ],
  [
    'a jumper from hot to grounded',
    (p) => {
      ground(p)['role'] = 'grounded';
      p['jumpers'] = [{ run: 'north', post: 3, strands: ['top', 'bottom'] }];
    },
    'jumpers[0].strands',
    'jumper-shorts',
    /short/,
  ],
  [
    'rods on a hot strand',
    (p) => Object.assign(p, { groundedRods: [{ run: 'north', strand: 'top', every: '300 ft' }] }),
    'groundedRods[0].strand',
    'wrong-role',
  ],
  [
    'two strands touching with one strand',
    (p) => {
      p.builds['two wires'].strands.pop();
      p['faults'] = [{ kind: 'strands touching', run: 'north', post: 2 }];
    },
    'faults[0].otherStrand',
    'missing-key',
  ],
];

describe('bad plans: place, code and advice', () => {
  it.each(cases)('%s', (_, change, path, code, hint) => {
    const outcome = readPlan(loosePlan(change));
    expect(outcome.ok).toBe(false);
    const found = outcome.issues.map((issue) => `${issue.severity} ${wordPath(issue.path)} ${issue.code}`);
    expect(found).toContain(`error ${path} ${code}`);
    const issue = outcome.issues.find((i) => wordPath(i.path) === path && i.code === code)!;
    expect(issue.found).not.toBe('');
    expect(issue.expected).not.toBe('');
    if (hint !== undefined) expect(issue.hint).toMatch(hint);
  });

  // One slip must not bring a crowd of issues that follow from it.
  it.each(cases)('%s: nothing else', (_, change, path, code) => {
    const errors = readPlan(loosePlan(change)).issues.filter((issue) => issue.severity === 'error');
    expect(errors.map((issue) => `${wordPath(issue.path)} ${issue.code}`)).toEqual([`${path} ${code}`]);
  });
});

describe('several at once', () => {
  it('reports shape, quantities and names in one go', () => {
    const outcome = readPlan(
      loosePlan((p) => {
        p['soil'] = 'loem';
        p['colour'] = 'green';
        p.runs.north['length'] = 1320;
        p.runs.west['to'] = 'crek';
        p.conditions['storm']!['soil'] = 'soaked';
      }),
    );
    expect(outcome.issues.map((issue) => `${wordPath(issue.path)} ${issue.code}`).sort()).toEqual([
      'colour unknown-key',
      'conditions.storm.soil bad-value',
      'runs.north.length missing-unit',
      'runs.west.to unknown-junction',
      'soil unknown-row',
    ]);
  });

  it('stops after a hundred', () => {
    const runs = Object.fromEntries(
      Array.from({ length: 5000 }, (_, i) => [`run ${i}`, { from: 'x', to: 'y', length: '1 m' }]),
    );
    const outcome = readPlan(loosePlan((p) => Object.assign(p, { runs })));
    expect(outcome.issues.length).toBeLessThanOrEqual(101);
    expect(outcome.issues.map((issue) => issue.code)).toContain('too-many-issues');
  });
});

describe('what is no plan', () => {
  it.each([null, undefined, 12, 'plan', true, [], [1], new Date(0), () => 1, Symbol('x'), new Map()])('%s', (input) => {
    const outcome = readPlan(input);
    expect(outcome.ok).toBe(false);
    expect(outcome.issues.length).toBeGreaterThan(0);
  });

  it('refuses keys that reach a prototype', () => {
    const outcome = readPlan(JSON.parse('{"formatVersion": 1, "runs": {"__proto__": {"x": 1}, "constructor": {}}}'));
    expect(outcome.issues.map((issue) => `${wordPath(issue.path)} ${issue.code}`)).toEqual([
      'runs.__proto__ refused-key',
      'runs.constructor refused-key',
    ]);
    expect(({} as Record<string, unknown>)['x']).toBeUndefined();
  });

  it('refuses a ring of objects and a bomb of shared ones', () => {
    const ring = loosePlan();
    ring['self'] = ring;
    expect(readPlan(ring).issues[0]!.code).toBe('too-deep');
    let bomb: unknown = 'x';
    for (let i = 0; i < 30; i++) bomb = [bomb, bomb, bomb, bomb];
    expect(readPlan({ bomb }).issues[0]!.code).toBe('too-large');
  });
});

it('says of a misspelt build that it is not known, and nothing of posts that only it could place', () => {
  const outcome = readPlan(
    loosePlan((p) => {
      p.runs.west['build'] = 'two wiers';
      Object.assign(p, { jumpers: [{ run: 'west', post: 40, strands: ['top', 'bottom'] }] });
    }),
  );
  expect(outcome.issues.filter(({ severity }) => severity === 'error').map(({ path }) => wordPath(path))).toEqual([
    'runs.west.build',
  ]);
});
