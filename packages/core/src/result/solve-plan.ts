import { kirchhoffResidual, powerBalance } from '../engine/trust.js';
import { type Issue, PlanError } from '../issue.js';
import { kindCode } from '../network/elements.js';
import { type Layout, layOut, strandNode } from '../network/layout.js';
import type { ResolvedCondition, ResolvedPlan } from '../plan/resolved.js';
import { cautionsOf } from './cautions.js';
import { countPlan } from './counts.js';
import { leakBudget } from './leaks.js';
import { postResults } from './posts.js';
import type { ConditionResult, Counts, PlanResult } from './result.js';
import { solveFence, touchEverywhere } from './solved-fence.js';
import { judge, voltsBudget } from './verdict.js';
import { conditionWarnings, energizerWarnings } from './warnings.js';
import { planSentence } from './words.js';

/** What to solve. */
export interface SolveOptions {
  /** Ids of the conditions to solve; all where left out. */
  readonly conditions?: readonly string[];
}

/** Picks conditions by id. Throws a {@link PlanError} for an id that the plan does not have. */
export function pickConditions(plan: ResolvedPlan, ids: readonly string[] | undefined): readonly ResolvedCondition[] {
  if (ids === undefined) return plan.conditions;
  const known = new Map(plan.conditions.map((condition) => [condition.id, condition]));
  const refuse = (found: string): never => {
    const expected = `one of ${[...known.keys()].map((key) => `"${key}"`).join(', ')}`;
    const where = { code: 'unknown-name', severity: 'error', path: ['conditions'] } as const;
    const issue: Issue = { ...where, found, expected, hint: '', at: null };
    throw new PlanError([issue]);
  };
  if (ids.length === 0) refuse('none');
  return ids.map((id) => known.get(id) ?? refuse(`"${id}"`));
}

/**
 * Volts at every post of a plan, in each of its conditions, with the verdict and what eats the rest.
 *
 * Linear in the number of posts. Throws a {@link PlanError} for a condition that the plan does not have.
 */
export function solvePlan(plan: ResolvedPlan, options: SolveOptions = {}): PlanResult {
  const layout = layOut(plan);
  const counts = countPlan(plan, layout);
  const conditions = pickConditions(plan, options.conditions).map((c) => solveCondition(plan, c, layout, counts));
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

function solveCondition(
  plan: ResolvedPlan,
  condition: ResolvedCondition,
  layout: Layout,
  counts: Counts,
): ConditionResult {
  const solved = solveFence(plan, condition, layout);
  const animal = touchEverywhere(solved);
  const posts = postResults(solved, animal);
  const leaks = leakBudget(solved);
  const verdict = judge(solved, posts, leaks);
  const weakestNode = strandNode(layout, verdict.weakest);
  const withStatus = (status: string) =>
    posts.filter((post) => post.strands.some((strand) => strand.status === status)).map((post) => post.id);
  const deadPosts = withStatus('dead');
  const { circuit, volts } = solved;
  const { amps, terminalVolts, inputSiemens, sourceOhms } = circuit.solve();
  const groundRiseVolts = -volts[layout.groundTerminal]!;
  return {
    id: condition.id,
    name: condition.name,
    verdict,
    energizer: {
      openVolts: circuit.source.volts[0]!,
      terminalVolts,
      amps,
      fenceVoltsToEarth: volts[layout.fenceTerminal]!,
      groundRiseVolts,
      groundOhms: groundOhms(solved),
      // With a spark alight the fence is no straight resistance: what counts is what the energizer sees.
      inputOhms: amps > 0 ? terminalVolts / amps : 1 / inputSiemens,
      sourceOhms,
    },
    voltsBudget: voltsBudget(solved, verdict.weakest),
    leaks,
    posts,
    deadPosts,
    switchedOffPosts: withStatus('switched off'),
    warnings: conditionWarnings(solved, {
      posts,
      deadPosts,
      weakest: verdict.weakest,
      bodyShare: animal.bodyShare[weakestNode]!,
      runM: counts.runM,
    }),
    residuals: {
      kirchhoff: kirchhoffResidual(circuit.network, { volts, amps }).backward,
      powerBalance: powerBalance(circuit.network, { volts, amps }).relative,
    },
  };
}

/** Of the rods at the energizer alone. */
function groundOhms({ fence, siemens }: { fence: { elements: { kind: Uint8Array } }; siemens: Float64Array }): number {
  return 1 / siemens[fence.elements.kind.indexOf(kindCode['ground system'])]!;
}
