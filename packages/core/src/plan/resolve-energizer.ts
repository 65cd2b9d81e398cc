import { frequencyOfPulse, pulseFrequencyHz } from '@postvolt/tables';
import type { Issue } from '../issue.js';
import { showFound } from '../quantity/fault.js';
import { readQuantity } from '../quantity/quantity.js';
import { defaults } from './defaults.js';
import { entered, enteredSure } from './entered.js';
import type { Reporter } from './reporter.js';
import type { ResolvedEnergizer } from './resolved.js';
import type { RowLookup } from './row-lookup.js';
import type { Plan } from './schema.js';

type Input = Plan['energizer'];
type Loads = ResolvedEnergizer['loads'];

/** The energizer of a plan. */
export function resolveEnergizer(input: Input, book: RowLookup, report: Reporter): ResolvedEnergizer {
  const path = ['energizer'];
  return {
    id: 'energizer',
    junction: input.at,
    ...resolveOutput(input, book, report),
    joules: input.joules ?? null,
    pulseWidthS: input.pulseWidth ?? null,
    pulsesPerSecond: input.pulseInterval === undefined ? null : 1 / input.pulseInterval,
    derating: resolveDerating(input.derating, report),
    leadOut: input.leadOut === undefined ? null : resolveCable(input.leadOut, [...path, 'leadOut'], book),
    groundLead: input.groundLead === undefined ? null : resolveCable(input.groundLead, [...path, 'groundLead'], book),
    ground: resolveGround(input, book, report),
  };
}

/** Frequency that stands for the pulse. */
export const pulseHzOf = (plan: Pick<Plan, 'pulseFrequency' | 'energizer'>): number =>
  plan.pulseFrequency ??
  (plan.energizer.pulseWidth === undefined ? pulseFrequencyHz : frequencyOfPulse(plan.energizer.pulseWidth));

/** A cable; where the plan names no wire it is the table's insulated one. */
export const resolveCable = (cable: NonNullable<Input['leadOut']>, path: Issue['path'], book: RowLookup) => ({
  wire: book.keep('wires', cable.wire ?? defaults.cable, [...path, 'wire']),
  lengthM: cable.length,
});

function resolveOutput(input: Input, book: RowLookup, report: Reporter): { row: string | null; loads: Loads } {
  const none = { row: null, loads: [] };
  if (input.class !== undefined && input.output !== undefined) {
    report.error('one-of', ['energizer', 'output'], 'both `class` and `output`', 'one of them');
    return none;
  }
  if (input.class !== undefined) {
    const row = book.find('energizers', input.class, ['energizer', 'class']);
    return row === null ? none : { row: row.id, loads: [...row.loads] };
  }
  if (input.output === undefined) {
    report.error(
      'missing-key',
      ['energizer', 'class'],
      'nothing',
      'a class such as `6 J`, or `output` with the volts at each load',
    );
    return none;
  }
  return { row: null, loads: resolveLoads(input.output, report) };
}

function resolveLoads(output: NonNullable<Input['output']>, report: Reporter): Loads {
  const loads: Loads = [];
  if (Object.keys(output).length < 2) {
    const found = `${Object.keys(output).length} of the loads`;
    report.error(
      'too-few-loads',
      ['energizer', 'output'],
      found,
      '`open` and one load or more, such as `500 ohm: 7.5 kV`',
    );
  }
  for (const [load, volts] of Object.entries(output)) {
    const path = ['energizer', 'output', load];
    const estimate = entered(volts, 'V', path);
    if (/^\s*open( circuit)?\s*$/i.test(load)) {
      loads.push({ ohms: null, volts: estimate });
      continue;
    }
    const ohms = readQuantity(load, 'resistance', { above: 0, most: 1e6 });
    if (ohms.ok) loads.push({ ohms: ohms.value, volts: estimate });
    else
      report.error(
        'bad-load',
        path,
        `the load ${showFound(load)}`,
        '`open`, or a resistance such as `500 ohm`',
        ohms.fault.hint,
      );
  }
  return loads.sort((a, b) => (b.ohms ?? Number.POSITIVE_INFINITY) - (a.ohms ?? Number.POSITIVE_INFINITY));
}

function resolveDerating(derating: Input['derating'], report: Reporter): Record<string, number> {
  for (const [condition, share] of Object.entries(derating)) {
    if (share === 0)
      report.error('out-of-range', ['energizer', 'derating', condition], '0', 'a share above 0 %, such as 80 %');
  }
  return { ...derating };
}

function resolveGround(input: Input, book: RowLookup, report: Reporter): ResolvedEnergizer['ground'] {
  const { groundRods, groundResistance } = input;
  if (groundRods !== undefined && groundResistance !== undefined) {
    report.error(
      'one-of',
      ['energizer', 'groundResistance'],
      'both `groundRods` and `groundResistance`',
      'one of them',
    );
  }
  if (groundResistance !== undefined) {
    const path = ['energizer', 'groundResistance'];
    if ('resistance' in groundResistance) {
      return {
        kind: 'measured',
        ohms: entered(groundResistance.resistance, 'Ω', [...path, 'resistance']),
        measuredIn: groundResistance.measuredIn ?? null,
      };
    }
    return { kind: 'measured', ohms: entered(groundResistance, 'Ω', path), measuredIn: null };
  }
  if (groundRods === undefined) {
    const expected = 'rods such as `{count: 3, length: 6 ft}`, or `groundResistance` with what was measured';
    report.error(
      'missing-key',
      ['energizer', 'groundRods'],
      'nothing',
      expected,
      'Without a ground no pulse comes back.',
    );
    return { kind: 'measured', ohms: enteredSure(1, 'Ω', ['energizer']), measuredIn: null };
  }
  const row =
    groundRods.rod === undefined ? null : book.find('rods', groundRods.rod, ['energizer', 'groundRods', 'rod']);
  const lengthM = groundRods.length ?? row?.lengthM.typical ?? defaults.rodLengthM;
  return {
    kind: 'rods',
    count: groundRods.count,
    lengthM,
    diameterM: groundRods.diameter ?? row?.diameterM.typical ?? defaults.rodDiameterM,
    spacingM: groundRods.spacing ?? lengthM,
    layout: groundRods.layout,
  };
}
