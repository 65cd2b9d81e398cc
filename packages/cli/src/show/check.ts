import type { Issue, PlanResult } from '@postvolt/core';
import type { Colours } from '../text/colours.js';
import { hang, wrap } from '../text/lines.js';
import { showCautions } from './cautions.js';
import { showIssue } from './issues.js';

/** What a check found in a plan that can be used. */
export function* showCheck(
  { title, warnings, cautions }: { title: string; warnings: readonly Issue[]; cautions: PlanResult['cautions'] },
  { file, width, colours }: { readonly file: string; readonly width: number; readonly colours: Colours },
): Generator<string> {
  const count = warnings.length === 1 ? '1 warning' : `${warnings.length} warnings`;
  const sentence = `${file} ("${title}") can be used${warnings.length === 0 ? '' : `, with ${count}`}.`;
  yield `${wrap(sentence, width).map(colours.strong).join('\n')}\n`;
  for (const issue of warnings) yield `${hang('  - ', showIssue(issue, file), width)}\n`;
  yield '\n';
  yield* showCautions(cautions, { width, colours });
}
