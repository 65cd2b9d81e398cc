import { PlanError, parsePlan, type ResolvedPlan, readPlan } from '@postvolt/core';
import { standardTables } from '@postvolt/tables';
import { describe, expect, it } from 'vitest';
import { type LoosePlan, loosePlan } from './small-plan.js';

const read = (change?: (plan: LoosePlan) => void): ResolvedPlan => parsePlan(loosePlan(change));
const warnings = (change: (plan: LoosePlan) => void) => readPlan(loosePlan(change)).issues.map((issue) => issue.code);
const ft = 0.3048;

describe('what is written', () => {
  it('comes out in SI under its own names', () => {
    const plan = read();
    expect(plan.title).toBe('Home pasture');
    expect(plan.target).toEqual({ volts: 3000, of: 'to earth', label: 'cattle' });
    expect(plan.runs.map((run) => [run.id, run.from, run.to])).toEqual([
      ['north', 'barn', 'corner'],
      ['west', 'corner', 'creek'],
      ['lane', 'corner', 'hill'],
    ]);
    expect(plan.runs[0]!.lengthM).toBeCloseTo(402.336, 9);
    expect(plan.runs[1]!.lengthM).toBeCloseTo(804.672, 9);
    expect(plan.runs[0]!.posts).toEqual({ kind: 'equal', spacingM: 40 * ft });
    const ground = plan.energizer.ground;
    expect(ground).toMatchObject({ kind: 'rods', count: 3, layout: 'line' });
    if (ground.kind === 'rods') expect(ground.spacingM).toBeCloseTo(10 * ft, 12);
    expect(
      plan.conditions.map((condition) => [condition.id, condition.soil, condition.film, condition.growthWetness]),
    ).toEqual([
      ['summer', 'moist', 'damp', 'damp'],
      ['drought', 'dry', 'dry', 'dry'],
      ['storm', 'wet', 'wet', 'wet'],
    ]);
  });

  it('takes any spelling that the tables know', () => {
    const plan = read((p) => {
      p.builds['two wires'].strands[0]!['wire'] = '12½ gauge high-tensile';
      p.builds['two wires'].strands[1]!['wire'] = '12.5 ga';
      p.builds['two wires']['post'] = 'Fiberglass';
    });
    const [top, bottom] = plan.builds[0]!.strands;
    expect([top!.wire, bottom!.wire, plan.builds[0]!.post]).toEqual([
      '12.5 ga high-tensile',
      '12.5 ga high-tensile',
      'fibreglass rod',
    ]);
  });

  it('keeps air apart from surface', () => {
    const plan = read((p) => {
      p.conditions['storm'] = { surface: 'damp', air: 'wet' };
    });
    expect(plan.conditions[2]).toMatchObject({ film: 'wet', post: 'damp', growthWetness: 'damp' });
  });

  it('carries the rows that it names, and no others', () => {
    const { rows } = read();
    expect(Object.keys(rows.wires).sort()).toEqual(['12.5 ga high-tensile', '12.5 ga insulated cable']);
    expect(Object.keys(rows.posts)).toEqual(['steel t-post']);
    expect(rows.posts['steel t-post']).toBe(standardTables.posts.find((row) => row.id === 'steel t-post'));
    expect(Object.keys(rows.films).sort()).toEqual(['aged', 'cracked', 'fouled', 'new', 'salt']);
  });
});

