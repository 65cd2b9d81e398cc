import type { ResolvedPlan } from '../../plan/resolved.js';
import { formatLength } from '../../quantity/format.js';
import { type Money, noMoney, type PriceList, plus, times } from '../materials/price-list.js';
import type { Candidate } from './candidates.js';
import type { UpkeepAction } from './result.js';

type Priced = Omit<UpkeepAction, 'wonVolts' | 'voltsPerHour' | 'voltsPerMoney'>;

/** Hours, money and words of something that can be done. */
export function priceAction(candidate: Candidate, plan: ResolvedPlan, list: PriceList): Priced {
  const { id, kind, run, section, amount, distanceM } = candidate;
  const work = workOf(candidate, plan);
  const { low, typical, high } = list.hours(work);
  const hours = times({ low, typical, high }, amount);
  return {
    id,
    kind,
    text: wordsOf(candidate, plan),
    run,
    fromM: section?.fromM ?? null,
    toM: section?.toM ?? null,
    distanceM: Number.isFinite(distanceM) ? distanceM : null,
    hours,
    money: plus(list.workMoney(work, amount), materialsOf(candidate, plan, list)),
  };
}

function workOf({ kind, isEnd, row }: Candidate, plan: ResolvedPlan): string {
  switch (kind) {
    case 'replace insulators':
    case 'better insulators':
      return isEnd ? 'replace end insulator' : 'replace insulator';
    case 'clear growth':
    case 'add rod':
    case 'remake joint':
      return kind;
    case 'mend fault': {
      if (row === 'branch on wire') return 'clear branch';
      const { path } = plan.rows.faults[row]!;
      if (path === 'series') return 'mend wire';
      return path === 'insulator' || path === 'spark gap' ? 'replace insulator' : 'lift wire';
    }
  }
}

function materialsOf({ kind, row, amount }: Candidate, plan: ResolvedPlan, list: PriceList): Money {
  switch (kind) {
    case 'replace insulators':
    case 'better insulators':
      return times(list.insulator(row), amount);
    case 'add rod': {
      const { ground } = plan.energizer;
      const lengthM = ground.kind === 'rods' ? ground.lengthM : 0;
      return plus(times(list.part('ground rod'), lengthM), list.part('rod clamp'));
    }
    case 'remake joint':
      return times(list.part('line clamp'), 1);
    default:
      return noMoney;
  }
}

function wordsOf({ kind, row, run, about, amount, isEnd }: Candidate, plan: ResolvedPlan): string {
  const ends = isEnd ? ' at ends' : '';
  const insulators = amount === 1 ? 'insulator' : 'insulators';
  switch (kind) {
    case 'mend fault':
      return `mend ${row} ${about}`;
    case 'replace insulators': {
      const [state, where] = about.split('|');
      return `replace ${amount} ${state} ${row} ${insulators}${ends} on ${run}${where}`;
    }
    case 'better insulators':
      return `put ${amount} ${row} ${insulators}${ends} on ${run}${about}`;
    case 'clear growth':
      return `clear ${formatLength(amount, plan.units)} of growth on ${run}${about}`;
    case 'add rod':
      return `add a ground rod, number ${about}`;
    case 'remake joint':
      return `remake ${row} of ${about}`;
  }
}
