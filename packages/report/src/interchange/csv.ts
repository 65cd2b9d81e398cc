import type { PlanResult } from '@postvolt/core';
import { csvLine } from './csv-line.js';

const heads = [
  'condition',
  'post',
  'junction',
  'run',
  'postNumber',
  'positionM',
  'strand',
  'role',
  'status',
  'distanceM',
  'voltsToEarth',
  'voltsToGrounded',
  'animalVolts',
  'animalAmps',
  'sourceOhms',
  'spanAmps',
  'leakAmps',
  'node',
];

/** Five figures: more than the model supports, few enough to read. */
const short = (value: number | null): number | null => (value === null ? null : Number(value.toPrecision(5)));

/**
 * Every strand of every post in every condition, a line each, as RFC 4180 has it: a line of heads, CRLF, quotes where a
 * field needs them. SI units, names as in the JSON result; empty where there is no value.
 *
 * Text that a spreadsheet would take for a formula is led by an apostrophe.
 */
export function* csvLines(result: PlanResult): Generator<string> {
  yield csvLine(heads);
  for (const condition of result.conditions)
    for (const post of condition.posts)
      for (const strand of post.strands)
        yield csvLine([
          condition.id,
          post.id,
          post.junction,
          strand.run,
          strand.post,
          short(post.positionM),
          strand.strand,
          strand.role,
          strand.status,
          short(strand.distanceM),
          short(strand.voltsToEarth),
          short(strand.voltsToGrounded),
          short(strand.animalVolts),
          short(strand.animalAmps),
          short(strand.sourceOhms),
          short(strand.spanAmps),
          short(strand.leakAmps),
          strand.node,
        ]);
}

/** As {@link csvLines}, in one text; a fence of some hundred thousand posts needs the lines. */
export const toCsv = (result: PlanResult): string => [...csvLines(result)].join('');