describe('what is left out', () => {
  it('has sensible values', () => {
    const plan = read((p) => {
      for (const key of ['title', 'target', 'conditions']) delete p[key];
      delete p.builds['two wires']['postSpacing'];
      p.energizer['groundRods'] = {};
    });
    expect(plan.title).toBe('Untitled fence');
    expect([plan.animal, plan.target.label]).toEqual(['cattle', 'cattle']);
    expect(plan.conditions).toHaveLength(1);
    expect(plan.conditions[0]).toMatchObject({
      id: 'usual',
      soil: 'moist',
      film: 'dry',
      growth: { vegetation: 'none', heightM: 0 },
      groundCover: 'bare',
      temperatureC: 20,
    });
    const spacing = standardTables.posts.find((row) => row.id === 'steel t-post')!.usualSpacingM.typical;
    expect(plan.runs[0]!.posts).toEqual({ kind: 'equal', spacingM: spacing });
    expect(plan.energizer.ground).toEqual({
      kind: 'rods',
      count: 3,
      lengthM: 1.8288,
      diameterM: 0.015875,
      spacingM: 1.8288,
      layout: 'line',
    });
    expect(plan.pulseHz).toBe(5000);
  });

  it.each([
    ['steel T-post', 't-post clip'],
    ['wood', 'nail-on claw'],
    ['fibreglass', 'fibreglass post clip'],
    ['step-in', 'moulded hook'],
  ])('an insulator that fits: %s', (post, insulator) => {
    const plan = read((p) => {
      p.builds['two wires']['post'] = post;
      p.builds['two wires'].strands[1]!['role'] = 'grounded';
    });
    const [hot, grounded] = plan.builds[0]!.strands;
    expect([hot!.insulator, hot!.endInsulator]).toEqual([insulator, 'porcelain bullnose']);
    expect([grounded!.insulator, grounded!.endInsulator]).toEqual(['staple', 'staple']);
    expect(plan.rows.insulators[insulator]!.posts).toContain(plan.builds[0]!.post);
  });

  it('takes the frequency from the width of the pulse', () => {
    // A half-wave of width t is about 1/(2t): 100 µs is about 5 kHz.
    expect(read((p) => Object.assign(p.energizer, { pulseWidth: '200 us', pulseInterval: '1.25 s' }))).toMatchObject({
      pulseHz: 2500,
      energizer: { pulseWidthS: 2e-4, pulsesPerSecond: 0.8 },
    });
  });
});

describe('targets', () => {
  it.each([
    ['sheep', undefined, { label: 'sheep', of: 'to earth' }, 'sheep'],
    ['2.5 kV', undefined, { volts: 2500, of: 'to earth' }, 'cattle'],
    ['2.5 kV', 'horses', { volts: 2500, of: 'to earth' }, 'horses'],
    [{ volts: '1.5 kV', of: 'across the animal' }, 'sheep', { volts: 1500, of: 'across the animal' }, 'sheep'],
    [{ of: 'across the animal' }, 'cattle', { volts: 3000, of: 'across the animal', label: 'cattle' }, 'cattle'],
  ])('%j with %j', (target, animal, expected, touching) => {
    const plan = read((p) => Object.assign(p, { target }, animal === undefined ? {} : { animal }));
    expect(plan.target).toMatchObject(expected);
    expect(plan.animal).toBe(touching);
  });
});

describe('energizers', () => {
  it('puts the loads in order, open circuit first, with their ranges', () => {
    const plan = read((p) => {
      delete p.energizer['class'];
      p.energizer['output'] = { '100 ohm': '4.1 kV', open: '9.2 kV (8.8 to 9.6)', '0.5 kΩ': '7.4 kV' };
    });
    expect(plan.energizer.row).toBeNull();
    expect(plan.energizer.loads.map(({ ohms, volts }) => [ohms, volts.low, volts.typical, volts.high])).toEqual([
      [null, 8800, 9200, 9600],
      [500, 7400, 7400, 7400],
      [100, 4100, 4100, 4100],
    ]);
    expect(plan.energizer.loads[0]!.volts).toMatchObject({
      basis: 'entered',
      source: 'entered at energizer.output.open',
      fromMemory: false,
    });
  });

  it('takes a measured ground, with or without the soil of that day', () => {
    const of = (groundResistance: unknown) =>
      read((p) => {
        delete p.energizer['groundRods'];
        p.energizer['groundResistance'] = groundResistance;
      }).energizer.ground;
    expect(of('35 ohm')).toMatchObject({ kind: 'measured', ohms: { typical: 35, unit: 'Ω' }, measuredIn: null });
    expect(of({ resistance: '35 ohm (30 to 45)', measuredIn: 'wet' })).toMatchObject({
      ohms: { low: 30, high: 45 },
      measuredIn: 'wet',
    });
  });
});

