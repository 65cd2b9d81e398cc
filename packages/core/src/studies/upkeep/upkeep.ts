import { standardTables, type Tables } from '@postvolt/tables';
import { Pacer, type TaskOptions } from '../../engine/pacer.js';
import { worstOf } from '../../fence/hot-posts.js';
import { openFence } from '../../fence/open-fence.js';
import { pickConditions } from '../../fence/pick-conditions.js';
import { layOut } from '../../network/layout.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import { checkNumber } from '../materials/materials.js';
import { PriceList } from '../materials/price-list.js';
import { type Candidate, RepairList } from './candidates.js';
import { mendedPlans } from './mended-plans.js';
import { priceAction } from './price-action.js';
import type { UpkeepAction, UpkeepResult, UpkeepStep } from './result.js';
import { type Standing, TrialFence } from './trial-fence.js';
import { upkeepSentence } from './words.js';

/** What to ask of `upkeep`. */
export interface UpkeepOptions extends TaskOptions {
  /** Ids of the conditions; all where left out. The weakest post is that of the worst of them. */
  readonly conditions?: readonly string[];
  /** Rank by volts won an hour of work, or by volts won for money (materials and work); an hour where left out. */
  readonly by?: 'hour' | 'money';
  /** Hours and money that the steps may take, by typical values; no limit where left out. */
  readonly mostHours?: number;
  readonly mostMoney?: number;
  /** Stop as soon as the target holds. */
  readonly untilHolds?: boolean;
  /** Steps at most, 1 to 100; 12 where left out. */
  readonly mostSteps?: number;
  /** A step must win at least so many volts; 10 where left out. */
  readonly leastWonVolts?: number;
  /** Where better insulators and good joints are looked up; the standard tables where left out. */
  readonly tables?: Tables;
}

interface Found {
  readonly standing: Standing;
  readonly condition: number;
}

/**
 * What to mend first: repairs and upkeep ranked by the volts that each wins at the weakest post an hour of work, or for
 * money, then taken one after another, each time the one that now wins most, as a list and as a walk along the fence.
 *
 * What can be done is read from the plan: every fault mended, aged, fouled or cracked insulators of a run or stretch
 * replaced, cheap ones and tubes replaced by good ones, growth cleared from a run or stretch, up to three rods added, bad
 * joints remade. Each condition is built once as it is and three times with things put right; after that only conductances
 * change, and each trial is one numeric pass. The network need not be built again. Hours and prices are the plan's own,
 * else invented default rates. Volts are peak volts at typical values.
 *
 * @throws PlanError for a condition that does not exist or a number out of range. Rejects with the signal's reason when it
 * is aborted.
 */
