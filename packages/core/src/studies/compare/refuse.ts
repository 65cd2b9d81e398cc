import { type Issue, PlanError } from '../../issue.js';

/** Throws the one thing that is wrong with a question. */
export function refuse(path: Issue['path'], found: string, expected: string, hint = '', code = 'bad-change'): never {
  throw new PlanError([{ code, severity: 'error', path, found, expected, hint, at: null }]);
}
