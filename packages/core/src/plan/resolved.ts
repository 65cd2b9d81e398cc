import {
  animalRowSchema,
  estimateSchema,
  faultRowSchema,
  filmRowSchema,
  groundCoverRowSchema,
  growthWetnessSchema,
  insulatorRowSchema,
  insulatorStates,
  jointRowSchema,
  loadVoltsSchema,
  postRowSchema,
  soilRowSchema,
  soilStates,
  vegetationRowSchema,
  wetnesses,
  wireRowSchema,
} from '@postvolt/tables';
import { z } from 'zod';
import { calibrationSchema } from './calibration.js';

/** Longest run, in posts, that a plan may hold; keeps a slip of the pen from filling the memory. */
export const mostPosts = 2_000_000;

const id = z.string().min(1);
const metres = z.number().finite().nonnegative();
/** As long as quantities of length may be in a plan. */
const farM = 1e6;
const rodM = { lengthM: z.number().positive().max(30), diameterM: z.number().positive().max(0.2) };
const state = z.enum(insulatorStates);
const wetness = z.enum(wetnesses);
const position = z.tuple([z.number().min(-180).max(180), z.number().min(-90).max(90)]);

/** Growth along a strand: a row of the vegetation table and the height of its top. */
const growth = z.strictObject({ vegetation: id, heightM: metres.max(10) });

const ground = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('rods'),
    count: z.number().int().positive().max(500),
    ...rodM,
    spacingM: z.number().positive().max(1000),
    layout: z.enum(['line', 'ring']),
  }),
  z.strictObject({
    kind: z.literal('measured'),
    ohms: estimateSchema,
    /** State of the soil when it was measured: the value then follows the soil; null keeps it in every condition. */
    measuredIn: z.enum(soilStates).nullable(),
  }),
]);

const cable = z.strictObject({ wire: id, lengthM: metres.max(20_000) });

const energizer = z.strictObject({
  id,
  junction: id,
  /** Row of the energizer table, or null where the output was entered. */
  row: id.nullable(),
  /** Open circuit first, then falling test loads. */
  loads: z.array(loadVoltsSchema).min(2),
  /** Joules into 500 ohms, width of the pulse and pulses a second, where entered; checked against IEC 60335-2-76. */
  joules: z.number().positive().nullable(),
  pulseWidthS: z.number().positive().nullable(),
  pulsesPerSecond: z.number().positive().nullable(),
  /** Factor on the volts by condition id; 1 where a condition is not named. */
  derating: z.record(z.string(), z.number().positive().max(1)),
  /** Fence terminal to the junction; null where the energizer hangs on the fence. */
  leadOut: cable.nullable(),
  /** Ground terminal to the grounded strands at the junction; null joins them directly. */
  groundLead: cable.nullable(),
  ground,
});

const strand = z.strictObject({
  id,
  heightM: metres,
  wire: id,
  role: z.enum(['hot', 'grounded']),
  insulator: id,
  insulatorState: state,
  /** Insulators side by side on each line post; their leaks add. */
  insulatorsPerPost: z.number().int().positive().max(20),
  endInsulator: id,
  endInsulatorState: state,
  endInsulatorsPerPost: z.number().int().positive().max(20),
});

const build = z.strictObject({
  id,
  post: id,
  strands: z.array(strand).min(1).max(12),
  /** At which ends of a run all hot strands are tied to each other; at an untied end only the first hot strand goes on. */
  ties: z.enum(['both', 'from', 'to', 'none']),
});

const run = z.strictObject({
  id,
  name: z.string(),
  from: id,
  to: id,
  lengthM: z.number().positive().max(farM),
  /** [longitude, latitude] of the line's corners, from `from` to `to`; null where only the length is known. */
  line: z.array(position).min(2).nullable(),
  /** Equal spans no longer than this, or the place of every post measured from `from` (first 0, last the length). */
  posts: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('equal'), spacingM: z.number().positive() }),
    z.strictObject({ kind: z.literal('at'), positionsM: z.array(metres).min(2) }),
  ]),
  build: id,
});

