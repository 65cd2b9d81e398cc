import type { PlanResult } from '@postvolt/core';
import type { Colours } from '../text/colours.js';
import { hang } from '../text/lines.js';

/** Cautions with their sources; a source that all share is said once. */
export function* showCautions(
  cautions: PlanResult['cautions'],
  { width, colours }: { readonly width: number; readonly colours: Colours },
): Generator<string> {
  const shared = new Set(cautions.map(({ source }) => source)).size === 1;
  yield `${colours.strong('Cautions')}\n`;
  for (const { text, source } of cautions) yield `${hang('  - ', shared ? text : `${text} (${source})`, width)}\n`;
  if (shared) yield `${hang('  Source: ', cautions[0]!.source, width)}\n`;
}
