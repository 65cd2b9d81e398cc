import { type Estimate, standardTables } from '@postvolt/tables';
import type { Layout } from '../../network/layout.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import { isTied } from '../../plan/ties.js';
import { formatLength } from '../../quantity/format.js';
import { countPlan } from '../../result/counts.js';
import type { Counts } from '../../result/result.js';
import { type Money, PriceList, plus, times } from './price-list.js';
import { pullsOf } from './pulls.js';
import { replacementCost, replacementYears } from './replacements.js';
import type { MaterialGroup, MaterialLine } from './result.js';

/** A strand is strained at least every quarter mile, and a sign hangs every hundred metres [common practice, no source]. */
const pullM = 402.336;
const signM = 100;

/** An energizer that is no class of the table lasts as long as those that are. */
const energizerYears = standardTables.energizers[0]!.serviceYears;

interface Item {
  readonly group: MaterialGroup;
  readonly item: string;
  readonly need: number;
  readonly per: MaterialLine['per'];
  readonly price: Estimate | null;
  readonly serviceYears: Estimate;
  /** Row of the work rates for a replacement; null where it comes with something else's. */
  readonly work: string | null;
  readonly coilM?: number | null;
  readonly note?: string;
}

/** What a plan takes, line by line, with the replacements of so many years; `waste` is a part of the wire. */
export function materialLines(
  plan: ResolvedPlan,
  layout: Layout,
  { years, waste }: { readonly years: number; readonly waste: number },
): MaterialLine[] {
  const list = new PriceList(plan);
  return items(plan, layout, list)
    .filter(({ need }) => need > 0)
    .map((item) => lineOf(item, list, years, waste));
}

const span = ({ low, typical, high }: Estimate): Money => ({ low, typical, high });

function lineOf(item: Item, list: PriceList, years: number, waste: number): MaterialLine {
  const { group, need, per, price, coilM = null, note = '' } = item;
  const wanted = per === 'metre' && group === 'wire' ? need * (1 + waste) : need;
  // A hair of rounding must not open a new coil.
  const coils = coilM === null ? null : { count: Math.ceil(wanted / coilM - 1e-9), coilM };
  const buy = coils === null ? wanted : coils.count * coils.coilM;
  const money = price === null ? { low: 0, typical: 0, high: 0 } : span(price);
  const cost = times(money, buy);
  const serviceYears = span(item.serviceYears);
  const work = item.work === null ? { low: 0, typical: 0, high: 0 } : list.workMoney(item.work, need);
  return {
    group,
    item: item.item,
    need,
    per,
    buy,
    coils,
    price: price === null ? null : { ...money, basis: price.basis, source: price.source },
    cost,
    serviceYears,
    replacedIn: replacementYears(serviceYears.typical, years),
    replacementCost: replacementCost(plus(cost, work), serviceYears, years),
    note,
  };
}

function items(plan: ResolvedPlan, layout: Layout, list: PriceList): Item[] {
  const counts = countPlan(plan, layout);
  const { assemblies, pulls } = pullsOf(plan, layout);
  return [
    ...wireItems(plan, counts, list),
    ...postItems(plan, counts, assemblies, list),
    ...insulatorItems(plan, counts, list),
    ...assemblyItems(plan, assemblies, list),
    ...fittingItems(plan, layout, pulls, counts, list),
    ...groundItems(plan, list),
    ...energizerItems(plan, list),
  ];
}

const wireItems = (plan: ResolvedPlan, { wireM }: Counts, list: PriceList): Item[] =>
  Object.entries(wireM).map(([item, need]) => {
    const row = plan.rows.wires[item]!;
    return {
      group: 'wire',
      item,
      need,
      per: 'metre',
      price: list.wire(item),
      serviceYears: row.serviceYears,
      work: row.kind === 'cable' ? null : 'string wire',
      coilM: row.coilM?.typical ?? null,
    };
  });

/** Line posts: those that an end or corner assembly stands for are not bought twice. */
function postItems(
  plan: ResolvedPlan,
  { posts }: Counts,
  assemblies: readonly { readonly post: string }[],
  list: PriceList,
): Item[] {
  const held = new Map<string, number>();
  for (const { post } of assemblies) held.set(post, (held.get(post) ?? 0) + 1);
  return Object.entries(posts).map(([item, count]) => ({
    group: 'posts',
    item,
    need: count - (held.get(item) ?? 0),
    per: 'piece',
    price: list.post(item),
    serviceYears: plan.rows.posts[item]!.serviceYears,
    work: 'set post',
  }));
}

function insulatorItems(plan: ResolvedPlan, { lineInsulators, endInsulators }: Counts, list: PriceList): Item[] {
  const of = (tally: Counts['lineInsulators'], work: string, note: string) =>
    Object.entries(tally).map(
      ([item, need]): Item => ({
        group: 'insulators',
        item,
        need,
        per: 'piece',
        price: list.insulator(item),
        serviceYears: plan.rows.insulators[item]!.serviceYears,
        work: plan.rows.insulators[item]!.material === 'metal' ? null : work,
        note,
      }),
    );
  return [
    ...of(lineInsulators, 'replace insulator', 'on line posts'),
    ...of(endInsulators, 'replace end insulator', 'at ends and corners'),
  ];
}