describe('posts and places', () => {
  // 1320 ft at 40 ft: posts 0 to 33.
  it.each([
    ['0 ft', 0],
    ['19 ft', 0],
    ['21 ft', 1],
    ['200 ft', 5],
    ['1320 ft', 33],
    [7, 7],
  ])('a jumper at %s is on post %i', (post, expected) => {
    const plan = read((p) => Object.assign(p, { jumpers: [{ run: 'north', post, strands: ['top', 'bottom'] }] }));
    expect(plan.jumpers[0]).toEqual({
      id: 'jumper 1',
      run: 'north',
      post: expected,
      strands: ['top', 'bottom'],
      joint: 'clamp',
    });
  });

  it.each([
    ['0 ft', 0],
    ['39 ft', 0],
    ['41 ft', 1],
    ['1320 ft', 32],
    [32, 32],
  ])('a gate at %s is on span %i, with cable for it', (span, expected) => {
    const plan = read((p) => Object.assign(p, { gates: [{ run: 'north', span }] }));
    expect(plan.gates[0]).toMatchObject({ id: 'gate 1', post: expected, carriesGrounded: true, joint: 'clamp' });
    expect(plan.gates[0]!.cable.wire).toBe('12.5 ga insulated cable');
    expect(plan.gates[0]!.cable.lengthM).toBeCloseTo(44 * ft, 9);
  });

  it('puts in the ends of a list of posts', () => {
    const plan = read((p) => Object.assign(p.runs.lane, { posts: ['100 ft', '250 ft'] }));
    const { posts } = plan.runs[2]!;
    expect(posts.kind === 'at' && posts.positionsM.map((at) => Math.round(at / ft))).toEqual([0, 100, 250, 660]);
  });

  it('puts a series fault on the span after its post', () => {
    const plan = read((p) =>
      Object.assign(p, {
        faults: [
          { kind: 'broken wire', run: 'north', post: 12 },
          { kind: 'bad splice', run: 'north', post: 33, strand: 'bottom', resistance: '1 kohm' },
          { kind: 'wire on post', run: 'north', post: 33, conditions: ['storm'] },
        ],
      }),
    );
    expect(plan.faults.map(({ id, on, post, strand }) => [id, on, post, strand])).toEqual([
      ['fault 1', 'span', 12, 'top'],
      ['fault 2', 'span', 32, 'bottom'],
      ['fault 3', 'post', 33, 'top'],
    ]);
    expect(plan.faults[1]!.ohms).toMatchObject({ typical: 1000, source: 'entered at faults[1].resistance' });
    expect(plan.faults[2]!.conditions).toEqual(['storm']);
  });

  it('spreads the rods of a grounded strand', () => {
    const plan = read((p) => {
      p.builds['two wires'].strands[1]!['role'] = 'grounded';
      p['groundedRods'] = [{ run: 'north', strand: 'bottom', every: '330 ft' }];
    });
    // 33 spans of 40 ft: eight of them are 320 ft, so no gap may be nine; five gaps are the fewest.
    expect(plan.strandRods[0]).toMatchObject({ id: 'rods 1', posts: [0, 7, 13, 20, 26, 33] });
  });

  it('leaves no gap between rods longer than said, where the posts allow it', () => {
    const west = (run: Record<string, unknown>, every: string) => {
      const plan = read((p) => {
        p.builds['two wires'].strands[1]!['role'] = 'grounded';
        Object.assign(p.runs.west, run);
        p['groundedRods'] = [{ run: 'west', strand: 'bottom', every }];
      });
      return plan.strandRods[0]!.posts;
    };
    const equal = { length: '239.5 m', postSpacing: '10.89 m' };
    // 239.5 / 10.89 = 21.99: 22 spans of 10.886 m. Five of them are 54.43 m, six 65.32 m: no gap may have six, so there
    // are ceil(22 / 5) = 5 gaps. Rods nearest to every fifth of the run: 4.4, 8.8, 13.2, 17.6 spans.
    expect(west(equal, '62.459 m')).toEqual([0, 4, 9, 13, 18, 22]);
    // Eight spans are 87.09 m, and ceil(239.5 / 90) = 3 gaps: thirds are at 7.33 and 14.67 spans, so gaps of 7, 8, 7.
    expect(west(equal, '90 m')).toEqual([0, 7, 15, 22]);
    // Rods closer than the posts stand: one at every post.
    expect(west({ length: '40 m', postSpacing: '10 m' }, '3 m')).toEqual([0, 1, 2, 3, 4]);
    // A gap of just what is said is none too long: 40 m in two of 20 m.
    expect(west({ length: '40 m', postSpacing: '10 m' }, '20 m')).toEqual([0, 2, 4]);
    // Longer than the run: a rod at either end.
    expect(west({ length: '40 m', postSpacing: '10 m' }, '50 m')).toEqual([0, 4]);
    // Posts at 0, 67, 120, 196, 200 m: 120 to 200 m is 80 m, so the post at 196 m needs a rod.
    const uneven = (length: number, posts: number[]) => ({
      length: `${length} m`,
      posts: posts.map((at) => `${at} m`),
    });
    expect(west(uneven(200, [67, 120, 196]), '79 m')).toEqual([0, 1, 2, 3, 4]);
    // The first span alone is longer than said, with rods at both its ends; of the rest, 30 to 50 m and 50 to 60 m.
    expect(west(uneven(60, [30, 40, 50]), '25 m')).toEqual([0, 1, 3, 4]);
    // Also where a long span comes first: 100 to 149, 149 to 151 and 151 to 200 m; 151 m left out would make 51 m.
    expect(west(uneven(200, [100, 149, 151]), '50 m')).toEqual([0, 1, 2, 3, 4]);
  });

  it('keeps stretches with their names and limits', () => {
    const plan = read((p) =>
      Object.assign(p, {
        stretches: [
          {
            name: 'ditch',
            run: 'west',
            from: '100 ft',
            to: '300 ft',
            growth: 'heavy',
            growthHeight: '40 in',
            strands: ['bottom'],
          },
          {
            run: 'lane',
            insulatorState: 'aged',
            fouledFraction: '10 %',
            leak: '0.4 uS/m (0.2 to 1)',
            conditions: ['storm'],
          },
        ],
      }),
    );
    expect(plan.stretches[0]).toMatchObject({
      id: 'ditch',
      strands: ['bottom'],
      conditions: null,
      set: { growth: { vegetation: 'heavy' }, post: null },
    });
    expect(plan.stretches[0]!.fromM).toBeCloseTo(100 * ft, 9);
    expect(plan.stretches[0]!.set.growth!.heightM).toBeCloseTo(1.016, 9);
    expect(plan.stretches[1]).toMatchObject({ id: 'stretch 2', fromM: 0, toM: null, conditions: ['storm'] });
    expect(plan.stretches[1]!.set).toMatchObject({
      fouledFraction: 0.1,
      insulatorState: 'aged',
      leakSiemensPerMetre: { low: 2e-7, unit: 'S/m' },
    });
  });
});

