import { PlanError } from '../issue.js';

/** Throws what keeps a change from being written into a text. */
export function cannotWrite(
  found: string,
  expected = 'a change that can be written into this text',
  hint = 'Nothing was written. Make the change in the file by hand.',
): never {
  throw new PlanError([{ code: 'cannot-write', severity: 'error', path: [], found, expected, hint, at: null }]);
}
