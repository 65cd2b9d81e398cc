import { PlanError, parsePlan, wordIssue } from '@postvolt/core';
import { readChanges } from '@postvolt/core/studies';
import { changePlanText, readPlanText } from '@postvolt/core/yaml';
import { scenario, scenarios } from '@postvolt/scenarios';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { loosePlan, smallPlan } from './small-plan.js';

/** The text after the changes. */
function change(text: string, changes: string): string {
  const outcome = changePlanText(text, readChanges(changes));
  if (!outcome.ok) throw new PlanError(outcome.issues);
  return outcome.value.text;
}

/** A text with parts replaced; each part has to be there. */
function replaced(text: string, ...parts: readonly (readonly [from: string, to: string])[]): string {
  return parts.reduce((now, [from, to]) => {
    expect(now).toContain(from);
    return now.replace(from, () => to);
  }, text);
}

/** Written as nobody writes who means to be kind to a program. */
const odd = `# a farm

formatVersion: 1
title: 'Said: "so"'   # quoted
units:    imperial


target: cattle
soil: loam
energizer: {at: barn, class: "6 J", groundRods: &rods {count: 3}}  # shared
junctions:
    - barn
    - corner
    - creek
builds:
    # the old one
    one: &one
        post: &post steel t-post   # steel
        wire: &wire '12.5 ga'
        strands: &strands
        -   name: top   # hot
            height: 36 in
            # lower
        -   name: low
            height: 20 in

    two:
        post: *post
        wire: *wire
        strands: *strands
    three: *one
runs:
    north: {from: barn, to: corner, length: "1,320 ft", build: one}
    west:
        from: corner
        to: creek

        length: 0.5 mi
        build: two
    east: {from: creek, to: barn, length: 800 ft, build: three}
faults:
    # a limb
    - kind: branch on wire   # heavy
      run: west
      post: 3
    -
      kind: wire on ground
      run: north
      post: 2
    # done
conditions:
    wet: &wet {soil: wet, surface: wet, growth: moderate}   # rain
    wetter: *wet
    fair:
# the end
`;