const junction = z.strictObject({
  id,
  name: z.string(),
  at: position.nullable(),
  /** True where the first two runs listed there are one fence passing by on line insulators. */
  through: z.boolean(),
  /** Row of the posts table; null takes the first run's. */
  post: id.nullable(),
});

/** What a stretch changes; null leaves as it is. */
const overrides = z.strictObject({
  post: id.nullable(),
  soil: id.nullable(),
  wire: id.nullable(),
  insulator: id.nullable(),
  insulatorState: state.nullable(),
  /** Part of the posts whose insulators are fouled, spread evenly: every tenth post at 0.1. */
  fouledFraction: z.number().min(0).max(1).nullable(),
  growth: growth.nullable(),
  growthWetness: wetness.nullable(),
  /** Measured or known leak per metre of strand in place of the vegetation table's. */
  leakSiemensPerMetre: estimateSchema.nullable(),
  postWetness: wetness.nullable(),
});

const stretch = z.strictObject({
  id,
  run: id,
  fromM: metres,
  /** Posts before this place belong to the stretch; null reaches to the run's end and takes its last post in. */
  toM: metres.nullable(),
  /** Strand ids; null for all. */
  strands: z.array(id).nullable(),
  /** Condition ids; null for all. */
  conditions: z.array(id).nullable(),
  set: overrides,
});

const place = { run: id, post: z.number().int().nonnegative() };

const fault = z.strictObject({
  id,
  /** Row of the faults table. */
  kind: id,
  ...place,
  /** `at` the post, or on the span from it to the next post. */
  on: z.enum(['post', 'span']),
  strand: id,
  /** The strand touched, for two strands together. */
  otherStrand: id.nullable(),
  /** Of the path that the fault makes or adds; null takes the table's, or the animal's or state's own. */
  ohms: estimateSchema.nullable(),
  /** For a spark gap, the volts that make it fire; null takes the table's. */
  gapVolts: estimateSchema.nullable(),
  conditions: z.array(id).nullable(),
});

const jumper = z.strictObject({ id, ...place, strands: z.array(id).min(2), joint: id });
/** Opens every hot strand of the run on the span from `post` to the next. */
const switchSchema = z.strictObject({ id, ...place, joint: id, openIn: z.array(id) });
/** A gate on the span from `post` to the next: on both sides the strands are tied with `joint`, and one cable goes under. */
const gate = z.strictObject({ id, ...place, cable, joint: id, carriesGrounded: z.boolean() });
/** A cable from junction to junction. */
const link = z.strictObject({ id, from: id, to: id, role: z.enum(['hot', 'grounded']), cable });
/** Rods of a grounded strand along the way: one at each post listed. */
const strandRods = z.strictObject({
  id,
  run: id,
  strand: id,
  posts: z.array(z.number().int().nonnegative()).min(1),
  ...rodM,
});

const condition = z.strictObject({
  id,
  name: z.string(),
  soil: z.enum(soilStates),
  /** Wetness of the film on insulators, of posts and of growth. */
  film: wetness,
  post: wetness,
  growthWetness: wetness,
  growth,
  groundCover: id,
  temperatureC: z.number().min(-60).max(60),
});

/** What each month brings, January first: one condition or more, of which the worst counts. */
const calendar = z.strictObject({
  /** Row of the climates that the months were taken from; null where none was. */
  climate: id.nullable(),
  months: z.array(z.array(condition).min(1)).length(12),
});

const rates = z.record(z.string(), estimateSchema);

/** The user's own prices, by row of the tables or by kind as the table of prices names it; `money` or `money/m`. */
const prices = z.strictObject({
  /** Word that stands behind amounts. */
  currency: z.string().min(1),
  wires: rates,
  posts: rates,
  insulators: rates,
  energizers: rates,
  parts: rates,
  labourPerHour: estimateSchema.nullable(),
  /** Hours of work, by row of the work rates; `h` or `h/m`. */
  hours: rates,
});

