import type { SoilState, TableName } from '@postvolt/tables';
import { z } from 'zod';
import type { KindName } from '../quantity/kinds.js';
import type { Limits } from '../quantity/quantity.js';
import type { RangedValue } from '../quantity/ranged.js';
import { type RangedInput, type RangedNumberInput, ranged, rangedNumber } from './fields.js';

/** A cell of a table row that a plan can override, and how the plan writes it. */
export interface CellField {
  /** Keys from the row down to the cell. */
  readonly cell: readonly string[];
  readonly symbol: string;
  readonly about: string;
  readonly schema: z.ZodType<RangedValue, RangedInput | RangedNumberInput>;
}

const cell = (path: string, kind: KindName, symbol: string, about: string, limits: Limits = {}): CellField => ({
  cell: path.split('.'),
  symbol,
  about,
  schema: ranged(kind, limits),
});
const pure = (path: string, symbol: string, about: string, least: number, most: number): CellField => ({
  cell: path.split('.'),
  symbol,
  about,
  schema: rangedNumber(least, most),
});

const positive: Limits = { above: 0 };
const serviceLife = cell('serviceYears', 'years', 'year', 'Years before it is replaced, such as `20 years`.');

/** Fields named by a prefix or state and an ending, with those names kept in the type that a plan is written in. */
type Named<Start extends string, End extends string> = Readonly<Record<`${Start}${End}`, CellField>>;
const byWetness = <P extends string>(prefix: P, path: string, kind: KindName, symbol: string, what: string) =>
  ({
    [`${prefix}Dry`]: cell(`${path}.dry`, kind, symbol, `${what}, dry.`, positive),
    [`${prefix}Damp`]: cell(`${path}.damp`, kind, symbol, `${what}, damp.`, positive),
    [`${prefix}Wet`]: cell(`${path}.wet`, kind, symbol, `${what}, wet.`, positive),
  }) as Named<P, 'Dry' | 'Damp' | 'Wet'>;
const soilState = <S extends string>(state: S) =>
  ({
    [`${state}Topsoil`]: cell(
      `states.${state}.topsoilOhmM`,
      'resistivity',
      'Ω·m',
      `Of ${state} soil under hooves and steel posts.`,
      positive,
    ),
    [`${state}Deep`]: cell(
      `states.${state}.deepOhmM`,
      'resistivity',
      'Ω·m',
      `Of ${state} soil at the depth of the ground rods.`,
      positive,
    ),
  }) as Named<S, 'Topsoil' | 'Deep'>;

/** By table: the fields with which a plan overrides a row's values. */
export const rowFields = {
  wires: {
    diameter: cell('diameterM', 'length', 'm', 'Over all, coating included: `2.5 mm`, or a gauge such as `12.5 ga`.', {
      above: 0,
      most: 0.05,
      gauge: true,
    }),
    resistivity: cell('resistivityOhmM', 'resistivity', 'Ω·m', 'Of the core metal at 20 °C.', { above: 0, most: 1e-3 }),
    relativePermeability: pure('relativePermeability', '1', 'Of the core metal; 1 for aluminium.', 1, 1e4),
    temperatureCoefficient: pure('temperatureCoefficient', '1/K', 'Of the resistivity, per kelvin.', 0, 0.1),
    coatingThickness: cell('coating.thicknessM', 'length', 'm', 'Of the zinc or aluminium coating.', { most: 1e-3 }),
    resistance: cell(
      'ohmsPerMetre',
      'resistancePerLength',
      'Ω/m',
      'As measured; used as it is in place of metal, coating and pulse.',
      positive,
    ),
    insulation: cell('insulationVolts', 'voltage', 'V', 'Rating of a cable’s insulation.', positive),
    breakingLoad: cell('breakingLoadN', 'force', 'N', 'Breaking load.', positive),
    coil: cell('coilM', 'length', 'm', 'Length of a coil or reel.', positive),
    serviceLife,
  },
  insulators: {
    formFactor: pure('formFactor', '1', 'Form factor of the leakage path.', 1e-3, 1e3),
    weatheredFilmFactor: pure(
      'weatheredFilmFactor',
      '1',
      'Multiplies the film’s conductance once the insulator is no longer new.',
      0.1,
      1e3,
    ),
    crackedBody: cell('crackedBodyOhms', 'resistance', 'Ω', 'Through a cracked body.', positive),
    contact: cell('contactOhms', 'resistance', 'Ω', 'Of a bare metal attachment.', positive),
    serviceLife,
  },
  films: byWetness('leak', 'siemens', 'conductance', 'S', 'Layer conductance of the film'),
  posts: {
    ...byWetness('through', 'throughOhms', 'resistance', 'Ω', 'From the attachment to the ground line'),
    buried: cell('buriedM', 'length', 'm', 'Depth in the soil.', { above: 0, most: 5 }),
    contactRadius: cell('contactRadiusM', 'length', 'm', 'Radius of the rod with the same contact resistance.', {
      above: 0,
      most: 1,
    }),
    usualSpacing: cell('usualSpacingM', 'length', 'm', 'From post to post.', { above: 0, most: 1000 }),
    serviceLife,
  },
  soils: { ...soilState('dry'), ...soilState('moist'), ...soilState('wet'), ...soilState('frozen') },
  groundCovers: { hoof: cell('hoofOhms', 'resistance', 'Ω', 'Added under the animal’s hooves.') },
  vegetation: {
    leakWhenWet: cell('wetSiemensPerMetre', 'conductancePerLength', 'S/m', 'Leak per length of strand when wet.'),
    usualHeight: cell('usualHeightM', 'length', 'm', 'Height of its top where a plan gives none.', { most: 10 }),
  },
  animals: {
    targetVoltage: cell('targetVolts', 'voltage', 'V', 'Volts to earth that hold this animal.', positive),
    body: cell('bodyOhms', 'resistance', 'Ω', 'Of the body.', positive),
    hide: cell('hideOhms', 'resistance', 'Ω', 'Of hide, wool and nose, on top of the body.'),
    feet: pure('feetOhmsPerOhmM', '1/m', 'Ohms of the four feet per ohm-metre of topsoil.', 0.01, 100),
  },
  rods: {
    length: cell('lengthM', 'length', 'm', 'Driven length.', { above: 0, most: 30 }),
    diameter: cell('diameterM', 'length', 'm', 'Diameter.', { above: 0, most: 0.2, gauge: true }),
    serviceLife,
  },
  joints: { resistance: cell('ohms', 'resistance', 'Ω', 'In series with the wire.') },
  faults: { resistance: cell('ohms', 'resistance', 'Ω', 'Of the path that it makes or adds.') },
} as const satisfies Partial<Record<TableName, Readonly<Record<string, CellField>>>>;

