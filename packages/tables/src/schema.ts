import { z } from 'zod';
import { estimateSchema } from './estimate.js';

/** Wetness of a surface: an insulator's film, wood, or grass. */
export const wetnesses = ['dry', 'damp', 'wet'] as const;
/** State of the soil; `frozen` also stands for frost under snow. */
export const soilStates = ['dry', 'moist', 'wet', 'frozen'] as const;
/** Age and dirt of an insulator. */
export const insulatorStates = ['new', 'aged', 'fouled', 'cracked', 'salt'] as const;

/** Wetness of a surface. */
export type Wetness = (typeof wetnesses)[number];
/** State of the soil. */
export type SoilState = (typeof soilStates)[number];
/** Age and dirt of an insulator. */
export type InsulatorState = (typeof insulatorStates)[number];

const row = z.strictObject({
  /** What a plan writes to name this row; lower case words, digits, points and spaces. */
  id: z.string().min(1),
  /** Other spellings that a plan may use. */
  aliases: z.array(z.string()),
  /** One plain sentence for a person. */
  about: z.string(),
});

const byWetness = z.strictObject({ dry: estimateSchema, damp: estimateSchema, wet: estimateSchema });

/** Metal over the core of a wire. */
export const coatingSchema = z.strictObject({
  metal: z.enum(['zinc', 'aluminium']),
  thicknessM: estimateSchema,
  resistivityOhmM: estimateSchema,
});

/** Conductors: fence wire, poly wire and insulated cable. */
export const wireRowSchema = row.extend({
  kind: z.enum(['steel', 'aluminium', 'poly', 'cable']),
  /** Over all, coating included; null for poly conductors, which are tabled by ohms per metre. */
  diameterM: estimateSchema.nullable(),
  /** Of the core metal at 20 °C; null for poly conductors. */
  resistivityOhmM: estimateSchema.nullable(),
  relativePermeability: estimateSchema.nullable(),
  /** Per kelvin, of resistivity. */
  temperatureCoefficient: estimateSchema.nullable(),
  coating: coatingSchema.nullable(),
  /** Direct entry; where it is not null it is used as it is (poly conductors, or a measured wire). */
  ohmsPerMetre: estimateSchema.nullable(),
  /** Insulation of lead-out and under-gate cable, volts; null for bare wire. */
  insulationVolts: estimateSchema.nullable(),
  breakingLoadN: estimateSchema.nullable(),
  /** Usual length of a coil or reel. */
  coilM: estimateSchema.nullable(),
  serviceYears: estimateSchema,
});

/** Insulators, and the bare staple of a grounded strand. */
export const insulatorRowSchema = row.extend({
  place: z.enum(['line', 'end', 'either']),
  material: z.enum(['dense plastic', 'cheap plastic', 'porcelain', 'glazed ceramic', 'fibreglass clip', 'metal']),
  /** Kinds of post (ids of the posts table) that it goes on; empty for any. */
  posts: z.array(z.string()),
  /** Form factor of the leakage path, integral of dl / (pi D), as the current really spreads. A pure number. */
  formFactor: estimateSchema,
  /** Multiplies the film's conductance once the insulator is no longer new: chalked, weathered surfaces hold more dirt. */
  weatheredFilmFactor: estimateSchema,
  /** Ohms through a cracked body, in parallel with the film; null where the body does not conduct even when cracked. */
  crackedBodyOhms: estimateSchema.nullable(),
  /** Ohms of a bare metal attachment; null for an insulator. */
  contactOhms: estimateSchema.nullable(),
  serviceYears: estimateSchema,
});

/** Layer conductance of the film on an insulator, siemens per square, by the state of the surface. */
export const filmRowSchema = row.extend({ id: z.enum(insulatorStates), siemens: byWetness });

/** Posts: through the post, and into the soil. */
export const postRowSchema = row.extend({
  kind: z.enum(['wood', 'steel', 'fibreglass', 'plastic', 'composite']),
  /** Ohms through the post from the attachment to the ground line, by wetness of the post. */
  throughOhms: byWetness,
  /** Depth in the soil, and the radius of the rod that has the same contact resistance. */
  buriedM: estimateSchema,
  contactRadiusM: estimateSchema,
  /** Id by which insulators know this post, where that is not its own: of the row that it was made from. */
  fitsAs: z.string().min(1).optional(),
  usualSpacingM: estimateSchema,
  serviceYears: estimateSchema,
});

const soilAt = z.strictObject({
  /** Under hooves and steel posts. */
  topsoilOhmM: estimateSchema,
  /** At the depth of the ground rods. */
  deepOhmM: estimateSchema,
});
/** Soils, by state, ohm-metres. */
export const soilRowSchema = row.extend({
  states: z.strictObject({ dry: soilAt, moist: soilAt, wet: soilAt, frozen: soilAt }),
});

/** What lies on the soil under an animal's hooves. */
export const groundCoverRowSchema = row.extend({ hoofOhms: estimateSchema });

