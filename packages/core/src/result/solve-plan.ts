import { kirchhoffResidual, powerBalance } from '../engine/trust.js';
import { throwChangedPlan } from '../fence/changed-plan.js';
import { type OpenFence, openFence } from '../fence/open-fence.js';
import { pickConditions } from '../fence/pick-conditions.js';
import { kindCode } from '../network/elements.js';
import { layOut } from '../network/layout.js';
import type { ResolvedPlan } from '../plan/resolved.js';
import { cautionsOf } from './cautions.js';
import { countPlan } from './counts.js';
import { leakBudget } from './leaks.js';
import { postResults } from './posts.js';
import type { ConditionResult, PlanResult, StrandResult } from './result.js';
import { verdictOf, voltsBudget } from './verdict.js';
import { conditionWarnings, energizerWarnings } from './warnings.js';
import { planSentence } from './words.js';

/** What to solve. */
export interface SolveOptions {
  /** Ids of the conditions to solve; all where left out. */
  readonly conditions?: readonly string[];
}

/**
 * Volts at every post of a plan, in each of its conditions, with the verdict and what eats the rest.
 *
 * Linear in the number of posts. Throws a {@link PlanError} for a condition that the plan does not have, and for a plan that
 * no longer holds together since it was changed by hand.
 */
export function solvePlan(plan: ResolvedPlan, options: SolveOptions = {}): PlanResult {
  const picked = pickConditions(plan, options.conditions);
  const { layout, counts } = layOutAndCount(plan);
  let before: OpenFence | undefined;
  const conditions = picked.map((condition) => {
    const fence = openFence(plan, condition, before === undefined ? { layout } : { layout, like: before });
    before = fence;
    return conditionResult(fence);
  });
  return {
    format: 'postvolt result',
    formatVersion: 1,
    title: plan.title,
    units: plan.units,
    target: plan.target,
    holds: conditions.every((condition) => condition.verdict.holds),
    sentence: planSentence(plan, conditions),
    conditions,
    counts,
    warnings: energizerWarnings(plan),
    cautions: cautionsOf(plan),
  };
}

function layOutAndCount(plan: ResolvedPlan) {
  try {
    const layout = layOut(plan);
    return { layout, counts: countPlan(plan, layout) };
  } catch (error) {
    return throwChangedPlan(plan, error);
  }
}

/** All that there is to say of an open fence as it stands: every post, the verdict, and where volts and amps go. */
export function conditionResult(fence: OpenFence): ConditionResult {
  const { condition, circuit, volts, layout } = fence;
  const posts = postResults(fence);
  const leaks = leakBudget(fence);
  const verdict = verdictOf(fence, leaks);
  const { node } = fence.lowest();
  const withStatus = (status: StrandResult['status']): string[] => {
    const found: string[] = [];
    for (const { id, strands } of posts) if (strands.some((strand) => strand.status === status)) found.push(id);
    return found;
  };
  const { amps, terminalVolts, inputSiemens, sourceOhms } = fence.solution;
  const ground = fence.siemens[fence.network.elements.kind.indexOf(kindCode['ground system'])]!;
  const deadPosts = withStatus('dead');
  return {
    id: condition.id,
    name: condition.name,
    verdict,
    energizer: {
      openVolts: circuit.source.volts[0]!,
      terminalVolts,
      amps,
      fenceVoltsToEarth: volts[layout.fenceTerminal]!,
      groundRiseVolts: -volts[layout.groundTerminal]!,
      // Of the rods at the energizer alone.
      groundOhms: 1 / ground,
      // With a spark alight the fence is no straight resistance: what counts is what the energizer sees.
      inputOhms: amps > 0 ? terminalVolts / amps : 1 / inputSiemens,
      sourceOhms,
    },
    voltsBudget: voltsBudget(fence, node),
    leaks,
    posts,
    deadPosts,
    switchedOffPosts: withStatus('switched off'),
    warnings: conditionWarnings(fence, { posts, deadPosts, weakest: verdict.weakest }),
    residuals: {
      kirchhoff: kirchhoffResidual(circuit.network, { volts, amps }).backward,
      powerBalance: powerBalance(circuit.network, { volts, amps }).relative,
    },
  };
}
