import type { Tables } from '@postvolt/tables';
import type { Pacer } from '../../engine/pacer.js';
import { type OpenFence, openFence } from '../../fence/open-fence.js';
import { buildNetwork, elementSiemens, formulaValues } from '../../network/network.js';
import type { ResolvedCondition, ResolvedPlan } from '../../plan/resolved.js';
import { type Money, noMoney, PriceList, plus, times } from '../materials/price-list.js';
import { replacementCost, replacementYears } from '../materials/replacements.js';
import { ageAtEndOf, insulatorAge } from './ageing.js';
import { applyChanges, withState } from './apply-change.js';
import type { InsulatorChoice } from './insulator-choices.js';

/** One choice of insulators over the years. */
export interface InsulatorSeries {
  readonly name: string;
  /** Volts that the target compares at the weakest post, as built and at the end of each year, before what is then replaced. */
  readonly points: readonly { readonly year: number; readonly volts: number; readonly postId: string }[];
  /** Kinds of insulator in it: how many, how long they last, and the years in which they are replaced. */
  readonly kinds: readonly {
    readonly row: string;
    readonly count: number;
    readonly serviceYears: number;
    readonly replacedIn: readonly number[];
  }[];
  readonly leastVolts: number;
  readonly meanVolts: number;
  /** First year at whose end the target is not held; null where it is held throughout. */
  readonly fallsShortIn: number | null;
  /** Of the insulators alone: bought at first, and replaced with the work. */
  readonly cost: Money;
  readonly costPerYear: Money;
}

/** Insulators year by year in one condition. */
export interface InsulatorYears {
  readonly years: number;
  readonly condition: string;
  readonly series: readonly InsulatorSeries[];
}

/** An insulator of the network: its element and its row. */
interface Placed {
  readonly element: number;
  readonly row: string;
  readonly count: number;
  readonly isEnd: boolean;
}

/** Follows each choice of insulators through the years; three networks a choice, and one numeric pass a year. */
export async function insulatorYears(
  plan: ResolvedPlan,
  condition: ResolvedCondition,
  choices: readonly InsulatorChoice[],
  { years, tables, pause }: { readonly years: number; readonly tables: Tables; readonly pause: Pacer['step'] },
): Promise<InsulatorYears> {
  const series: InsulatorSeries[] = [];
  for (const [n, { name, changes }] of choices.entries()) {
    series.push(oneSeries(name, applyChanges(plan, changes, tables), condition, years));
    await pause((n + 1) / choices.length);
  }
  return { years, condition: condition.id, series };
}

function oneSeries(name: string, plan: ResolvedPlan, condition: ResolvedCondition, years: number): InsulatorSeries {
  const all = new Set(plan.runs.map(({ id }) => id));
  // Each with a layout of its own, since layouts carry the strands and their state.
  const at = (state: 'new' | 'aged' | 'cracked'): Float64Array => {
    const network = buildNetwork(withState(plan, state, all, true), condition);
    return elementSiemens(network, formulaValues(network));
  };
  const fence = openFence(withState(plan, 'new', all, true), condition);
  const siemens = { new: fence.siemens.slice(), aged: at('aged'), cracked: at('cracked') };
  const placed = hotInsulators(fence);
  const lifeOf = (row: string) => plan.rows.insulators[row]!.serviceYears.typical;
  const points: InsulatorSeries['points'][number][] = [];
  for (let year = 0; year <= years; year++) {
    const now = siemens.new.slice();
    const seen = new Map<string, number>();
    for (const { element, row } of placed) {
      const { state, cracked } = insulatorAge(ageAtEndOf(year, lifeOf(row)), lifeOf(row));
      const i = seen.get(row) ?? 0;
      seen.set(row, i + 1);
      // Cracked ones are spread evenly over all of their kind.
      const isCracked = Math.floor((i + 1) * cracked) > Math.floor(i * cracked);
      now[element] = siemens[isCracked ? 'cracked' : state][element]!;
    }
    fence.setAll(now);
    const { volts, postId } = fence.lowest();
    points.push({ year, volts, postId });
  }
  const volts = points.map((point) => point.volts);
  const short = points.find((point) => point.volts < plan.target.volts);
  const cost = costOf(plan, placed, years);
  return {
    name,
    points,
    kinds: kindsOf(plan, placed, years),
    leastVolts: Math.min(...volts),
    meanVolts: volts.reduce((sum, v) => sum + v, 0) / volts.length,
    fallsShortIn: short?.year ?? null,
    cost,
    costPerYear: times(cost, 1 / years),
  };
}

/** The insulators of the hot strands, by element. */
function hotInsulators({ network: { elements, layout, attachments } }: OpenFence): Placed[] {
  const placed: Placed[] = [];
  for (let e = 0; e < elements.count; e++) {
    if (elements.attachment[e]! < 0) continue;
    if (layout.runs[elements.run[e]!]!.strands[elements.strand[e]!]!.role !== 'hot') continue;
    const { row, count, atEnd } = attachments[elements.attachment[e]!]!;
    placed.push({ element: e, row, count, isEnd: atEnd });
  }
  return placed;
}

function tally(placed: readonly Placed[], key: (one: Placed) => string): Map<string, number> {
  const counts = new Map<string, number>();
  for (const one of placed) counts.set(key(one), (counts.get(key(one)) ?? 0) + one.count);
  return counts;
}

const kindsOf = (plan: ResolvedPlan, placed: readonly Placed[], years: number): InsulatorSeries['kinds'] =>
  [...tally(placed, ({ row }) => row)]
    .map(([row, count]) => {
      const serviceYears = plan.rows.insulators[row]!.serviceYears.typical;
      return { row, count, serviceYears, replacedIn: replacementYears(serviceYears, years) };
    })
    .sort((a, b) => b.count - a.count);

function costOf(plan: ResolvedPlan, placed: readonly Placed[], years: number): Money {
  const list = new PriceList(plan);
  let cost = noMoney;
  for (const isEnd of [false, true]) {
    const ofPlace = placed.filter((one) => one.isEnd === isEnd);
    for (const [row, count] of tally(ofPlace, (one) => one.row)) {
      const bought = times(list.insulator(row), count);
      const work = list.workMoney(isEnd ? 'replace end insulator' : 'replace insulator', count);
      cost = plus(
        cost,
        plus(bought, replacementCost(plus(bought, work), plan.rows.insulators[row]!.serviceYears, years)),
      );
    }
  }
  return cost;
}
