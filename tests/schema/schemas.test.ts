import { readdirSync, readFileSync } from 'node:fs';
import {
  documentKinds,
  documentSchema,
  type PlanResult,
  parsePlan,
  planSchema,
  type ResolvedPlan,
  readPlan,
  resolvedPlanSchema,
  resultSchema,
  solvePlan,
  wordPath,
} from '@postvolt/core';
import { scenarios } from '@postvolt/scenarios';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { describe, expect, expectTypeOf, test } from 'vitest';
import { parse } from 'yaml';
import type { z } from 'zod';
import { schemaKinds } from '../../packages/cli/src/commands/schema.js';

type Mutable<T> = T extends object ? { -readonly [K in keyof T]: Mutable<T[K]> } : T;

const ajv = new Ajv2020({ strict: true, strictTypes: false, strictTuples: false, allErrors: true });
const validators = Object.fromEntries(
  documentKinds.map((kind) => [kind, ajv.compile(documentSchema(kind))]),
) as unknown as Record<(typeof documentKinds)[number], ValidateFunction>;

test('the command offers the documents that core has', () => {
  expect(schemaKinds).toEqual(documentKinds);
});

test('the schema of the result is the type of the result', () => {
  expectTypeOf<z.infer<typeof resultSchema>>().toEqualTypeOf<Mutable<PlanResult>>();
  expectTypeOf<z.infer<typeof resolvedPlanSchema>>().toEqualTypeOf<ResolvedPlan>();
});

describe.each(documentKinds)('the schema of the %s', (kind) => {
  const schema = documentSchema(kind);
  test('is valid against the meta-schema of draft 2020-12 and has an id', () => {
    expect(schema['$schema']).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(schema['$id']).toBe(`urn:postvolt:${kind}:1`);
    expect(ajv.validateSchema(schema)).toBe(true);
  });
});

describe.each(scenarios.map((s) => [s.id, s.plan]))('a second validator agrees on %s', (_, text) => {
  const input: unknown = parse(text);
  const plan = parsePlan(input);
  test('the plan', () => {
    expect([validators.plan(input), validators.plan.errors]).toEqual([true, null]);
    expect(planSchema.safeParse(input).success).toBe(true);
  });
  test('the resolved plan, through JSON', () => {
    const resolved: unknown = JSON.parse(JSON.stringify(plan));
    expect([validators['resolved-plan'](resolved), validators['resolved-plan'].errors]).toEqual([true, null]);
    expect(resolvedPlanSchema.safeParse(resolved).success).toBe(true);
  });
  test('the result, through JSON', () => {
    const result: unknown = JSON.parse(JSON.stringify(solvePlan(plan)));
    expect([validators.result(result), validators.result.errors]).toEqual([true, null]);
    expect(resultSchema.safeParse(result).success).toBe(true);
  });
});

/** Each file begins with what is wrong: `shape`, which any validator of the schema sees, or `meaning`, which the reader sees; and where. */
const folder = new URL('./bad-plans/', import.meta.url);
describe.each(readdirSync(folder))('the bad plan %s', (file) => {
  const text = readFileSync(new URL(file, folder), 'utf8');
  const [, fault, where] = /^# (shape|meaning): (.*)$/m.exec(text)!;
  const input: unknown = parse(text);

  test('is refused at its place', () => {
    const read = readPlan(input);
    expect(read.ok).toBe(false);
    expect(read.issues.filter((issue) => issue.severity === 'error').map((issue) => wordPath(issue.path))).toContain(
      where,
    );
  });

  test('a second validator sees what is wrong with its shape, and nothing wrong with the shape of the others', () => {
    expect(validators.plan(input)).toBe(fault === 'meaning');
  });
});

test('documents of another kind are refused by each schema', () => {
  const plan = parse(scenarios[1]!.plan);
  expect(validators.result(plan)).toBe(false);
  expect(validators['resolved-plan'](plan)).toBe(false);
  expect(validators.plan(parsePlan(plan))).toBe(false);
});