describe('values in place of a row’s', () => {
  it('makes a row of its own under the place where it stands', () => {
    const plan = read((p) => {
      p.builds['two wires'].strands[0]!['wire'] = {
        like: '12.5 ga',
        diameter: '2.4 mm (2.3 to 2.5)',
        serviceLife: '30 years',
      };
    });
    const id = '12.5 ga high-tensile (builds.two wires.strands[0].wire)';
    expect(plan.builds[0]!.strands.map((strand) => strand.wire)).toEqual([id, '12.5 ga high-tensile']);
    const [own, standard] = [plan.rows.wires[id]!, plan.rows.wires['12.5 ga high-tensile']!];
    expect(own.diameterM).toEqual({
      low: 0.0023,
      typical: 0.0024,
      high: 0.0025,
      unit: 'm',
      basis: 'entered',
      source: 'entered at builds.two wires.strands[0].wire.diameter',
      fromMemory: false,
    });
    expect(own.resistivityOhmM).toEqual(standard.resistivityOhmM);
    expect(own.kind).toBe('steel');
    expect(standard.diameterM!.basis).not.toBe('entered');
  });

  it('reaches nested values and leaves the tables alone', () => {
    const before = JSON.stringify(standardTables);
    const plan = read((p) => {
      p['soil'] = { like: 'loam', dryTopsoil: '900 ohm m' };
      p.builds['two wires']['post'] = { like: 'wood', throughDry: '5 Mohm' };
    });
    const soil = plan.rows.soils[plan.soil]!;
    const loam = standardTables.soils.find((row) => row.id === 'loam')!;
    expect(soil.states.dry.topsoilOhmM.typical).toBe(900);
    expect(soil.states.dry.deepOhmM).toEqual(loam.states.dry.deepOhmM);
    expect(plan.rows.posts[plan.builds[0]!.post]!.throughOhms.dry.typical).toBe(5e6);
    expect(plan.builds[0]!.strands[0]!.insulator).toBe('nail-on claw');
    expect(JSON.stringify(standardTables)).toBe(before);
  });

  it('scales a soil to what was measured', () => {
    const plan = read((p) => {
      p['soil'] = { like: 'loam', resistivity: '160 ohm m', measuredIn: 'dry' };
    });
    const soil = plan.rows.soils[plan.soil]!;
    const loam = standardTables.soils.find((row) => row.id === 'loam')!;
    const factor = 160 / loam.states.dry.deepOhmM.typical;
    expect(soil.states.dry.deepOhmM.typical).toBe(160);
    expect(soil.states.wet.topsoilOhmM.typical).toBeCloseTo(factor * loam.states.wet.topsoilOhmM.typical, 9);
    expect(soil.states.wet.topsoilOhmM.basis).toBe('derived');
  });

  it('knows own rows and corrections', () => {
    const plan = read((p) => {
      p['tables'] = {
        wires: {
          'old wire': { like: '12.5 ga high-tensile', about: 'From the shed.', resistance: '80 ohm/km' },
          '14 ga high-tensile': { diameter: '2 mm' },
        },
      };
      p.builds['two wires'].strands[0]!['wire'] = 'Old  Wire';
      p.builds['two wires'].strands[1]!['wire'] = '14 ga high-tensile';
    });
    expect(plan.rows.wires['old wire']).toMatchObject({
      about: 'From the shed.',
      ohmsPerMetre: { typical: 0.08, unit: 'Ω/m' },
    });
    expect(plan.rows.wires['14 ga high-tensile']!.diameterM!.typical).toBe(0.002);
  });
});