/** Tables whose rows a plan can override. */
export type EditableTable = keyof typeof rowFields;

/** Values that override a row's, by field. */
export type RowChanges = Readonly<Record<string, RangedValue | undefined>>;
type ChangesInput<T extends EditableTable> = {
  [K in keyof (typeof rowFields)[T]]?: RangedInput | RangedNumberInput | undefined;
} & (T extends 'soils' ? MeasuredSoil : unknown);
/** What a soil takes beside its cells: one measured value, from which the others follow. */
export interface MeasuredSoil {
  resistivity?: RangedInput | undefined;
  measuredIn?: SoilState | undefined;
}

const changesShape = (table: EditableTable): Record<string, z.ZodType> =>
  Object.fromEntries(
    Object.entries<CellField>(rowFields[table]).map(([key, field]) => [
      key,
      field.schema.describe(field.about).optional(),
    ]),
  );

const soilShape = {
  resistivity: ranged('resistivity', positive)
    .describe('Measured resistivity at rod depth; the row’s other states and its topsoil follow in proportion.')
    .optional(),
  measuredIn: z
    .enum(['dry', 'moist', 'wet', 'frozen'])
    .default('moist')
    .describe('State of the soil when it was measured.')
    .optional(),
};

/** A row changed in place. */
export type RowEdit = { readonly like: string } & Readonly<Record<string, unknown>>;

const like = z.string().min(1).describe('Name of the table row that this one starts from.');

/** A row's name, or `{like: <row>, <field>: <value>}` to override some of its values in place. */
export function rowName<T extends EditableTable>(
  table: T,
): z.ZodType<string | RowEdit, string | ({ like: string } & ChangesInput<T>)> {
  const shape = { like, ...changesShape(table), ...(table === 'soils' ? soilShape : {}) };
  return z.union([z.string().min(1), z.strictObject(shape)]) as unknown as ReturnType<typeof rowName<T>>;
}

const tableEntry = (table: EditableTable) =>
  z.strictObject({
    like: like.optional().describe('Row that this one starts from; left out, it corrects the row of its own name.'),
    about: z.string().max(500).describe('One sentence for a person.').optional(),
    ...(table === 'soils' ? soilShape : {}),
    ...changesShape(table),
  });

type OwnRows<T extends EditableTable> = z.ZodType<
  Readonly<Record<string, Partial<RowEdit>>>,
  Record<string, { like?: string; about?: string } & ChangesInput<T>>
>;

/** The user's own rows, and corrections to standard ones, by table and name. */
export const ownTables = z.strictObject(
  Object.fromEntries(
    (Object.keys(rowFields) as EditableTable[]).map((table) => [
      table,
      z.record(z.string().min(1).max(80), tableEntry(table)).describe(`Own or corrected rows of ${table}.`).optional(),
    ]),
  ) as unknown as { [T in EditableTable]: z.ZodOptional<OwnRows<T>> },
);
