import { PlanError, type ResolvedPlan, solvePlan } from '@postvolt/core';
import { applyChanges, type PlanChange, readChanges } from '@postvolt/core/studies';
import { changePlanText, readPlanText } from '@postvolt/core/yaml';
import { scenario, scenarios } from '@postvolt/scenarios';
import { insulatorStates, standardTables } from '@postvolt/tables';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse, stringify } from 'yaml';
import { everyFeatureInput } from '../support/every-feature.js';
import { runs as runsOf, someOf } from '../support/length.js';

/**
 * Volts of the changed text and of the change in memory. Lengths that a change works out, of a cable under a gate, are
 * written to six digits: half a unit of the sixth is 5e-6 of that cable, and so of the volts that are lost in it at most,
 * which are no more than the most on the fence.
 */
const rounding = 5e-6;

const read = (text: string): ResolvedPlan => {
  const outcome = readPlanText(text);
  if (!outcome.ok) throw new PlanError(outcome.issues);
  return outcome.value;
};

const voltsOf = (plan: ResolvedPlan) =>
  solvePlan(plan).conditions.flatMap(({ id, posts }) =>
    posts.flatMap((post) =>
      post.strands.map(({ strand, voltsToEarth }) => [`${id} ${post.id} ${strand}`, voltsToEarth] as const),
    ),
  );

function expectSameVolts(written: ResolvedPlan, inMemory: ResolvedPlan): void {
  const [found, wanted] = [voltsOf(written), voltsOf(inMemory)];
  expect(found.map(([place]) => place)).toEqual(wanted.map(([place]) => place));
  const most = Math.max(...wanted.map(([, volts]) => Math.abs(volts)));
  const apart = Math.max(...found.map(([, volts], i) => Math.abs(volts - wanted[i]![1])));
  expect(apart).toBeLessThan(rounding * most);
}

/** What applying in memory gives; null where it refuses. */
function inMemory(plan: ResolvedPlan, changes: readonly PlanChange[]): ResolvedPlan | null {
  try {
    return applyChanges(plan, changes, standardTables);
  } catch (error) {
    if (error instanceof PlanError) return null;
    throw error;
  }
}

/** Everything that stands behind a hash mark outside quotes. */
const commentsOf = (text: string) => [...text.matchAll(/(?:^|\s)#.*$/gm)].map(([comment]) => comment.trim());

function check(text: string, changes: readonly PlanChange[]): void {
  const wanted = inMemory(read(text), changes);
  const outcome = changePlanText(text, changes);
  if (wanted === null) {
    expect(outcome.ok).toBe(false);
    return;
  }
  expect(outcome.issues.filter(({ severity }) => severity === 'error')).toEqual([]);
  if (!outcome.ok) return;
  expectSameVolts(read(outcome.value.text), wanted);
  if (changes.some(({ what }) => what === 'hot strands')) return;
  // What is taken out takes the comment on its own line with it, and nothing else does.
  const left = commentsOf(outcome.value.text);
  const lost = commentsOf(text).filter((comment) => !left.includes(comment));
  if (lost.length > 0) expect(outcome.value.text.split('\n').length).toBeLessThan(text.split('\n').length);
}

const forms = [
  'insulator porcelain doughnut',
  'insulator cheap pin aged',
  'end insulator porcelain doughnut cracked',
  'insulators cracked',
  'wire 14 ga',
  'post wood',
  'spacing 60 ft',
  'spacing 3.5 m',
  'strands +1',
  'strands -1',
  'growth trace',
  'spray',
  'mend',
];
const wholeOnly = ['rods +2', 'rods 7', 'energizer 12 J'];

const plans = new Map([
  ...scenarios.map(({ id }) => [id, scenario(id).plan] as const),
  ['every feature', stringify(everyFeatureInput)] as const,
]);

describe.each(someOf([...plans.keys()].reverse(), 3))('%s', (id) => {
  const text = plans.get(id)!;
  const runs = Object.keys((parse(text) as { runs: object }).runs);
  const changes = [...forms, ...wholeOnly, ...forms.map((form) => `${form} on ${runs.at(-1)}`)];
  test.each(changes)('%s', (change) => check(text, readChanges(change)));
});

test('any set of changes of any scenario', { timeout: 300_000 }, () => {
  const row = (table: 'wires' | 'insulators' | 'posts' | 'vegetation' | 'energizers') =>
    fc.constantFrom(...standardTables[table].map(({ id }) => id));
  const state = fc.constantFrom(...insulatorStates);
  const anywhere = (runs: readonly string[]): fc.Arbitrary<PlanChange> =>
    fc
      .tuple(
        fc.oneof(
          fc.record({ what: fc.constantFrom('insulator' as const, 'end insulator' as const), row: row('insulators') }),
          fc.record({
            what: fc.constantFrom('insulator' as const, 'end insulator' as const),
            row: row('insulators'),
            state,
          }),
          fc.record({ what: fc.constant('insulator state' as const), state }),
          fc.record({ what: fc.constant('wire' as const), row: row('wires') }),
          fc.record({ what: fc.constant('post' as const), row: row('posts') }),
          fc.record({
            what: fc.constant('spacing' as const),
            metres: fc.oneof(fc.double({ min: 2, max: 200, noNaN: true }), fc.constantFrom(3, 6.096, 12.192)),
          }),
          fc.record({ what: fc.constant('hot strands' as const), more: fc.constantFrom(-1, 1, 2) }),
          fc.record({ what: fc.constant('growth' as const), atMost: row('vegetation') }),
          fc.constant({ what: 'mend' as const }),
        ),
        fc.option(fc.constantFrom(...runs), { nil: null }),
      )
      .map(([change, run]): PlanChange => (run === null ? change : { ...change, run }));
  const once: fc.Arbitrary<PlanChange> = fc.oneof(
    fc.record({ what: fc.constant('rods' as const), more: fc.integer({ min: -2, max: 4 }) }),
    fc.record({ what: fc.constant('rods' as const), count: fc.integer({ min: 1, max: 12 }) }),
    fc.record({ what: fc.constant('energizer' as const), row: row('energizers') }),
  );
  const cases = fc
    // The demo farm is a thousand posts, and solved in the tests above.
    .constantFrom(...[...plans.keys()].filter((id) => id !== 'demo farm'))
    .chain((id) => {
      const text = plans.get(id)!;
      const runs = Object.keys((parse(text) as { runs: object }).runs);
      const change = fc.oneof({ arbitrary: anywhere(runs), weight: 4 }, { arbitrary: once, weight: 1 });
      return fc.tuple(fc.constant(text), fc.array(change, { minLength: 1, maxLength: 4 }));
    });
  fc.assert(
    fc.property(cases, ([text, changes]) => check(text, changes)),
    { numRuns: runsOf(60), seed: 7 },
  );
});
