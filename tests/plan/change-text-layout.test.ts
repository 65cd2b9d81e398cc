import { PlanError } from '@postvolt/core';
import { readChanges } from '@postvolt/core/studies';
import { changePlanText, readPlanText } from '@postvolt/core/yaml';
import { scenario, scenarios } from '@postvolt/scenarios';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse, stringify } from 'yaml';
import { smallPlan } from './small-plan.js';

const text = (plan: string, changes: string): string | null => {
  const outcome = changePlanText(plan, readChanges(changes));
  if (outcome.ok) return outcome.value.text;
  // A change that does not fit the plan is one thing; one that could not be written is another.
  if (outcome.issues.every(({ code }) => code === 'bad-change' || code === 'unknown-row')) return null;
  throw new PlanError(outcome.issues);
};

/** Equal lists and maps made one, which the library writes as an anchor and its aliases. */
function shared(value: unknown, known = new Map<string, unknown>()): unknown {
  if (typeof value !== 'object' || value === null) return value;
  const made = Array.isArray(value)
    ? value.map((item) => shared(item, known))
    : Object.fromEntries(Object.entries(value).map(([key, item]) => [key, shared(item, known)]));
  const key = JSON.stringify(made);
  if (!known.has(key)) known.set(key, made);
  return known.get(key);
}

const layouts = fc.record({
  indent: fc.integer({ min: 2, max: 5 }),
  indentSeq: fc.boolean(),
  collectionStyle: fc.constantFrom('any' as const, 'block' as const, 'flow' as const),
  flowCollectionPadding: fc.boolean(),
  lineWidth: fc.constantFrom(0, 40, 80),
  defaultStringType: fc.constantFrom('PLAIN' as const, 'QUOTE_DOUBLE' as const, 'QUOTE_SINGLE' as const),
  aliases: fc.boolean(),
  newLine: fc.constantFrom('\n', '\r\n'),
  json: fc.constantFrom(null, null, null, 0, 2, '\t'),
});

const kinds = [
  ...['insulator porcelain doughnut', 'end insulator wrap-around tube aged', 'insulators fouled', 'wire 14 ga'],
  ...['post wood', 'spacing 30 ft', 'strands +1', 'strands -1', 'growth trace', 'spray', 'mend'],
];
const changes = (runs: readonly string[]) =>
  fc
    .array(
      fc
        .tuple(fc.constantFrom(...kinds), fc.option(fc.constantFrom(...runs)))
        .map(([kind, run]) => (run === null ? kind : `${kind} on ${run}`)),
      { minLength: 1, maxLength: 3 },
    )
    .map((list) => list.join(', '));

test('a change says the same in whatever layout a plan is written', { timeout: 300_000 }, () => {
  const cases = fc.constantFrom(...scenarios.map(({ id }) => id)).chain((id) => {
    const { plan } = scenario(id);
    return fc.tuple(fc.constant(plan), changes(Object.keys((parse(plan) as { runs: object }).runs)), layouts);
  });
  fc.assert(
    fc.property(cases, ([plan, asked, { aliases, newLine, json, ...layout }]) => {
      const data: unknown = parse(plan);
      const written =
        json === null
          ? stringify(aliases ? shared(data) : data, layout).replaceAll('\n', newLine)
          : JSON.stringify(data, null, json);
      const [wanted, found] = [text(plan, asked), text(written, asked)];
      expect(found === null).toBe(wanted === null);
      if (found === null || wanted === null) return;
      expect(parse(found)).toEqual(parse(wanted));
      if (json !== null) expect(found).toBe(JSON.stringify(JSON.parse(found), null, json));
      else expect(found.replaceAll('\r\n', '\n').includes('\r')).toBe(false);
      if (newLine === '\r\n' && json === null) expect(found).not.toMatch(/[^\r]\n/);
    }),
    { numRuns: 60, seed: 21 },
  );
});

/** The small plan with parts written another way, each of which has to be there. */
function rewritten(...parts: readonly (readonly [from: string, to: string])[]): string {
  return parts.reduce((text, [from, to]) => {
    expect(text).toContain(from);
    return text.replace(from, () => to);
  }, smallPlan);
}

