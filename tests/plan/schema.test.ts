import { documentSchema, type PlanInput, planSchema } from '@postvolt/core';
import { standardTables } from '@postvolt/tables';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, expectTypeOf, it } from 'vitest';
import { loosePlan } from './small-plan.js';

type Json = {
  [key: string]: unknown;
  properties?: Record<string, Json>;
  anyOf?: Json[];
  items?: Json;
  additionalProperties?: Json | false;
};
const schema = documentSchema('plan') as Json;

describe('the JSON Schema of a plan', () => {
  const ajv = new Ajv2020({ strict: false });
  const check = ajv.compile(schema);

  it('takes a good plan and refuses a bad one, as a second validator sees it', () => {
    expect(check(loosePlan())).toBe(true);
    expect(check(loosePlan((p) => Object.assign(p.runs.north, { lenght: '1 ft' })))).toBe(false);
    expect(check(loosePlan((p) => Object.assign(p.runs.north, { length: 1320 })))).toBe(false);
    expect(check(loosePlan((p) => delete p['soil']))).toBe(false);
  });

  it('describes every field in words', () => {
    const bare: string[] = [];
    const visit = (node: Json, path: string) => {
      for (const [key, field] of Object.entries(node.properties ?? {})) {
        const place = `${path}.${key}`;
        const isRangePart = ['low', 'typical', 'high'].includes(key);
        if (typeof field['description'] !== 'string' && !isRangePart) bare.push(place);
        visit(field, place);
      }
      for (const choice of node.anyOf ?? []) visit(choice, path);
      if (node.items !== undefined && !Array.isArray(node.items)) visit(node.items, `${path}[]`);
      if (typeof node.additionalProperties === 'object') visit(node.additionalProperties, `${path}.*`);
    };
    visit(schema, 'plan');
    expect(bare).toEqual([]);
  });

  it('gives examples of a row’s values that a plan may hold', () => {
    const tables = schema.properties!['tables']!.properties!;
    let tried = 0;
    for (const [table, rows] of Object.entries(tables)) {
      const fields = (rows.additionalProperties as Json).properties!;
      for (const [field, { anyOf, examples = [] }] of Object.entries(fields)) {
        const all = [examples, ...(anyOf ?? []).map((choice) => choice['examples'] ?? [])].flat();
        for (const example of all) {
          const row = { like: standardTables[table as 'wires'][0]!.id, [field]: example };
          const plan = loosePlan((p) => Object.assign(p, { tables: { [table]: { mine: row } } }));
          expect(planSchema.safeParse(plan).error?.issues, `${table}.${field}: ${example}`).toBeUndefined();
          tried++;
        }
      }
    }
    expect(tried).toBeGreaterThan(40);
  });

  it('can be made of the resolved plan as well', () => {
    expect(documentSchema('resolved-plan')).toHaveProperty('properties.runs');
  });
});

it('types a plan in code', () => {
  const plan: PlanInput = {
    formatVersion: 1,
    units: 'metric',
    soil: { like: 'loam', resistivity: '80 ohm m' },
    energizer: {
      at: 'a',
      output: { open: '9 kV', '500 ohm': { low: '6 kV', typical: '7 kV', high: '8 kV' } },
      groundRods: {},
    },
    junctions: ['a', 'b'],
    builds: { one: { post: 'wood', wire: { like: '2.5 mm', diameter: '2.4 mm' }, strands: [{ height: '90 cm' }] } },
    runs: { r: { from: 'a', to: 'b', length: '300 m' } },
  };
  expect(planSchema.safeParse(plan).success).toBe(true);
  expectTypeOf<PlanInput['runs'][string]['length']>().toEqualTypeOf<string | undefined>();
  expectTypeOf<PlanInput['units']>().toEqualTypeOf<'imperial' | 'metric'>();
});
