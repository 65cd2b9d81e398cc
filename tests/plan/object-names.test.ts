import { parsePlan, readPlan, readResolvedPlan, solvePlan, wordPath } from '@postvolt/core';
import { materials, months } from '@postvolt/core/studies';
import { describe, expect, it } from 'vitest';
import { type LoosePlan, loosePlan, planOf } from './small-plan.js';

// Names that every JavaScript object answers to. A plan's look-ups must see only what the plan or the tables hold, so
// each of these fares as a plain word does in its place. As keys, `__proto__` and `constructor` are refused (the guard).
const inherited = ['toString', 'valueOf', 'hasOwnProperty', 'isPrototypeOf'];
const refusedAsKeys = ['__proto__', 'constructor'];
const plain = 'zzqqzz';

/** Every place of a plan that takes a name that stands somewhere else: a part of the plan, or a row of the tables. */
const references: Readonly<Record<string, (plan: LoosePlan, name: string) => void>> = {
  target: (p, name) => Object.assign(p, { target: name }),
  soil: (p, name) => Object.assign(p, { soil: name }),
  'energizer.at': (p, name) => Object.assign(p.energizer, { at: name }),
  'energizer.class': (p, name) => Object.assign(p.energizer, { class: name }),
  'energizer.leadOut.wire': (p, name) => Object.assign(p.energizer, { leadOut: { wire: name, length: '60 ft' } }),
  'builds.post': (p, name) => Object.assign(p.builds['two wires'], { post: name }),
  'builds.wire': (p, name) => Object.assign(p.builds['two wires'], { wire: name }),
  'builds.insulator': (p, name) => Object.assign(p.builds['two wires'], { insulator: name }),
  'builds.endInsulator': (p, name) => Object.assign(p.builds['two wires'], { endInsulator: name }),
  'strands.wire': (p, name) => Object.assign(p.builds['two wires'].strands[0]!, { wire: name }),
  'strands.insulator': (p, name) => Object.assign(p.builds['two wires'].strands[0]!, { insulator: name }),
  'junctions.post': (p, name) =>
    Object.assign(p, { junctions: { barn: { post: name }, corner: {}, creek: {}, hill: {} } }),
  'runs.from': (p, name) => Object.assign(p.runs.west, { from: name }),
  'runs.to': (p, name) => Object.assign(p.runs.west, { to: name }),
  'runs.build': (p, name) => Object.assign(p.runs.west, { build: name }),
  'stretches.run': (p, name) => Object.assign(p, { stretches: [{ run: name, growth: 'none' }] }),
  'stretches.soil': (p, name) => Object.assign(p, { stretches: [{ run: 'west', soil: name }] }),
  'stretches.growth': (p, name) => Object.assign(p, { stretches: [{ run: 'west', growth: name }] }),
  'stretches.wire': (p, name) => Object.assign(p, { stretches: [{ run: 'west', wire: name }] }),
  'stretches.insulator': (p, name) => Object.assign(p, { stretches: [{ run: 'west', insulator: name }] }),
  'stretches.strands': (p, name) => Object.assign(p, { stretches: [{ run: 'west', strands: [name], growth: 'none' }] }),
  'stretches.conditions': (p, name) =>
    Object.assign(p, { stretches: [{ run: 'west', conditions: [name], growth: 'none' }] }),
  'faults.run': (p, name) => Object.assign(p, { faults: [{ kind: 'bad splice', run: name, span: 1, strand: 'top' }] }),
  'faults.strand': (p, name) =>
    Object.assign(p, { faults: [{ kind: 'bad splice', run: 'west', span: 1, strand: name }] }),
  'faults.kind': (p, name) => Object.assign(p, { faults: [{ kind: name, run: 'west', span: 1, strand: 'top' }] }),
  'conditions.soil': (p, name) => Object.assign(p.conditions['summer']!, { soil: name }),
  'conditions.growth': (p, name) => Object.assign(p.conditions['summer']!, { growth: name }),
  'groundedRods.run': (p, name) =>
    Object.assign(p, { groundedRods: [{ run: name, strand: 'bottom', every: '300 ft' }] }),
  'months.climate': (p, name) => Object.assign(p, { months: { climate: name } }),
  'months.growthAtMost': (p, name) => Object.assign(p, { months: { growthAtMost: name } }),
  'months.january': (p, name) => Object.assign(p, { months: { january: [name] } }),
  'months.january.weather': (p, name) => Object.assign(p, { months: { january: { weather: [name] } } }),
  'tables.like': (p, name) => Object.assign(p, { tables: { posts: { mine: { like: name } } } }),
  'prices.wires': (p, name) => Object.assign(p, { prices: { currency: 'EUR', wires: { [name]: 1 } } }),
};

const faults = (plan: unknown, name: string) =>
  readPlan(plan).issues.map(({ code, path, found, expected }) =>
    [code, wordPath(path), found, expected].join(' | ').replaceAll(name, plain),
  );

