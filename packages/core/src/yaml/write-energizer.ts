import { pulseHzOf } from '../plan/resolve-energizer.js';
import type { ResolvedPlan } from '../plan/resolved.js';
import { type Plan, planSchema } from '../plan/schema.js';
import { energizerSchema, groundRods } from '../plan/schema-energizer.js';
import { type Fields, put } from './edited-data.js';
import type { RowWords } from './row-words.js';

const energizerOrder = Object.keys(energizerSchema.shape);
const rodsOrder = Object.keys(groundRods.shape);
const planOrder = Object.keys(planSchema.shape);

/** Writes another class of energizer in the place of its class or its own output, and another number of rods. */
export function writeEnergizer(data: Fields, before: ResolvedPlan, after: ResolvedPlan, words: RowWords): void {
  const fields = data['energizer'] as Fields;
  const [old, now] = [before.energizer, after.energizer];
  if (now.row !== old.row && now.row !== null) {
    put(fields, 'class', words('energizers', now.row), energizerOrder);
    delete fields['output'];
  }
  if (now.joules === null) delete fields['joules'];
  if (now.pulsesPerSecond === null) delete fields['pulseInterval'];
  if (now.pulseWidthS === null && fields['pulseWidth'] !== undefined) {
    delete fields['pulseWidth'];
    // The wire is reckoned at the frequency of the plan as it was, so that nothing but the output differs.
    const usualHz = pulseHzOf({ energizer: {} as Plan['energizer'] });
    if (data['pulseFrequency'] === undefined && after.pulseHz !== usualHz)
      put(data, 'pulseFrequency', `${Number(after.pulseHz.toPrecision(12))} Hz`, planOrder);
  }
  if (now.ground.kind !== 'rods' || old.ground.kind !== 'rods' || now.ground.count === old.ground.count) return;
  put(fields['groundRods'] as Fields, 'count', now.ground.count, rodsOrder);
}