/** The rows that the plan names, as resolved: standard, extended, or changed in place by the plan. */
const rows = z.strictObject({
  wires: z.record(z.string(), wireRowSchema),
  insulators: z.record(z.string(), insulatorRowSchema),
  films: z.record(z.string(), filmRowSchema),
  posts: z.record(z.string(), postRowSchema),
  soils: z.record(z.string(), soilRowSchema),
  groundCovers: z.record(z.string(), groundCoverRowSchema),
  vegetation: z.record(z.string(), vegetationRowSchema),
  growthWetness: growthWetnessSchema,
  animals: z.record(z.string(), animalRowSchema),
  joints: z.record(z.string(), jointRowSchema),
  faults: z.record(z.string(), faultRowSchema),
});

/** The plan with every default filled in, every name looked up and every quantity in SI: an input of its own. */
export const resolvedPlanSchema = z.strictObject({
  format: z.literal('postvolt resolved plan'),
  formatVersion: z.literal(1),
  title: z.string(),
  /** Units of printed results; every number here is SI whatever this says. */
  units: z.enum(['imperial', 'metric']),
  /** Frequency that stands for the pulse in the wire's resistance. */
  pulseHz: z.number().min(1).max(1e6),
  target: z.strictObject({
    volts: z.number().positive().max(50_000),
    /** Compared with volts to earth, or with the volts across the animal touching there. */
    of: z.enum(['to earth', 'across the animal']),
    /** Words for the target, such as `cattle`. */
    label: z.string(),
  }),
  /** Row of the animals table: the one that touches. */
  animal: id,
  /** What the fence comes near; brings up the cautions for it. */
  near: z.array(z.enum(['overhead line', 'buildings', 'public way', 'barbed wire'])),
  soil: id,
  energizer,
  junctions: z.array(junction).min(1),
  runs: z.array(run).min(1),
  builds: z.array(build).min(1),
  jumpers: z.array(jumper),
  switches: z.array(switchSchema),
  gates: z.array(gate),
  links: z.array(link),
  strandRods: z.array(strandRods),
  stretches: z.array(stretch),
  faults: z.array(fault),
  conditions: z.array(condition).min(1),
  /** The farm's year; null where the plan does not say. */
  months: calendar.nullable(),
  /** Own prices and rates of work; null where the plan has none. */
  prices: prices.nullable(),
  /** What a fence meter's readings have told of the tables; null where nothing was fitted. */
  calibration: calibrationSchema.nullable(),
  rows,
});

/** A plan with nothing left to look up; SI. */
export type ResolvedPlan = z.infer<typeof resolvedPlanSchema>;
/** The table rows that a resolved plan stands on, by id. */
export type ResolvedRows = ResolvedPlan['rows'];
/** The energizer, its leads and its ground. */
export type ResolvedEnergizer = ResolvedPlan['energizer'];
/** One run from junction to junction. */
export type ResolvedRun = ResolvedPlan['runs'][number];
/** How runs are built: post and strands. */
export type ResolvedBuild = ResolvedPlan['builds'][number];
/** One wire of a build. */
export type ResolvedStrand = ResolvedBuild['strands'][number];
/** A named post where runs meet. */
export type ResolvedJunction = ResolvedPlan['junctions'][number];
/** A part of a run where something else holds. */
export type ResolvedStretch = ResolvedPlan['stretches'][number];
/** A single fault at a post or on a span. */
export type ResolvedFault = ResolvedPlan['faults'][number];
/** What each month brings. */
export type ResolvedCalendar = z.infer<typeof calendar>;
/** Own prices and rates of work. */
export type ResolvedPrices = z.infer<typeof prices>;
/** Weather, season and growth. */
export type ResolvedCondition = ResolvedPlan['conditions'][number];
