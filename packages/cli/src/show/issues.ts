import { type Issue, wordIssue } from '@postvolt/core';
import { plain } from '../text/lines.js';

/** More errors than this in one plan are one misunderstanding; the rest are counted. */
const most = 20;

/** The errors that keep a plan from being used, a heading first, for standard error. */
export function showErrors(issues: readonly Issue[], file: string | null): string {
  const errors = issues.filter(({ severity }) => severity === 'error');
  const shown = errors.slice(0, most).map((issue) => `  ${showIssue(issue, file ?? '')}\n`);
  const more = errors.length > most ? `  ... and ${errors.length - most} more.\n` : '';
  const heading = errors.length === 1 ? 'an error' : `${errors.length} errors`;
  // Without a file it is what was asked for that does not fit the plan.
  const what = file === null ? 'this cannot be answered' : `${plain(file)} cannot be used`;
  return `postvolt: ${what} because of ${heading}:\n${shown.join('')}${more}`;
}

/** One issue in one line, safe to print. */
export const showIssue = (issue: Issue, file = ''): string => plain(wordIssue(issue, file));
