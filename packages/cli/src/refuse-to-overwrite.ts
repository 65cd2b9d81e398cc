import { resolve } from 'node:path';
import { InputError } from './input-error.js';

/** Refuses to write an answer over the plan that it is the answer to. */
export function refuseToOverwrite(plan: string, output: string, hint = ''): void {
  if (plan !== '-' && resolve(output) === resolve(plan))
    throw new InputError(`cannot write ${output}: that is the plan itself${hint === '' ? '' : `. ${hint}`}`);
}