describe('a name that every object answers to, where nothing has it', () => {
  for (const [place, put] of Object.entries(references)) {
    const names = place === 'prices.wires' ? inherited : [...inherited, ...refusedAsKeys];
    it(`is unknown at ${place}, as a plain word is`, () => {
      const asPlain = faults(
        loosePlan((p) => put(p, plain)),
        plain,
      );
      expect(asPlain.length, 'the place takes a name').toBeGreaterThan(0);
      expect(asPlain.join(' '), 'the name itself is what is wrong').toContain(plain);
      for (const name of names)
        expect(
          faults(
            loosePlan((p) => put(p, name)),
            name,
          ),
          name,
        ).toEqual(asPlain);
    });
  }
});

describe('a name that every object answers to, where the plan gives it', () => {
  /** The small plan with every part that has a name of its own called after `name`. */
  const named = (name: string) =>
    loosePlan((p) => {
      p['junctions'] = [name, 'corner', 'creek', 'hill'];
      p.energizer['at'] = name;
      p['tables'] = { posts: { [name]: { like: 't-post' } }, wires: { [name]: { like: '12.5 ga high-tensile' } } };
      const build = p.builds['two wires'];
      Object.assign(build, { post: name, wire: name });
      build.strands[0]!['name'] = name;
      p.builds = { [name]: build } as unknown as LoosePlan['builds'];
      const { north, west, lane } = p.runs;
      p.runs = { [name]: { ...north, from: name }, west, lane } as unknown as LoosePlan['runs'];
      p['stretches'] = [{ run: name, strands: [name], conditions: [name], growth: 'none' }];
      p['faults'] = [{ kind: 'bad splice', run: name, span: 1, strand: name, conditions: [name] }];
      const { summer, ...rest } = p.conditions;
      p.conditions = { [name]: summer!, ...rest };
    });
  const solved = (name: string) => {
    const outcome = readPlan(named(name));
    if (!outcome.ok) throw new Error(outcome.issues.map(({ found, path }) => `${wordPath(path)}: ${found}`).join('\n'));
    const again = readResolvedPlan(JSON.parse(JSON.stringify(outcome.value)));
    expect(again.ok && again.value, name).toEqual(outcome.value);
    return JSON.stringify(solvePlan(outcome.value)).replaceAll(name, plain);
  };

  it.each(inherited)('%s gives the volts that a plain word gives', (name) => {
    expect(solved(name)).toBe(solved(plain));
  });

  it.each(refusedAsKeys)('%s is refused as the name of a part', (name) => {
    const plan = JSON.parse(`{"runs": {"${name}": {}}, "conditions": {"${name}": {}}, "builds": {"${name}": {}}}`);
    const codes = readPlan(plan).issues.map(({ code, path }) => `${wordPath(path)} ${code}`);
    for (const map of ['runs', 'conditions', 'builds']) expect(codes).toContain(`${map}.${name} refused-key`);
  });
});

describe('a resolved plan whose rows are looked up by a name that every object answers to', () => {
  const places: Readonly<Record<string, (plan: Record<string, never>, name: string) => void>> = {
    animal: (p, name) => Object.assign(p, { animal: name }),
    soil: (p, name) => Object.assign(p, { soil: name }),
    post: (p, name) => Object.assign(p['builds']![0]!, { post: name }),
    wire: (p, name) => Object.assign(p['builds']![0]!['strands'][0]!, { wire: name }),
    insulator: (p, name) => Object.assign(p['builds']![0]!['strands'][0]!, { insulator: name }),
    'end insulator': (p, name) => Object.assign(p['builds']![0]!['strands'][0]!, { endInsulator: name }),
  };
  const issues = (put: (plan: Record<string, never>, name: string) => void, name: string) => {
    const read = readPlan(loosePlan());
    if (!read.ok) throw new Error('the small plan reads');
    const plan = JSON.parse(JSON.stringify(read.value));
    put(plan, name);
    return readResolvedPlan(plan).issues.map(({ code, path, found }) =>
      [code, wordPath(path), found].join(' | ').replaceAll(name, plain),
    );
  };
  for (const [place, put] of Object.entries(places)) {
    it(`refuses it as ${place}, as it does a plain word`, () => {
      const asPlain = issues(put, plain);
      expect(asPlain.join(' ')).toContain(plain);
      for (const name of [...inherited, ...refusedAsKeys]) expect(issues(put, name), name).toEqual(asPlain);
    });
  }
});

describe('studies asked with a name that every object answers to', () => {
  it.each(inherited)('%s as a post row costs what a row under a plain word costs', async (name) => {
    const cost = (id: string) => {
      const plan = parsePlan(
        planOf((p) => {
          p['tables'] = { posts: { [id]: { like: 't-post' } } };
          p.builds['two wires']['post'] = id;
          // Prices for another post: the plan's own row has none, and takes its kind's.
          p['prices'] = { currency: 'EUR', posts: { wood: 9 } };
        }),
      );
      return JSON.stringify(materials(plan)).replaceAll(id, plain);
    };
    expect(cost(name)).toBe(cost(plain));
  });

  it.each(inherited)('%s is no growth of a calendar', async (name) => {
    const refusal = (growthAtMost: string) =>
      months(parsePlan(planOf()), { growthAtMost }).then(
        () => 'taken',
        (error: Error) => error.message.replaceAll(growthAtMost, plain),
      );
    expect(await refusal(plain)).toMatch(/^growthAtMost: found "zzqqzz"/);
    expect(await refusal(name)).toBe(await refusal(plain));
  });
});