describe('a change takes the place of what it changes, and every other character stays', () => {
  const cases: [changes: string, ...parts: (readonly [string, string])[]][] = [
    ['rods +2', ['{count: 3}', '{count: 5}']],
    ['energizer 12 J', ['"6 J"', '12 J']],
    // An anchor goes on standing for what all that name it are to have.
    ['wire 14 ga', ["&wire '12.5 ga'", '&wire 14 ga']],
    ['spray', ['growth: moderate', 'growth: none']],
    [
      'strands -1',
      ['            # lower\n        -   name: low\n            height: 20 in\n', '            # lower\n'],
    ],
    // What an alias no longer shares is written out, laid out as it is at its anchor.
    ['wire 14 ga on west', ['wire: *wire', 'wire: 14 ga']],
    [
      'insulators aged on east',
      [
        'three: *one',
        `three:
        post: steel t-post
        wire: 12.5 ga
        insulatorState: aged
        strands:
        - name: top
          height: 36 in
        - name: low
          height: 20 in`,
      ],
    ],
    [
      'wire 14 ga on north',
      ["&wire '12.5 ga'", '&wire 14 ga'],
      ['wire: *wire', 'wire: 12.5 ga'],
      [
        'three: *one',
        `three:
        post: steel t-post
        wire: 12.5 ga
        strands:
        - name: top
          height: 36 in
        - name: low
          height: 20 in`,
      ],
    ],
    ['mend on west', ['    - kind: branch on wire   # heavy\n      run: west\n      post: 3\n', '']],
    ['mend on north', ['    -\n      kind: wire on ground\n      run: north\n      post: 2\n', '']],
    ['mend', [odd.slice(odd.indexOf('faults:'), odd.indexOf('    # done')), '']],
    [
      'spray on west',
      [
        'build: three}\n',
        'build: three}\n\nstretches:\n    - {name: growth held down on west, run: west, conditions: [wet, wetter], growth: none}\n',
      ],
    ],
    ['spacing 20 ft on east', ['length: 800 ft,', 'length: 800 ft, postSpacing: 20 ft,']],
    [
      'spacing 20 ft on west',
      ['length: 0.5 mi\n', 'length: 0.5 mi\n        postSpacing: 20 ft\n'],
      ['post: 3', 'post: 5'],
    ],
  ];
  test.each(cases)('%s', (changes, ...parts) => {
    expect(change(odd, changes)).toBe(replaced(odd, ...parts));
    // Windows' ends of line are kept, and put where lines are added.
    const windows = (text: string) => text.replaceAll('\n', '\r\n');
    expect(change(windows(odd), changes)).toBe(windows(replaced(odd, ...parts)));
    expect(change(`\uFEFF${odd}`, changes)).toBe(`\uFEFF${replaced(odd, ...parts)}`);
  });

  test('a change of one run of several gets a build of its own, next to that of the others', () => {
    const text = scenario('demo farm').plan;
    const [start, end] = [text.indexOf('  perimeter:'), text.indexOf('  cross:')];
    const copy = text
      .slice(start, end)
      .replace('perimeter: # two hot strands on wood', 'perimeter on west and east:')
      .replace('nail-on claw', 'porcelain doughnut');
    expect(change(text, 'insulator porcelain doughnut on west, insulator porcelain doughnut on east')).toBe(
      replaced(
        text,
        ['  cross:', `${copy}  cross:`],
        ['length: 1 mi, build: perimeter', 'length: 1 mi, build: perimeter on west and east'],
        ['length: 1 mi, build: perimeter }', 'length: 1 mi, build: perimeter on west and east }'],
      ),
    );
  });

  test('runs that left out the name of the only build are given it once there are two', () => {
    const text = change(smallPlan, 'wire 14 ga on lane');
    const { builds, runs } = parse(text) as { builds: object; runs: Record<string, { build: string }> };
    expect(Object.keys(builds)).toEqual(['two wires', 'two wires on lane']);
    expect(Object.values(runs).map(({ build }) => build)).toEqual(['two wires', 'two wires', 'two wires on lane']);
  });

  test('a build whose runs all change, one after the other, is changed itself', () => {
    expect(change(smallPlan, 'wire 14 ga on lane, wire 14 ga on west, wire 14 ga on north')).toBe(
      replaced(smallPlan, ['wire: 12.5 ga high-tensile', 'wire: 14 ga']),
    );
  });

  test('a strand with a value of its own gives it up where all are to have the same', () => {
    const text = scenario('pigs in the wood').plan;
    expect(change(text, 'wire 14 ga')).toBe(
      replaced(text, ['wire: poly braid', 'wire: 14 ga'], [', wire: poly rope 6 mm', '']),
    );
  });

  test('grounded strands keep their insulators as they are', () => {
    const text = scenario('sheep on sand').plan;
    const states = (plan: string) => {
      const read = readPlanText(plan);
      if (!read.ok) throw new PlanError(read.issues);
      return read.value.builds.flatMap(({ strands }) =>
        strands.map(({ role, insulatorState }) => `${role} ${insulatorState}`),
      );
    };
    expect(states(change(text, 'insulators cracked'))).toEqual(
      states(text).map((state) => state.replace('hot new', 'hot cracked')),
    );
  });

  test('a gate keeps the length of its cable where its posts move, and a switch its place', () => {
    const { gates, switches } = parse(change(scenario('demo farm').plan, 'spacing 80 ft')) as {
      gates: { span: unknown; cable?: { length: string } }[];
      switches: { span: unknown }[];
    };
    // A span of the first gate's run is 2112 ft by 53, and its cable 4 ft longer: 43.85 ft or 13.365 m.
    expect(gates.map(({ span }) => span)).toEqual([2, '100 ft', 10]);
    expect(gates[0]!.cable).toEqual({ length: '13.3652 m' });
    expect(switches[0]!.span).toBe(0);
  });

  test('another class takes the place of an output of its own, and the wire is reckoned as before', () => {
    const text = scenario('strip grazing').plan;
    const now = parse(change(text, 'energizer 1 J')) as Record<string, unknown>;
    expect(now['energizer']).toEqual({ at: 'battery', class: '1 J', groundRods: { rod: '3 ft rod', count: 1 } });
    expect(now['pulseFrequency']).toMatch(/ Hz$/);
    const hz = (plan: string) => parsePlan(parse(plan)).pulseHz;
    expect(hz(change(text, 'energizer 1 J'))).toBeCloseTo(hz(text), 6);
  });
});

