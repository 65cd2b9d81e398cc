import { z } from 'zod';

const id = z.string();
const volts = z.number().describe('Peak volts of the pulse.');
const amps = z.number().describe('Peak amps of the pulse.');
const ohms = z.number().describe('Ohms.');
const metres = z.number().describe('Metres.');

const issue = z.strictObject({
  code: z.string().describe('Short and stable, for programs.'),
  severity: z.enum(['error', 'warning']),
  path: z.array(z.union([z.string(), z.number()])).describe('Keys and indices from the top of the plan.'),
  found: z.string(),
  expected: z.string(),
  hint: z.string(),
  at: z.strictObject({ line: z.number(), column: z.number() }).nullable(),
});

const strand = z.strictObject({
  run: id,
  post: z.number().int().describe('Number of the post in that run.'),
  strand: id,
  role: z.enum(['hot', 'grounded']),
  status: z
    .enum(['live', 'switched off', 'dead', 'grounded'])
    .describe('`switched off` is left out of the verdict; `dead`, cut off by a fault, fails it.'),
  node: z.string().describe('Name of the node in an exported circuit.'),
  voltsToEarth: volts,
  voltsToGrounded: volts.nullable().describe('To the nearest grounded strand of the post; null without one.'),
  distanceM: metres.nullable().describe('Along metal from the fence terminal; null where no metal leads there.'),
  animalVolts: volts.describe("Across the body and hide of the plan's animal touching here."),
  animalAmps: amps.describe("Through the plan's animal touching here."),
  sourceOhms: ohms.describe('Driving-point resistance to earth, energizer connected.'),
  spanAmps: amps.nullable().describe("In the span to the next post, positive towards it; null at the run's last post."),
  leakAmps: amps.describe('Leaving the strand here, positive to earth.'),
});

const post = z.strictObject({
  id: id.describe("`run/number`, or the junction's id."),
  junction: id.nullable(),
  run: id.nullable(),
  post: z.number().int().nullable(),
  positionM: metres.nullable().describe("From the run's start; null for a junction."),
  distanceM: metres.nullable(),
  bodyVolts: volts,
  bodyAmps: amps,
  strands: z.array(strand),
});

const leak = z.strictObject({
  kind: z.string(),
  cause: z.string(),
  amps,
  percent: z.number().describe('Of all that leaves the hot strands; shares add to 100.'),
  places: z.number().int(),
});

const weakest = z.strictObject({
  postId: id,
  run: id,
  post: z.number().int(),
  strand: id,
  voltsToEarth: volts,
  animalVolts: volts,
  compared: volts.describe('The one of the two that the target compares.'),
});

const condition = z.strictObject({
  id,
  name: z.string(),
  verdict: z.strictObject({
    holds: z.boolean(),
    sentence: z.string(),
    targetVolts: volts,
    marginVolts: volts.describe('Weakest less target; zero or more holds.'),
    weakest,
    largestCause: leak.nullable(),
  }),
  energizer: z.strictObject({
    openVolts: volts,
    terminalVolts: volts.describe('Fence terminal less ground terminal.'),
    amps,
    fenceVoltsToEarth: volts,
    groundRiseVolts: volts,
    groundOhms: ohms,
    inputOhms: ohms.describe('Of fence and ground, as the terminals see them.'),
    sourceOhms: ohms.describe('Slope of the output curve where it meets the fence.'),
  }),
  voltsBudget: z
    .strictObject({
      openVolts: volts,
      insideEnergizer: volts,
      groundSystem: volts,
      leadOut: volts,
      wire: volts,
      leftAtWeakest: volts,
    })
    .describe('Parts add up to `openVolts`.'),
  leaks: z.array(leak).describe('Largest first.'),
  posts: z.array(post),
  deadPosts: z.array(id),
  switchedOffPosts: z.array(id),
  warnings: z.array(issue),
  residuals: z
    .strictObject({ kirchhoff: z.number(), powerBalance: z.number() })
    .describe('Relative misfit of the circuit laws; near 1e-15 where all is well.'),
});

const tally = z.record(z.string(), z.number());

/** The result of solving a plan, as JSON carries it; the same shape as {@link PlanResult}. */
export const resultSchema = z.strictObject({
  format: z.literal('postvolt result'),
  formatVersion: z.literal(1),
  title: z.string(),
  units: z.enum(['imperial', 'metric']).describe('Of printed results; numbers here are SI.'),
  target: z.strictObject({ volts, of: z.enum(['to earth', 'across the animal']), label: z.string() }),
  holds: z.boolean(),
  sentence: z.string(),
  conditions: z.array(condition),
  counts: z.strictObject({
    posts: tally,
    lineInsulators: tally,
    endInsulators: tally,
    wireM: tally,
    hotStrandM: metres,
    groundedStrandM: metres,
    runM: metres,
  }),
  warnings: z.array(issue),
  cautions: z.array(z.strictObject({ id, text: z.string(), source: z.string() })),
});
