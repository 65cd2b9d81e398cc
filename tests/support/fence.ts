import type { ResolvedPlan } from '@postvolt/core';
import { type Estimate, findRow, standardTables } from '@postvolt/tables';

/** A value without a range, entered by a test. */
export const exact = (value: number, unit = '1'): Estimate => ({
  low: value,
  typical: value,
  high: value,
  unit,
  basis: 'entered',
  source: 'test',
  fromMemory: false,
});

type Strand = ResolvedPlan['builds'][number]['strands'][number];

export const strand = (id: string, changes: Partial<Strand> = {}): Strand => ({
  id,
  heightM: 0.9,
  wire: 'wire',
  role: 'hot',
  insulator: 'claw',
  insulatorState: 'new',
  insulatorsPerPost: 1,
  endInsulator: 'claw',
  endInsulatorState: 'new',
  endInsulatorsPerPost: 1,
  ...changes,
});

/** Carson's earth-return term at 5 kHz, ohms a metre, so that tests can choose a span's total. */
export const earthReturnAt5kHz = Math.PI ** 2 * 5000 * 1e-7;

export interface PlainValues {
  /** Of a metre of strand with the earth's part in it. */
  readonly ohmsPerMetre: number;
  readonly insulatorOhms: number;
  readonly postOhms: number;
  readonly groundOhms: number;
  readonly openVolts: number;
  readonly sourceOhms: number;
}

export const plainValues: PlainValues = {
  ohmsPerMetre: 10,
  insulatorOhms: 2000,
  postOhms: 1000,
  groundOhms: 50,
  openVolts: 6000,
  sourceOhms: 500,
};

/**
 * A resolved plan of plain numbers: every resistance is what `values` says, no growth, no soil. One run of 20 m with a
 * post every 10 m from junction a, where the energizer stands, to junction b.
 */
export function plainPlan(changes: Partial<ResolvedPlan> = {}, values: PlainValues = plainValues): ResolvedPlan {
  const wire = findRow(standardTables, 'wires', '12.5 ga high-tensile')!;
  const claw = findRow(standardTables, 'insulators', 'nail-on claw')!;
  const post = findRow(standardTables, 'posts', 'wood')!;
  const loam = findRow(standardTables, 'soils', 'loam')!;
  const still = exact(1e-12, 'Ω·m');
  const bare = { topsoilOhmM: still, deepOhmM: still };
  const film = exact(1 / values.insulatorOhms, 'S');
  const halfLoad = (values.openVolts * 500) / (500 + values.sourceOhms);
  return {
    format: 'postvolt resolved plan',
    formatVersion: 1,
    title: 'plain',
    units: 'metric',
    pulseHz: 5000,
    target: { volts: 3000, of: 'to earth', label: 'the target' },
    animal: 'cattle',
    near: [],
    soil: 'loam',
    energizer: {
      id: 'energizer',
      junction: 'a',
      row: null,
      loads: [
        { ohms: null, volts: exact(values.openVolts, 'V') },
        { ohms: 500, volts: exact(halfLoad, 'V') },
      ],
      joules: null,
      pulseWidthS: null,
      pulsesPerSecond: null,
      derating: {},
      leadOut: null,
      groundLead: null,
      ground: { kind: 'measured', ohms: exact(values.groundOhms, 'Ω'), measuredIn: null },
    },
    junctions: ['a', 'b'].map((id) => ({ id, name: id, at: null, through: false, post: null })),
    runs: [
      {
        id: 'north',
        name: 'north',
        from: 'a',
        to: 'b',
        lengthM: 20,
        line: null,
        posts: { kind: 'equal', spacingM: 10 },
        build: 'plain',
      },
    ],
    builds: [{ id: 'plain', post: 'post', strands: [strand('top')], ties: 'both' }],
    jumpers: [],
    switches: [],
    gates: [],
    links: [],
    strandRods: [],
    stretches: [],
    faults: [],
    conditions: [
      {
        id: 'usual',
        name: 'usual',
        soil: 'moist',
        film: 'damp',
        post: 'damp',
        growthWetness: 'wet',
        growth: { vegetation: 'none', heightM: 0 },
        groundCover: 'bare',
        temperatureC: 20,
      },
    ],
    months: null,
    prices: null,
    calibration: null,
    rows: {
      wires: { wire: { ...wire, id: 'wire', ohmsPerMetre: exact(values.ohmsPerMetre - earthReturnAt5kHz, 'Ω/m') } },
      insulators: { claw: { ...claw, id: 'claw', formFactor: exact(1), weatheredFilmFactor: exact(1) } },
      films: Object.fromEntries(
        standardTables.films.map((row) => [row.id, { ...row, siemens: { dry: film, damp: film, wet: film } }]),
      ),
      posts: {
        post: {
          ...post,
          id: 'post',
          throughOhms: {
            dry: exact(values.postOhms, 'Ω'),
            damp: exact(values.postOhms, 'Ω'),
            wet: exact(values.postOhms, 'Ω'),
          },
        },
      },
      soils: { loam: { ...loam, states: { dry: bare, moist: bare, wet: bare, frozen: bare } } },
      groundCovers: Object.fromEntries(standardTables.groundCovers.map((row) => [row.id, row])),
      vegetation: Object.fromEntries(standardTables.vegetation.map((row) => [row.id, row])),
      growthWetness: standardTables.growthWetness,
      animals: Object.fromEntries(standardTables.animals.map((row) => [row.id, row])),
      joints: Object.fromEntries(standardTables.joints.map((row) => [row.id, row])),
      faults: Object.fromEntries(standardTables.faults.map((row) => [row.id, row])),
    },
    ...changes,
  };
}
