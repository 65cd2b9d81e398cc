import { z } from 'zod';
import { resolvedPlanSchema } from './resolved.js';
import { planSchema } from './schema.js';

/** JSON Schema (2020-12) of a plan as people write it, for editors and other validators. */
export const planJsonSchema = (): object => z.toJSONSchema(planSchema, { io: 'input' });

/** JSON Schema (2020-12) of the resolved plan, all fields present. */
export const resolvedPlanJsonSchema = (): object => z.toJSONSchema(resolvedPlanSchema, { io: 'input' });
