import { type KindName, kinds, readPlan, readQuantity, readRanged, readResolvedPlan } from '@postvolt/core';
import { readPlanText } from '@postvolt/core/yaml';
import { scenarios } from '@postvolt/scenarios';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { isLong } from '../support/length.js';
import { mutants, mutantTexts, quantityTexts } from './mutate.js';
import { fault } from './oracle.js';

/** Share of the runs that each test gets; `npm run fuzz` asks for a million. */
const total = Number(process.env['FUZZ_RUNS'] ?? (isLong ? 100_000 : 3000));
const runs = (share: number) => ({
  numRuns: Math.round(total * share),
  seed: Number(process.env['FUZZ_SEED'] ?? 20_261_125),
  endOnFailure: true,
});
const timeout = 60_000 + total * 20;

const small = `formatVersion: 1
units: metric
target: 2 kV
soil: loam
energizer: { at: a, class: 1 J, leadOut: { length: 20 m }, groundRods: { count: 2, spacing: 3 m } }
junctions: { a: {}, b: { through: true }, c: {} }
builds:
  one: { post: wood, postSpacing: 20 m, wire: 2.5 mm, strands: [{ name: top, height: 90 cm }, { name: low, height: 50 cm, role: grounded }] }
runs:
  r: { from: a, to: b, length: 100 m, build: one }
  s: { from: b, to: c, line: [[10, 50], [10.001, 50.001]], build: one }
gates: [{ run: r, span: 2 }]
switches: [{ run: s, span: 0, openIn: [wet] }]
groundedRods: [{ run: s, strand: low, every: 50 m }]
stretches: [{ run: r, from: 10 m, to: 60 m, growth: heavy, fouledFraction: 20 % }]
faults: [{ kind: bad splice, run: r, span: 1 }, { kind: ticking insulator, run: s, post: 2, firesAt: 2 kV (1 to 3) }]
conditions: { wet: { soil: wet, surface: wet, growth: light, growthHeight: 60 cm }, dry: {} }
`;
// Short ones: a fuzzer learns more from many small plans than from few large ones.
const texts = [
  ...new Array<string>(20).fill(small),
  ...scenarios.filter((s) => s.id !== 'demo farm').map((s) => s.plan),
];

const fails = (found: string | null) => {
  if (found !== null) throw new Error(found);
};

test('quantities: a number in SI, or a clear fault', { timeout }, () => {
  const names = Object.keys(kinds) as KindName[];
  fc.assert(
    fc.property(quantityTexts, fc.constantFrom(...names), (text, kind) => {
      const read = readQuantity(text, kind);
      const ranged = readRanged(text, kind);
      if (read.ok) {
        expect(Number.isFinite(read.value)).toBe(true);
        expect(ranged.ok).toBe(true);
      } else {
        expect(read.fault.expected).not.toBe('');
        expect(read.fault.expected).not.toMatch(/undefined|NaN|\[object/);
      }
      if (ranged.ok)
        expect(ranged.value.low <= ranged.value.typical && ranged.value.typical <= ranged.value.high).toBe(true);
    }),
    runs(0.8),
  );
});

test('plans as objects', { timeout }, () => {
  const documents = texts.map((text) => parse(text));
  fc.assert(
    fc.property(mutants(documents), (input) => fails(fault(readPlan(input)))),
    runs(0.1),
  );
});

test('plans as text', { timeout }, () => {
  fc.assert(
    fc.property(mutantTexts(texts), (text) => fails(fault(readPlanText(text)))),
    runs(0.08),
  );
});

test('resolved plans', { timeout }, () => {
  const resolved = texts.map((text) => {
    const read = readPlanText(text);
    if (!read.ok) throw new Error(JSON.stringify(read.issues));
    return JSON.parse(JSON.stringify(read.value));
  });
  fc.assert(
    fc.property(mutants(resolved.slice(0, 4)), (input) => fails(fault(readResolvedPlan(input)))),
    runs(0.02),
  );
});