function assemblyItems(
  plan: ResolvedPlan,
  assemblies: readonly { readonly kind: string; readonly topM: number }[],
  list: PriceList,
): Item[] {
  const tops = new Map<string, number[]>();
  for (const { kind, topM } of assemblies) tops.set(kind, [...(tops.get(kind) ?? []), topM]);
  return [...tops].map(([item, heights]) => ({
    group: 'ends and corners',
    item,
    need: heights.length,
    per: 'piece',
    price: list.part(item),
    serviceYears: list.partYears(item),
    work: 'build assembly',
    note:
      item === 'deep end post'
        ? `set ${formatLength(Math.max(...heights), plan.units)} deep under as high a top wire`
        : '',
  }));
}

function fittingItems(
  plan: ResolvedPlan,
  layout: Layout,
  pulls: ReturnType<typeof pullsOf>['pulls'],
  { runM }: Counts,
  list: PriceList,
): Item[] {
  let strainers = 0;
  let springs = 0;
  for (const { strand, lengthM } of pulls) {
    // Poly conductors are strained and tied by hand.
    if (plan.rows.wires[strand.wire]!.kind === 'poly') continue;
    const pieces = Math.ceil(lengthM / pullM - 1e-9);
    strainers += pieces;
    if (strand.role === 'hot') springs += pieces;
  }
  const signs = plan.near.includes('public way') ? Math.ceil(runM / signM) + plan.gates.length : 0;
  const part = (item: string, need: number, note = ''): Item => ({
    group: 'fittings',
    item,
    need,
    per: 'piece',
    price: list.part(item),
    serviceYears: list.partYears(item),
    work: 'fit part',
    note,
  });
  return [
    part('strainer', strainers),
    part('tension spring', springs),
    part('line clamp', lineClamps(plan, layout)),
    part('switch', plan.switches.length),
    part('warning sign', signs, signs > 0 ? 'as if the whole fence ran along the public way' : ''),
  ];
}

/** One clamp a strand at jumpers, ties and gates, and one at each end of every cable. */
function lineClamps(plan: ResolvedPlan, layout: Layout): number {
  let clamps = 2 * plan.links.length + (plan.energizer.leadOut === null ? 0 : 1);
  for (const { strands } of plan.jumpers) clamps += strands.length;
  for (const { build, strands } of layout.runs) {
    const hot = strands.filter(({ role }) => role === 'hot');
    if (hot.length < 2) continue;
    for (const end of ['from', 'to'] as const) if (isTied(build, hot[1]!, end)) clamps += hot.length;
  }
  for (const gate of plan.gates) {
    const { strands } = layout.runs[layout.runOf.get(gate.run)!]!;
    clamps += 2 * strands.filter(({ role }) => role === 'hot' || gate.carriesGrounded).length;
  }
  return clamps;
}

/** Rods by their length, and a clamp for each. */
function groundItems(plan: ResolvedPlan, list: PriceList): Item[] {
  const rods = new Map<number, number>();
  const add = (lengthM: number, count: number) => rods.set(lengthM, (rods.get(lengthM) ?? 0) + count);
  const { ground } = plan.energizer;
  if (ground.kind === 'rods') add(ground.lengthM, ground.count);
  for (const { lengthM, posts } of plan.strandRods) add(lengthM, posts.length);
  const perMetre = list.part('ground rod');
  const priceOf = (lengthM: number): Estimate => ({
    ...perMetre,
    low: perMetre.low * lengthM,
    typical: perMetre.typical * lengthM,
    high: perMetre.high * lengthM,
    unit: 'money',
  });
  const count = [...rods.values()].reduce((sum, n) => sum + n, 0);
  return [
    ...[...rods].map(
      ([lengthM, need]): Item => ({
        group: 'ground',
        item: `ground rod, ${formatLength(lengthM, plan.units)}`,
        need,
        per: 'piece',
        price: priceOf(lengthM),
        serviceYears: list.partYears('ground rod'),
        work: 'add rod',
      }),
    ),
    {
      group: 'ground',
      item: 'rod clamp',
      need: count,
      per: 'piece',
      price: list.part('rod clamp'),
      serviceYears: list.partYears('rod clamp'),
      work: 'fit part',
    },
  ];
}

function energizerItems(plan: ResolvedPlan, list: PriceList): Item[] {
  const { row } = plan.energizer;
  const price = list.energizer(row);
  return [
    {
      group: 'energizer',
      item: row === null ? 'energizer' : `energizer, ${row.replace(/ j$/, ' J')}`,
      need: 1,
      per: 'piece',
      price,
      serviceYears: energizerYears,
      work: 'fit part',
      note: price === null ? 'no price: its class is not known' : '',
    },
  ];
}
