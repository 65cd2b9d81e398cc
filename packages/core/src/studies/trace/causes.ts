import { type FaultRow, standardTables } from '@postvolt/tables';
import { Conductances } from '../../network/conductances.js';
import { type Formula, FormulaList, formulaRange } from '../../network/formulas.js';
import { hangingOf } from '../../network/hanging.js';
import { LocalConditions } from '../../network/local-conditions.js';
import type { FenceNetwork } from '../../network/network.js';
import type { Hypothesis } from './score-faults.js';

/** A row of the faults table that fits what the readings say of the fault's size. */
export interface FaultCause {
  /** Id in the faults table. */
  readonly cause: string;
  readonly about: string;
  /** Among the table's rows, given the fault, 0 to 1. */
  readonly chance: number;
}

/** Ends of a size that a row may make at a place, ohms to earth, across, or in series. */
interface Range {
  readonly low: number;
  readonly high: number;
}

/** A row's own range is what would not surprise; twice as wide in the logarithm's tails is what is possible. */
const slack = 2;

/** Rows of the faults table by how well they explain the hypotheses' sizes, each row as likely as the next before that. */
export function likelyCauses(
  fence: FenceNetwork,
  hypotheses: readonly Hypothesis[],
  probability: Float64Array,
): FaultCause[] {
  const rows = standardTables.faults.map((row) => fence.plan.rows.faults[row.id] ?? row);
  const chances = new Float64Array(rows.length);
  const places = new Map<string, readonly (Range | null)[]>();
  hypotheses.forEach(({ candidate, size }, h) => {
    if (probability[h]! < 1e-4) return;
    const { kind, run, post, strand } = candidate;
    const key = kind === 'leak' ? `${run}|${post}|${strand}` : kind;
    let ranges = places.get(key);
    if (ranges === undefined) {
      ranges = rangesAt(fence, rows, candidate);
      places.set(key, ranges);
    }
    const fits = ranges.map((range) => (range === null ? 0 : density(range, size.ohms)));
    const total = fits.reduce((sum, fit) => sum + fit, 0);
    fits.forEach((fit, r) => {
      if (total > 0) chances[r]! += (probability[h]! * fit) / total;
    });
  });
  const known = chances.reduce((sum, chance) => sum + chance, 0);
  return rows
    .map(({ id, about }, r): FaultCause => ({ cause: id, about, chance: known > 0 ? chances[r]! / known : 0 }))
    .filter(({ chance }) => chance >= 0.02)
    .sort((a, b) => b.chance - a.chance);
}

/** Chance density of a size in the logarithm: even over the range, falling to a tenth outside it. */
function density({ low, high }: Range, ohms: number): number {
  if (low === Number.POSITIVE_INFINITY || ohms === Number.POSITIVE_INFINITY) return low === ohms ? 1 : 0;
  const width = Math.max(Math.log(high / low), 0.5);
  const inside = ohms >= low && ohms <= high;
  const near = ohms >= low / slack && ohms <= high * slack;
  return (inside ? 1 : near ? 0.3 : 0) / width;
}

function rangesAt(
  fence: FenceNetwork,
  rows: readonly FaultRow[],
  { kind, run: r, post: i, strand: s }: Hypothesis['candidate'],
): (Range | null)[] {
  if (kind === 'series') {
    const open = { low: Number.POSITIVE_INFINITY, high: Number.POSITIVE_INFINITY };
    return rows.map(({ path, ohms }) => (path !== 'series' ? null : (ohms ?? open)));
  }
  if (kind === 'contact') return rows.map(({ path, ohms }) => (path === 'strand to grounded' ? ohms : null));
  const { plan, condition, layout, formulas, parameters } = fence;
  const run = layout.runs[r]!;
  const local = new LocalConditions(plan, condition, run);
  const atM = run.positionsM[i]!;
  const list = new FormulaList();
  const conductances = new Conductances(plan, condition, list);
  const ohmsOf = (formula: Formula, of = list.parameters): Range => {
    const { low, high } = formulaRange(formula, of);
    return { low: 1 / high, high: 1 / low };
  };
  const { row: insulator, count } = local.insulator(s, i, hangingOf(layout)(r, i) === 'end');
  const post = conductances.post(local.post(atM), local.postWetness(atM), local.soil(atM));
  const body = ohmsOf(list.formulas[post]!);
  const throughPost = ({ low, high }: Range): Range => ({ low: low + body.low, high: high + body.high });
  return rows.map(({ path, ohms, insulatorState }) => {
    if (path === 'strand to earth') return ohms;
    if (path === 'animal') return ohmsOf(formulas[fence.animalToEarth[r]![i]!]!, [...parameters]);
    // A spark takes its threshold off the volts, so that it looks like more ohms than it has.
    if (path === 'strand to post' || path === 'spark gap') return ohms === null ? null : throughPost(ohms);
    if (path !== 'insulator' || insulatorState === null) return null;
    return throughPost(ohmsOf(list.formulas[conductances.insulator(insulator, insulatorState, count, run.run.id)]!));
  });
}