describe('what stays', () => {
  test.each(scenarios.map(({ id }) => id))('%s, where nothing is to change, to the last character', (id) => {
    const { plan } = scenario(id);
    expect(changePlanText(plan, [])).toMatchObject({ ok: true, value: { text: plan } });
  });

  test('changed twice, each time by what is new', () => {
    const once = change(odd, 'spray on west');
    const twice = change(once, 'spray on east');
    expect(twice).toBe(
      replaced(once, [
        '    - {name: growth held down on west',
        '    - {name: growth held down on east, run: east, conditions: [wet, wetter], growth: none}\n    - {name: growth held down on west',
      ]),
    );
    expect(change(twice, 'spray on east, spray on west')).toBe(twice);
    expect(change(change(smallPlan, 'strands +1'), 'strands +2').match(/added hot strand \d/g)).toEqual([
      'added hot strand 1',
      'added hot strand 2',
      'added hot strand 3',
    ]);
  });
});

describe('JSON stays JSON', () => {
  const plan = loosePlan();
  const wanted = loosePlan((p) => {
    (p.energizer['groundRods'] as { count: number }).count = 5;
    for (const condition of Object.values(p.conditions)) condition['growth'] = 'none';
  });
  test.each([
    ['indented by two', (value: unknown) => `${JSON.stringify(value, null, 2)}\n`],
    ['indented by a tab', (value: unknown) => JSON.stringify(value, null, '\t')],
    ['on one line', (value: unknown) => JSON.stringify(value)],
  ])('%s', (_, write) => {
    expect(change(write(plan), 'rods +2, spray')).toBe(write(wanted));
    const build = plan.builds['two wires'];
    const runs = Object.entries(plan.runs).map(([name, run]) => [
      name,
      { ...run, build: name === 'lane' ? 'two wires on lane' : 'two wires' },
    ]);
    const split = {
      ...plan,
      builds: { 'two wires': build, 'two wires on lane': { ...build, wire: '14 ga' } },
      runs: Object.fromEntries(runs),
    };
    expect(change(write(plan), 'wire 14 ga on lane')).toBe(write(split));
  });

  test('and so does a resolved plan, whole', () => {
    const resolved = parsePlan(parse(smallPlan));
    const text = change(JSON.stringify(resolved, null, 2), 'rods +2');
    expect(JSON.parse(text)).toEqual({
      ...resolved,
      energizer: { ...resolved.energizer, ground: { ...resolved.energizer.ground, count: 5 } },
    });
  });
});

describe('what cannot be done is said, and there is no text', () => {
  const refused = (text: string, changes: string): string => {
    const outcome = changePlanText(text, readChanges(changes));
    expect(outcome).not.toHaveProperty('value');
    return outcome.issues.map((issue) => wordIssue(issue)).join('\n');
  };
  test.each([
    ['a run that is not there', smallPlan, 'mend on lan', /"lan".*Did you mean "lane"/],
    ['a row that is not there', smallPlan, 'wire spaghetti', /"spaghetti".*table of wires/],
    ['rods where the ground was measured', scenario('loop with a switch').plan, 'rods +2', /measured ground system/],
    ['fewer strands than there are', scenario('one wire dairy').plan, 'strands -1', /0 hot strands/],
    ['a plan that is wrong', smallPlan.replace('soil: loam', 'soil: lomy'), 'spray', /^line 5:7: soil: found "lomy"/],
    ['no plan at all', '[1', 'spray', /./],
    [
      'a row without a name',
      smallPlan
        .replace('wire: 12.5 ga high-tensile', 'wire: {like: 12.5 ga high-tensile, diameter: 2.6 mm}')
        .replace('builds:\n', `builds:\n  other: {post: wood, wire: 14 ga, strands: [{height: 30 in}]}\n`)
        .replace('length: 660 ft', 'length: 660 ft, build: other')
        .replace(/(1,320 ft"|0.5 mi)/g, '$1, build: two wires'),
      'wire 12.5 ga high-tensile (builds.two wires.wire) on lane',
      /a row that the plan changes on the spot, expected a row with a name. Write it under `tables: wires:`/,
    ],
  ])('%s', (_, text, changes, words) => expect(refused(text, changes)).toMatch(words));

  test('a row changed on the spot goes along into a build of its own', () => {
    const wire = 'wire: {like: 12.5 ga high-tensile, diameter: 2.6 mm}';
    const text = change(smallPlan.replace('wire: 12.5 ga high-tensile', wire), 'insulators aged on lane');
    expect(text.split(wire)).toHaveLength(3);
  });

  test('a plan’s own rows can be named', () => {
    const text = `${smallPlan}tables:\n  wires:\n    my wire: {like: 12.5 ga high-tensile, diameter: 2.7 mm}\n`;
    expect(change(text, 'wire my wire')).toBe(replaced(text, ['wire: 12.5 ga high-tensile', 'wire: my wire']));
  });
});
