import { z } from 'zod';
import { resolvedPlanSchema } from '../plan/resolved.js';
import { planSchema } from '../plan/schema.js';
import { resultSchema } from './result-schema.js';

/** Documents that have a JSON Schema. */
export const documentKinds = ['plan', 'resolved-plan', 'result'] as const;
/** A document that has a JSON Schema. */
export type DocumentKind = (typeof documentKinds)[number];

const titles: Readonly<Record<DocumentKind, [title: string, about: string, schema: z.ZodType]>> = {
  plan: ['Fence plan', 'A plan of energized fence as a person writes it, quantities with their units.', planSchema],
  'resolved-plan': [
    'Resolved fence plan',
    'A plan with every default filled in, in SI units: the way in for farm software.',
    resolvedPlanSchema,
  ],
  result: ['Fence result', 'Volts at every post of a plan, in each of its conditions.', resultSchema],
};

/**
 * JSON Schema (draft 2020-12, with `$id`) of a document, for editors and other validators. It checks shapes and names of
 * fields; what a quantity or a name means is checked by the reader alone.
 */
export function documentSchema(kind: DocumentKind): Record<string, unknown> {
  const [title, description, schema] = titles[kind];
  const { $schema, ...rest } = z.toJSONSchema(schema, { io: 'input' });
  return { $schema, $id: `urn:postvolt:${kind}:1`, title, description, ...rest };
}
