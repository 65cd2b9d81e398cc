import type { Issue, PlanResult } from '@postvolt/core';
import { csvLines } from '@postvolt/report/text';
import { type Text, writeFileWhole, writeOut } from './output.js';
import { refuseToOverwrite } from './refuse-to-overwrite.js';
import { showResult } from './show/result.js';
import { coloursFor, noColours } from './text/colours.js';
import { json } from './text/json.js';
import { hang, textWidth } from './text/lines.js';

/** Writes a solved plan in the form asked for, to standard output or to a file with the verdict on standard output. */
export async function writeSolved(
  result: PlanResult,
  options: {
    readonly path: string;
    readonly planWarnings: readonly Issue[];
    readonly all?: true;
    readonly json?: true;
    readonly csv?: true;
    readonly output?: string;
  },
): Promise<void> {
  const { output } = options;
  if (output === undefined) return writeOut(textOf(result, options, process.stdout));
  refuseToOverwrite(options.path, output);
  await writeFileWhole(output, textOf(result, options, null));
  await writeOut(`${hang('', result.sentence, textWidth())}\nWrote ${output}.\n`);
}

function textOf(
  result: PlanResult,
  { json: asJson, csv: asCsv, ...options }: Parameters<typeof writeSolved>[1],
  terminal: NodeJS.WriteStream | null,
): Text {
  if (asJson) return json(result);
  if (asCsv) return csvLines(result);
  const colours = terminal ? coloursFor(terminal) : noColours;
  return showResult(result, { ...options, all: options.all === true, colours, width: terminal ? textWidth() : 80 });
}
