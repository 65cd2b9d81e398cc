import type { PlanResult } from '@postvolt/core';
import { csv } from '../text/csv.js';

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

/** One line per strand, post and condition; SI units, named as in the JSON result. */
export const resultCsv = (result: PlanResult): Iterable<string> => csv(heads, rows(result));

function* rows(result: PlanResult): Generator<readonly (string | number | null)[]> {
  for (const condition of result.conditions)
    for (const post of condition.posts)
      for (const strand of post.strands)
        yield [
          condition.id,
          post.id,
          post.junction,
          strand.run,
          post.post,
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
        ];
}