describe('what is doubtful', () => {
  it.each([
    ['few-rods', (p: LoosePlan) => Object.assign(p.energizer, { groundRods: { count: 1 } })],
    ['close-rods', (p: LoosePlan) => Object.assign(p.energizer, { groundRods: { spacing: '3 ft' } })],
    ['odd-height', (p: LoosePlan) => Object.assign(p.builds['two wires'].strands[1]!, { height: '2 in' })],
    ['insulator-misfit', (p: LoosePlan) => Object.assign(p.builds['two wires'], { insulator: 'nail-on claw' })],
    ['insulator-place', (p: LoosePlan) => Object.assign(p.builds['two wires'], { insulator: 'porcelain bullnose' })],
    ['hot-on-metal', (p: LoosePlan) => Object.assign(p.builds['two wires'], { insulator: 'staple' })],
    ['far-posts', (p: LoosePlan) => Object.assign(p.runs.west, { postSpacing: '400 ft' })],
    ['close-posts', (p: LoosePlan) => Object.assign(p.runs.west, { postSpacing: '6 in' })],
    [
      'weak-insulation',
      (p: LoosePlan) => Object.assign(p.energizer, { leadOut: { wire: 'house cable', length: '60 ft' } }),
    ],
    ['bare-cable', (p: LoosePlan) => Object.assign(p.energizer, { leadOut: { wire: '12.5 ga', length: '60 ft' } })],
    [
      'through-end',
      (p: LoosePlan) =>
        Object.assign(p, { junctions: { barn: null, corner: null, creek: { through: true }, hill: null } }),
    ],
  ] as const)('%s', (code, change) => {
    const outcome = readPlan(loosePlan((p) => void change(p)));
    expect(outcome.ok).toBe(true);
    expect(outcome.issues.map((issue) => issue.code)).toEqual(outcome.issues.map(() => code));
    expect(outcome.issues.length).toBeGreaterThan(0);
  });

  it('says nothing of a sound plan', () => {
    expect(warnings(() => {})).toEqual([]);
  });
});