/** Growth touching a strand: siemens per metre of strand when wet. */
export const vegetationRowSchema = row.extend({
  wetSiemensPerMetre: estimateSchema,
  /** Height of the top of the growth where the plan gives none. */
  usualHeightM: estimateSchema,
});
/** Conductance of growth relative to wet growth, by wetness. */
export const growthWetnessSchema = byWetness;

/** Animals: what holds them, and what they conduct. */
export const animalRowSchema = row.extend({
  targetVolts: estimateSchema,
  bodyOhms: estimateSchema,
  /** Hide, wool and nose on top of the body. */
  hideOhms: estimateSchema,
  /** Resistance of the four feet per ohm-metre of topsoil. */
  feetOhmsPerOhmM: estimateSchema,
});

/** Peak volts of an energizer at one test load. */
export const loadVoltsSchema = z.strictObject({
  /** Test load; null stands for open circuit. */
  ohms: z.number().positive().nullable(),
  volts: estimateSchema,
});
/** Generic energizer classes. */
export const energizerRowSchema = row.extend({
  /** The class's label only; nothing is computed from it. */
  joules: z.number().positive(),
  /** Open circuit first, then falling test loads. */
  loads: z.array(loadVoltsSchema).min(2),
  serviceYears: estimateSchema,
});

/** Ground rods. */
export const rodRowSchema = row.extend({
  lengthM: estimateSchema,
  diameterM: estimateSchema,
  serviceYears: estimateSchema,
});

/** Joints, jumpers, switches and splices, in series with the wire. */
export const jointRowSchema = row.extend({ ohms: estimateSchema });

/** What a single fault does, as ohms of the path that it makes (or adds, for a series fault). */
export const faultRowSchema = row.extend({
  path: z.enum([
    'strand to post',
    'insulator',
    'spark gap',
    'strand to earth',
    'strand to grounded',
    'series',
    'animal',
  ]),
  ohms: estimateSchema.nullable(),
  /** For the path `spark gap`, strand to post: volts across it that make it fire; null elsewhere. */
  gapVolts: estimateSchema.nullable(),
  /** For the path `insulator`: the state that the insulator is in; null elsewhere. */
  insulatorState: z.enum(insulatorStates).nullable(),
});

/** Cautions, and what in a plan calls for them. */
export const cautionRowSchema = row.extend({
  text: z.string(),
  source: z.string(),
  /** `always`, or the matter in a plan that calls for it. */
  when: z.enum([
    'always',
    'barbed wire',
    'overhead line',
    'buildings',
    'public way',
    'rods',
    'two energizers',
    'temporary',
  ]),
});

/** All tables; each list's ids are unique. */
export const tableSetSchema = z.strictObject({
  wires: z.array(wireRowSchema),
  insulators: z.array(insulatorRowSchema),
  films: z.array(filmRowSchema),
  posts: z.array(postRowSchema),
  soils: z.array(soilRowSchema),
  groundCovers: z.array(groundCoverRowSchema),
  vegetation: z.array(vegetationRowSchema),
  growthWetness: growthWetnessSchema,
  animals: z.array(animalRowSchema),
  energizers: z.array(energizerRowSchema),
  rods: z.array(rodRowSchema),
  joints: z.array(jointRowSchema),
  faults: z.array(faultRowSchema),
  cautions: z.array(cautionRowSchema),
});

/** A row of the table of wires. */
export type WireRow = z.infer<typeof wireRowSchema>;
/** A row of the table of insulators. */
export type InsulatorRow = z.infer<typeof insulatorRowSchema>;
/** A row of the table of films. */
export type FilmRow = z.infer<typeof filmRowSchema>;
/** A row of the table of posts. */
export type PostRow = z.infer<typeof postRowSchema>;
/** A row of the table of soils. */
export type SoilRow = z.infer<typeof soilRowSchema>;
/** A row of the table of ground covers. */
export type GroundCoverRow = z.infer<typeof groundCoverRowSchema>;
/** A row of the table of vegetation. */
export type VegetationRow = z.infer<typeof vegetationRowSchema>;
/** How growth conducts by its wetness, wet being 1. */
export type GrowthWetness = z.infer<typeof growthWetnessSchema>;
/** A row of the table of animals. */
export type AnimalRow = z.infer<typeof animalRowSchema>;
/** A row of the table of energizers. */
export type EnergizerRow = z.infer<typeof energizerRowSchema>;
/** A row of the table of rods. */
export type RodRow = z.infer<typeof rodRowSchema>;
/** A row of the table of joints. */
export type JointRow = z.infer<typeof jointRowSchema>;
/** A row of the table of faults. */
export type FaultRow = z.infer<typeof faultRowSchema>;
/** A row of the table of cautions. */
export type CautionRow = z.infer<typeof cautionRowSchema>;
/** All tables. */
export type TableSet = z.infer<typeof tableSetSchema>;
/** Names of the tables whose rows are looked up by id. */
export type TableName = Exclude<keyof TableSet, 'growthWetness'>;
