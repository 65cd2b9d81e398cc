import { PlanError } from '@postvolt/core';
import { readChanges } from '@postvolt/core/studies';
import { changePlanText } from '@postvolt/core/yaml';
import { scenario, scenarios } from '@postvolt/scenarios';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse, stringify } from 'yaml';

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
    { numRuns: Number(process.env['POSTVOLT_RUNS'] ?? 120) },
  );
});
