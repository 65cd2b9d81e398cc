import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import type { Issue, ResolvedPlan } from '@postvolt/core';
import { explainFileError } from './file-error.js';
import { InputError } from './input-error.js';

/** Longest plan that is read, in bytes: some hundred times the largest fence with every post placed by hand. */
const mostBytes = 64 * 2 ** 20;

/** A plan as read, with what was doubtful about it and the name by which to speak of its file. */
export interface ReadPlan {
  readonly plan: ResolvedPlan;
  readonly warnings: readonly Issue[];
  readonly file: string;
}

/**
 * Reads and resolves a plan file; `-` stands for standard input.
 * @throws InputError where the file cannot be read; PlanIssues where the plan is wrong.
 */
export async function readPlan(path: string): Promise<ReadPlan> {
  const file = path === '-' ? 'standard input' : path;
  const text = await readText(path, file);
  const { readPlanText } = await import('@postvolt/core/yaml');
  const outcome = readPlanText(text, { file });
  if (!outcome.ok) throw new PlanIssues(outcome.issues, file);
  return { plan: outcome.value, warnings: outcome.issues, file };
}

/** The issues of a plan that cannot be used, with the file that they are in. */
export class PlanIssues extends Error {
  override readonly name = 'PlanIssues';
  constructor(
    readonly issues: readonly Issue[],
    readonly file: string,
  ) {
    super(`${file} cannot be used`);
  }
}

/** Text of a file, or of standard input for `-`; `file` names it in errors. */
export async function readText(path: string, file: string): Promise<string> {
  try {
    if (path === '-') return decode(await gather(process.stdin, file), file);
    if ((await stat(path)).isDirectory()) throw new InputError(`cannot read ${file}: it is a folder, not a plan file`);
    return decode(await gather(createReadStream(path), file), file);
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError(`cannot read ${file}: ${explainFileError(error)}`);
  }
}

async function gather(stream: AsyncIterable<Buffer>, file: string): Promise<Buffer> {
  const parts: Buffer[] = [];
  let length = 0;
  for await (const part of stream) {
    length += part.length;
    if (length > mostBytes)
      throw new InputError(`cannot read ${file}: it is longer than ${mostBytes / 2 ** 20} MiB, so it is no plan`);
    parts.push(part);
  }
  return Buffer.concat(parts);
}

/** UTF-8, or the UTF-16 that some Windows programs write when they save or redirect text. */
function decode(bytes: Buffer, file: string): string {
  const sixteen =
    bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : null;
  try {
    return new TextDecoder(sixteen ?? 'utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw new InputError(`cannot read ${file}: it is not text (UTF-8); save the plan as a plain text file`);
  }
}
