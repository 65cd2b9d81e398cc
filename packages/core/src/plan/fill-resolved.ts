import { priceGroups, pulseFrequencyHz, type Tables } from '@postvolt/tables';
import type { Issue } from '../issue.js';
import { defaults } from './defaults.js';
import { enteredSure } from './entered.js';
import { lineM } from './geodesic.js';
import { lookUpRow } from './row-index.js';

type Path = Issue['path'];
type Loose = Record<string, unknown>;

const isMap = (value: unknown): value is Loose => typeof value === 'object' && value !== null && !Array.isArray(value);
const textOf = (value: unknown): string => (typeof value === 'string' ? value : '');

/** Items of a list that are maps, changed by `fill`; anything else is left for the schema to refuse. */
const eachOf = (value: unknown, fill: (item: Loose, index: number) => Loose): unknown =>
  Array.isArray(value) ? value.map((item: unknown, i) => (isMap(item) ? fill(item, i) : item)) : value;

/** A bare SI number as a value that was entered there. */
const cell = (value: unknown, unit: string, path: Path): unknown =>
  typeof value === 'number' ? enteredSure(value, unit, path) : value;

const nulls = (...keys: string[]): Loose => Object.fromEntries(keys.map((key) => [key, null]));

/** A resolved plan with what an importer may leave out filled in; rows are not. Wrong kinds of value pass through. */
export function fillResolved(input: unknown, tables: Tables): unknown {
  if (!isMap(input)) return input;
  const joint = { joint: defaults.jumper };
  const named = (item: Loose) => (typeof item['id'] === 'string' ? { name: item['id'] } : {});
  const filled: Loose = {
    title: defaults.title,
    units: 'metric',
    pulseHz: pulseFrequencyHz,
    near: [],
    ...Object.fromEntries(
      ['jumpers', 'switches', 'gates', 'links', 'strandRods', 'stretches', 'faults'].map((key) => [key, []]),
    ),
    conditions: [{ id: defaults.condition }],
    months: null,
    prices: null,
    calibration: null,
    rows: {},
    ...input,
  };
  filled['animal'] ??= defaults.animal;
  filled['target'] = fillTarget(filled, tables);
  filled['energizer'] = fillEnergizer(filled['energizer'], tables);
  filled['junctions'] = eachOf(filled['junctions'], (item) => ({
    ...named(item),
    at: null,
    through: false,
    post: null,
    ...item,
  }));
  filled['runs'] = eachOf(filled['runs'], (item) => fillRun({ ...named(item), line: null, ...item }));
  filled['builds'] = eachOf(filled['builds'], (item) => ({
    ties: 'both',
    ...item,
    strands: eachOf(item['strands'], fillStrand),
  }));
  filled['jumpers'] = eachOf(filled['jumpers'], (item) => ({ ...joint, ...item }));
  filled['gates'] = eachOf(filled['gates'], (item) => ({ ...joint, carriesGrounded: true, ...item }));
  filled['switches'] = eachOf(filled['switches'], (item) => ({ joint: defaults.switch, openIn: [], ...item }));
  filled['links'] = eachOf(filled['links'], (item) => ({ role: 'hot', ...item }));
  filled['strandRods'] = eachOf(filled['strandRods'], (item) => ({
    lengthM: defaults.rodLengthM,
    diameterM: defaults.rodDiameterM,
    ...item,
  }));
  filled['stretches'] = eachOf(filled['stretches'], fillStretch);
  filled['faults'] = eachOf(filled['faults'], (item, i) => ({
    on: 'post',
    ...nulls('otherStrand', 'conditions'),
    ...item,
    ohms: cell(item['ohms'] ?? null, 'Ω', ['faults', i, 'ohms']),
    gapVolts: cell(item['gapVolts'] ?? null, 'V', ['faults', i, 'gapVolts']),
  }));
  filled['conditions'] = eachOf(filled['conditions'], fillCondition);
  if (isMap(filled['months'])) filled['months'] = { climate: null, ...filled['months'] };
  if (isMap(filled['prices'])) filled['prices'] = fillPrices(filled['prices']);
  return filled;
}