export async function upkeep(plan: ResolvedPlan, options: UpkeepOptions = {}): Promise<UpkeepResult> {
  const { by = 'hour', untilHolds = false, tables = standardTables } = options;
  const conditions = pickConditions(plan, options.conditions);
  const mostHours = checkNumber('mostHours', options.mostHours ?? Infinity, [0, Infinity]);
  const mostMoney = checkNumber('mostMoney', options.mostMoney ?? Infinity, [0, Infinity]);
  const mostSteps = checkNumber('mostSteps', options.mostSteps ?? 12, [1, 100]);
  const leastWonVolts = checkNumber('leastWonVolts', options.leastWonVolts ?? 10, [0, 1e5]);
  const pacer = new Pacer(options);
  const mended = mendedPlans(plan, tables);
  const book = new RepairList(mended, conditions.length);
  const layout = layOut(plan);
  const fences: TrialFence[] = [];
  for (const [c, condition] of conditions.entries()) {
    const fence = openFence(plan, condition, { layout });
    book.add(c, fence);
    fences.push(new TrialFence(fence));
    await pacer.step((0.2 * (c + 1)) / conditions.length);
  }
  // The better plan has the rows of all that may be bought.
  const list = new PriceList(mended.better);
  const all = [...book.candidates.values()].map((candidate) => ({
    candidate,
    priced: priceAction(candidate, plan, list),
  }));
  type Choice = (typeof all)[number];

  const present = worstCondition(fences.map((fence) => fence.standing()));
  let now = present;
  const rateOf = ({ priced }: Choice) => (by === 'hour' ? priced.hours : priced.money).typical;

  /** Volts at the weakest post with one thing more done; only the worst condition where that alone rules it out. */
  const tryOne = (candidate: Candidate, enough: number): { least: number; meanWon: number } => {
    const first = fences[now.condition]!.tried(candidate.changes[now.condition]!, candidate.rank);
    const meanWon = first.meanVolts - now.standing.meanVolts;
    let least = first.volts;
    for (const [c, fence] of fences.entries()) {
      if (least < enough) break;
      if (c !== now.condition) least = Math.min(least, fence.tried(candidate.changes[c]!, candidate.rank).volts);
    }
    return { least, meanWon };
  };

  const actions: UpkeepAction[] = [];
  const leastWith = new Map<string, number>();
  for (const [n, choice] of all.entries()) {
    const { id, after } = choice.candidate;
    const { least } = tryOne(choice.candidate, -Infinity);
    leastWith.set(id, least);
    // A further rod stands beside those before it: what it wins is its own part.
    const won = least - (after === null ? present.standing.volts : leastWith.get(after)!);
    const { hours, money } = choice.priced;
    actions.push({
      ...choice.priced,
      wonVolts: won,
      voltsPerHour: won / hours.typical,
      voltsPerMoney: won / money.typical,
    });
    if (pacer.due) await pacer.step(0.2 + (0.3 * (n + 1)) / all.length);
  }
  const worth = (action: UpkeepAction) => (by === 'hour' ? action.voltsPerHour : action.voltsPerMoney);
  actions.sort((a, b) => worth(b) - worth(a) || (a.id < b.id ? -1 : 1));

  const steps: UpkeepStep[] = [];
  const done = new Set<string>();
  let [hours, money] = [0, 0];
  while (steps.length < mostSteps && !(untilHolds && now.standing.holds)) {
    let best: { choice: Choice; won: number; worth: number; isMean: boolean } | null = null;
    for (const choice of all) {
      const { candidate, priced } = choice;
      if (done.has(candidate.id) || (candidate.after !== null && !done.has(candidate.after))) continue;
      if (hours + priced.hours.typical > mostHours || money + priced.money.typical > mostMoney) continue;
      const rate = rateOf(choice);
      // What it would have to reach to be the best so far.
      const enough = now.standing.volts + (best === null || best.isMean ? leastWonVolts : best.worth * rate);
      const { least, meanWon } = tryOne(candidate, enough);
      const won = least - now.standing.volts;
      if (won >= leastWonVolts && (best === null || best.isMean || won / rate > best.worth))
        best = { choice, won, worth: won / rate, isMean: false };
      // Where two faults hide each other no single one lifts the weakest post: the mean says where to begin.
      else if (meanWon >= leastWonVolts && (best === null || (best.isMean && meanWon / rate > best.worth)))
        best = { choice, won, worth: meanWon / rate, isMean: true };
      if (pacer.due) await pacer.step(0.5 + (0.5 * steps.length) / mostSteps);
    }
    if (best === null) break;
    const { candidate, priced } = best.choice;
    for (const [c, fence] of fences.entries()) fence.make(candidate.changes[c]!, candidate.rank);
    const before = now.standing.volts;
    now = worstCondition(fences.map((fence) => fence.standing()));
    done.add(candidate.id);
    hours += priced.hours.typical;
    money += priced.money.typical;
    steps.push({
      action: candidate.id,
      wonVolts: now.standing.volts - before,
      leastVolts: now.standing.volts,
      condition: conditions[now.condition]!.id,
      postId: now.standing.postId,
      hoursSoFar: hours,
      moneySoFar: money,
    });
  }
  options.onProgress?.(1);
  const distanceOf = new Map(actions.map(({ id, distanceM }) => [id, distanceM ?? Number.MAX_VALUE]));
  const result: Omit<UpkeepResult, 'sentence'> = {
    format: 'postvolt upkeep',
    formatVersion: 1,
    title: plan.title,
    units: plan.units,
    target: plan.target,
    currency: list.currency,
    by,
    leastVolts: present.standing.volts,
    condition: conditions[present.condition]!.id,
    postId: present.standing.postId,
    holds: present.standing.holds,
    actions,
    steps,
    walk: steps.map(({ action }) => action).sort((a, b) => distanceOf.get(a)! - distanceOf.get(b)!),
    afterVolts: now.standing.volts,
    holdsAfter: now.standing.holds,
    work: { solves: fences.reduce((sum, fence) => sum + fence.solves, 0) },
  };
  return { ...result, sentence: upkeepSentence(result, plan) };
}

const worstCondition = (found: readonly Standing[]): Found =>
  worstOf(found.map((standing, condition) => ({ ...standing, standing, condition })));
