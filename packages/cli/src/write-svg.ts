import { extname } from 'node:path';
import { InputError } from './input-error.js';
import { writeFileWhole, writeOut } from './output.js';
import { refuseToOverwrite } from './refuse-to-overwrite.js';
import { hang, textWidth } from './text/lines.js';

/**
 * Refuses a file that a figure cannot be written to, before anything long is reckoned.
 * @throws InputError
 */
export function checkSvg(plan: string, output: string | undefined): void {
  if (output === undefined) return;
  if (extname(output).toLowerCase() !== '.svg')
    throw new InputError(`--output: found ${JSON.stringify(output)}, expected a file that ends in .svg`);
  refuseToOverwrite(plan, output);
}

/** Writes a study's figure to a file, whole or not at all, and its answer to standard output. */
export async function writeSvg(output: string, svg: string, sentence: string): Promise<void> {
  await writeFileWhole(output, svg);
  await writeOut(`${hang('', sentence, textWidth())}\nWrote ${output}.\n`);
}