function fillPrices(prices: Loose): Loose {
  const none = Object.fromEntries([...priceGroups, 'hours'].map((group) => [group, {}]));
  return { currency: defaults.currency, labourPerHour: null, ...none, ...prices };
}

function fillTarget(plan: Loose, tables: Tables): unknown {
  const animal = lookUpRow(tables, 'animals', textOf(plan['animal']));
  const usual = animal === undefined ? {} : { volts: animal.targetVolts.typical };
  const target = plan['target'];
  if (target === undefined) return { of: 'to earth', label: plan['animal'], ...usual };
  return isMap(target)
    ? { of: 'to earth', label: target['volts'] === undefined ? plan['animal'] : 'this plan', ...usual, ...target }
    : target;
}

function fillEnergizer(input: unknown, tables: Tables): unknown {
  if (!isMap(input)) return input;
  const row = typeof input['row'] === 'string' ? lookUpRow(tables, 'energizers', input['row']) : undefined;
  const filled: Loose = {
    id: 'energizer',
    ...nulls('row', 'joules', 'pulseWidthS', 'pulsesPerSecond', 'leadOut', 'groundLead'),
    ...(row === undefined ? {} : { loads: row.loads }),
    derating: {},
    ...input,
  };
  filled['loads'] = eachOf(filled['loads'], (load, i) => ({
    ...load,
    volts: cell(load['volts'], 'V', ['energizer', 'loads', i, 'volts']),
  }));
  filled['ground'] = fillGround(filled['ground']);
  return filled;
}

function fillGround(input: unknown): unknown {
  if (!isMap(input)) return input;
  if (input['kind'] === 'measured') {
    return { measuredIn: null, ...input, ohms: cell(input['ohms'], 'Ω', ['energizer', 'ground', 'ohms']) };
  }
  if (input['kind'] !== 'rods') return input;
  const lengthM = input['lengthM'] ?? defaults.rodLengthM;
  return {
    count: defaults.rodCount,
    lengthM,
    diameterM: defaults.rodDiameterM,
    spacingM: lengthM,
    layout: 'line',
    ...input,
  };
}

function fillRun(run: Loose): Loose {
  const { line } = run;
  if (run['lengthM'] !== undefined || !Array.isArray(line)) return run;
  const isLine = line.every(
    (at: unknown) => Array.isArray(at) && at.length === 2 && at.every((x) => typeof x === 'number'),
  );
  return isLine ? { ...run, lengthM: lineM(line as [number, number][]) } : run;
}

const fillStrand = (strand: Loose): Loose => ({
  role: 'hot',
  insulatorState: 'new',
  insulatorsPerPost: 1,
  endInsulatorsPerPost: 1,
  endInsulatorState: strand['insulatorState'] ?? 'new',
  ...(strand['role'] === 'grounded'
    ? { insulator: defaults.groundedInsulator, endInsulator: strand['insulator'] ?? defaults.groundedInsulator }
    : { endInsulator: defaults.endInsulator }),
  ...strand,
});

function fillStretch(stretch: Loose, i: number): Loose {
  const set = isMap(stretch['set']) ? stretch['set'] : stretch['set'] === undefined ? {} : null;
  const unset = nulls(
    'post',
    'soil',
    'wire',
    'insulator',
    'insulatorState',
    'fouledFraction',
    'growth',
    'growthWetness',
    'postWetness',
  );
  const leak = (leaks: unknown) => cell(leaks ?? null, 'S/m', ['stretches', i, 'set', 'leakSiemensPerMetre']);
  return {
    fromM: 0,
    ...nulls('toM', 'strands', 'conditions'),
    ...stretch,
    ...(set === null ? {} : { set: { ...unset, ...set, leakSiemensPerMetre: leak(set['leakSiemensPerMetre']) } }),
  };
}

function fillCondition(condition: Loose): Loose {
  const wetness = condition['post'] ?? 'dry';
  return {
    name: condition['id'],
    soil: 'moist',
    film: wetness,
    post: wetness,
    growthWetness: wetness,
    growth: { vegetation: defaults.vegetation, heightM: 0 },
    groundCover: defaults.groundCover,
    temperatureC: defaults.temperatureC,
    ...condition,
  };
}