describe('metal', () => {
  /** A grounded strand on every run, its build named so that a run can do without. */
  const grounded = (p: LoosePlan) => {
    p.builds['two wires'].strands[1]!['role'] = 'grounded';
  };
  it('follows grounded strands from junction to junction', () => {
    expect(readPlan(loosePlan(grounded)).ok).toBe(true);
  });
  it('lets a grounded strand stand on rods of its own', () => {
    const outcome = readPlan(
      loosePlan((p) => {
        const builds: Record<string, unknown> = p.builds;
        builds['one hot'] = { ...p.builds['two wires'], strands: [p.builds['two wires'].strands[0]] };
        grounded(p);
        p.runs.north['build'] = 'one hot';
        p.runs.west['build'] = p.runs.lane['build'] = 'two wires';
        p['groundedRods'] = [{ run: 'west', strand: 'bottom', posts: [10] }];
      }),
    );
    expect(outcome.issues).toEqual([]);
  });
  it('ends a grounded strand at a gate that does not carry it', () => {
    const change = (carriesGrounded: boolean) => (p: LoosePlan) => {
      grounded(p);
      p['gates'] = [{ run: 'lane', span: 3, carriesGrounded }];
    };
    expect(readPlan(loosePlan(change(true))).issues).toEqual([]);
    expect(readPlan(loosePlan(change(false))).issues.map((issue) => [issue.code, issue.path])).toEqual([
      ['grounded-strand-loose', ['runs', 'lane']],
    ]);
  });
  it('feeds an untied strand through a jumper', () => {
    const outcome = readPlan(
      loosePlan((p) => {
        p.builds['two wires']['ties'] = 'none';
        p['jumpers'] = ['north', 'west', 'lane'].map((run) => ({ run, post: 1, strands: ['top', 'bottom'] }));
      }),
    );
    expect(outcome.issues).toEqual([]);
  });
  it('takes switches as closed and faults as absent', () => {
    const outcome = readPlan(
      loosePlan((p) => {
        p['switches'] = [{ run: 'north', span: 0, openIn: 'all' }];
        p['faults'] = [{ kind: 'broken wire', run: 'north', span: 4 }];
      }),
    );
    expect(outcome.issues).toEqual([]);
  });
  it('reaches a far paddock by cable', () => {
    const outcome = readPlan(
      loosePlan((p) => {
        p['junctions'] = ['barn', 'corner', 'creek', 'hill', 'a', 'b'];
        p.runs['far'] = { from: 'a', to: 'b', length: '100 ft' };
        p['cables'] = [{ from: 'hill', to: 'a', length: '50 ft' }];
      }),
    );
    expect(outcome.issues).toEqual([]);
  });
});

it('throws the same issues in the throwing form', () => {
  const bad = loosePlan((p) => Object.assign(p, { soil: 'loem' }));
  expect(() => parsePlan(bad)).toThrow(PlanError);
  try {
    parsePlan(bad);
  } catch (error) {
    expect((error as PlanError).issues).toEqual(readPlan(bad).issues);
    expect((error as PlanError).message).toBe(
      'soil: found "loem", expected a row of the table of soils. Did you mean "loam"?',
    );
  }
});
