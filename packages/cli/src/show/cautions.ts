import type { PlanResult } from '@postvolt/core';
import type { Colours } from '../text/colours.js';
import { hang } from '../text/lines.js';

/** Cautions with their sources, and who decides. */
export function* showCautions(
  cautions: PlanResult['cautions'],
  { width, colours }: { readonly width: number; readonly colours: Colours },
): Generator<string> {
  yield `${colours.strong('Cautions')}\n`;
  for (const { text, source } of cautions) yield `${hang('  - ', `${text} (${source})`, width)}\n`;
  yield `${hang('  ', 'Local codes and a licensed electrician decide.', width)}\n`;
}