describe('forms of YAML that few people use', () => {
  const wire = '    wire: 12.5 ga high-tensile';
  const lane = '  lane: {from: corner, to: hill, length: 660 ft}';
  const cases: Readonly<Record<string, () => string>> = {
    'marks of start and end': () => `---\n${smallPlan}...\n`,
    'no end of the last line': () => smallPlan.trimEnd(),
    'a merged map': () =>
      `%YAML 1.1\n---\n${rewritten([lane, `${lane.replace('{', '&l {')}\n  extra: {<<: *l, to: barn, length: 700 ft}`])}`,
    'keys behind question marks': () =>
      rewritten(
        ['  north: {from', '  ? north\n  : {from'],
        ['    post: steel T-post', '    ? post\n    : steel T-post'],
      ),
    tags: () =>
      rewritten(['post: steel', 'post: !!str steel'], ['count: 3', 'count: !!int 3'], ['strands:', 'strands: !!seq']),
    'anchors of keys': () => rewritten([wire, wire.replace('wire', '&k wire')], ['  two wires:', '  &b two wires:']),
    'anchors of single words': () =>
      rewritten(
        ['{soil: moist, surface: damp, growth: moderate}', '{soil: moist, surface: damp, growth: &g moderate}'],
        ['{soil: wet, surface: wet, growth: moderate}', '{soil: &w wet, surface: *w, growth: *g}'],
      ),
    'comments everywhere': () =>
      rewritten(
        [wire, '    wire:   # why\n      # more\n      12.5 ga high-tensile # after'],
        ['builds:', 'builds: # b\n  # x'],
        ['    strands:', '    strands:\n      # first'],
        ['{name: top, height: 36 in}', '{ # c\n         name: top, # d\n         height: 36 in # e\n        }'],
      ),
    'folded text': () =>
      rewritten(
        [wire, '    wire: >-\n      12.5 ga\n      high-tensile'],
        ['title: Home pasture', 'title: |\n  Home pasture'],
      ),
    'quoted keys': () => rewritten([wire, wire.replace('wire:', '"wire" :')], ['{soil: moist,', "{'soil' : moist,"]),
    'nothing where nothing is needed': () =>
      rewritten(
        ['drought: {soil: dry, growth: light}', 'drought:'],
        ['groundRods: {count: 3, length: 6 ft, spacing: 10 ft}', 'groundRods: {}'],
      ),
    'commas at the end': () =>
      rewritten(
        ['surface: damp, growth: moderate}', 'surface: damp, growth: moderate, growthHeight: 20 in, }'],
        ['[barn, corner, creek, hill]', '[barn, corner,\n creek, hill ,]'],
      ),
    'tabs between words': () => rewritten(['soil: loam', 'soil:\tloam\t# tab'], ['class: 6 J', 'class:\t6 J']),
    'a row changed on the spot over several lines': () =>
      rewritten([wire, '    wire:\n      like: 12.5 ga high-tensile\n      diameter: 2.6 mm # measured\n    # next']),
    'lists level with their keys': () =>
      `${rewritten(['[barn, corner, creek, hill]', '\n- barn\n- corner\n- creek\n- hill'])}jumpers:
- run: north
  post: 5
  strands:
  - top
  - bottom
faults:
# one
- kind: branch on wire
  run: lane
  post: 2

# two
- kind: branch on wire
  run: west
  post: 2
stretches:
- run: lane
  wire: 14 ga
`,
  };
  const asked = [
    ...[
      'insulator porcelain doughnut aged',
      'insulators cracked on lane',
      'wire 14 ga',
      'wire 14 ga on lane, post wood',
    ],
    ...['spacing 30 ft', 'spacing 30 ft on north', 'strands +1', 'strands -1', 'strands -1, strands +1 on north'],
    ...['growth light', 'spray on north', 'spray', 'rods +2', 'energizer 12 J', 'mend', 'mend on lane'],
    'end insulator porcelain doughnut cracked on west',
  ];
  test.each(Object.keys(cases))('%s', (form) => {
    const plan = cases[form]!();
    const plain = stringify(parse(plan), { aliasDuplicateObjects: false });
    for (const changes of asked) expect(parse(text(plan, changes)!)).toEqual(parse(text(plain, changes)!));
  });
});

test('a slip of the pen anywhere gives a plan or a clear error, never a broken text', () => {
  const slip = fc.record({
    at: fc.nat(smallPlan.length),
    gone: fc.integer({ min: 0, max: 12 }),
    put: fc.oneof(
      fc.constantFrom('', '&a ', '*a', '!!str ', '- ', ': ', '# ', '\t', '\n', '{', ']', '"', '? ', '|'),
      fc.string(),
    ),
  });
  fc.assert(
    fc.property(
      slip,
      fc.constantFrom(...kinds, ...kinds.map((kind) => `${kind} on lane`)),
      ({ at, gone, put }, asked) => {
        const plan = smallPlan.slice(0, at) + put + smallPlan.slice(at + gone);
        const outcome = changePlanText(plan, readChanges(asked));
        if (outcome.ok) expect(readPlanText(outcome.value.text).ok).toBe(true);
        else expect(outcome.issues.some(({ severity }) => severity === 'error')).toBe(true);
        // What reads, and takes the change, can be written.
        expect(outcome.issues.filter(({ code }) => code === 'cannot-write')).toEqual([]);
      },
    ),
    { numRuns: 300, seed: 22 },
  );
});
