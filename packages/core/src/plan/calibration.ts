import { z } from 'zod';

/**
 * What readings have told of a plan's uncertain values.
 *
 * Each group of values that rise and fall together stands at `shift` standard normal steps of its tables' own law, with
 * `spread` of its width left; `correlation` holds one row a group.
 */
export const calibrationSchema = z
  .strictObject({
    groups: z.array(
      z.strictObject({
        /** The values' common name in the network (`Parameter.together`), `energizer`, or `charging`. */
        key: z.string().min(1),
        shift: z.number().min(-6).max(6),
        spread: z.number().positive().max(1),
      }),
    ),
    correlation: z.array(z.array(z.number().min(-1).max(1))),
  })
  .refine(({ groups, correlation }) => [correlation, ...correlation].every((row) => row.length === groups.length), {
    message: 'a correlation matrix with one row and one column a group',
    path: ['correlation'],
  });

/** What a fence meter's readings have told of a plan's tables. */
export type Calibration = z.infer<typeof calibrationSchema>;
