import { type OpenFence, openFence } from '../fence/open-fence.js';
import { pickConditions } from '../fence/pick-conditions.js';
import { type Issue, PlanError } from '../issue.js';
import { elementKinds, isMetal, kindCode, openBy } from '../network/elements.js';
import { formulaRange } from '../network/formulas.js';
import { layOut, strandNode } from '../network/layout.js';
import type { ResolvedPlan } from '../plan/resolved.js';
import { formatVolts } from '../quantity/format.js';
import { comparedVolts, lowestHot } from './compared.js';
import { postResults } from './posts.js';
import type { ExplainedPart, Explanation, PostResult, VoltsBudget } from './result.js';
import { voltsBudget } from './verdict.js';

/** Which post to explain, and where. */
export interface ExplainOptions {
  /** `run/number`, or a junction's id. */
  readonly post: string;
  /** Ids of conditions; all where left out. */
  readonly conditions?: readonly string[];
}

/**
 * Why a post has the volts that it has: every resistance that meets there, with its table row, condition, range and
 * basis, and its share of the loss.
 *
 * Throws a {@link PlanError} for a post or condition that the plan does not have.
 */
export function explainPost(plan: ResolvedPlan, options: ExplainOptions): Explanation[] {
  const layout = layOut(plan);
  return pickConditions(plan, options.conditions).map((condition) => {
    const fence = openFence(plan, condition, { layout });
    const post = findPost(postResults(fence), plan, options.post);
    // Also of a post behind an open switch, or one that a fault has cut off: what little stands there is explained too.
    const strand = lowestHot(post.strands, comparedVolts(plan.target.of)) ?? post.strands[0];
    const node = strand === undefined ? layout.fenceTerminal : strandNode(layout, strand);
    const budget = voltsBudget(fence, node);
    return {
      postId: post.id,
      condition: condition.id,
      sentence: sentence(post, condition.name, budget),
      post,
      parts: partsAt(fence, post, budget),
      voltsBudget: budget,
    };
  });
}

/** A post by `run/number` or junction id; the ends of a run are its junctions. */
function findPost(posts: readonly PostResult[], plan: ResolvedPlan, name: string): PostResult {
  const own = posts.find((post) => post.id === name);
  if (own !== undefined) return own;
  const [, runId, number] = /^(.*)\/(\d+)$/.exec(name) ?? [];
  const run = plan.runs.find((r) => r.id === runId);
  if (run !== undefined) {
    const strands = posts.find((post) => post.strands.some((s) => s.run === runId && s.post === Number(number)));
    if (strands !== undefined) return strands;
  }
  const last =
    run &&
    posts
      .flatMap((p) => p.strands.filter((s) => s.run === run.id).map((s) => s.post))
      .reduce((a, b) => Math.max(a, b), 0);
  const issue: Issue = {
    code: 'unknown-post',
    severity: 'error',
    path: ['post'],
    found: `"${name}"`,
    expected:
      run === undefined
        ? `a junction (${plan.junctions.map((j) => j.id).join(', ')}) or RUN/POST with a run of ${plan.runs.map((r) => r.id).join(', ')}`
        : `a post number from 0 to ${last}`,
    hint: '',
    at: null,
  };
  throw new PlanError([issue]);
}

function sentence(post: PostResult, condition: string, budget: VoltsBudget): string {
  const losses: [string, number][] = [
    ['inside the energizer', budget.insideEnergizer],
    ['in the ground system', budget.groundSystem],
    ['in the lead-out', budget.leadOut],
    ['along the wire', budget.wire],
  ];
  losses.sort((a, b) => b[1] - a[1]);
  const [first, second] = losses as [[string, number], [string, number]];
  return `Post ${post.id} has ${formatVolts(budget.leftAtWeakest)} of the energizer's ${formatVolts(budget.openVolts)} in ${condition}: ${formatVolts(first[1])} stay ${first[0]} and ${formatVolts(second[1])} ${second[0]}.`;
}

function partsAt(fence: OpenFence, post: PostResult, budget: VoltsBudget): ExplainedPart[] {
  const { elements, layout } = fence.network;
  const nodes = new Set<number>();
  for (const strand of post.strands) {
    const run = layout.runs[layout.runOf.get(strand.run)!]!;
    nodes.add(run.nodes[run.strandOf.get(strand.strand)!]![strand.post]!);
    nodes.add(layout.body[run.posts[strand.post]!]!);
  }
  const totalAmps = fence.solution.amps;
  const lostVolts = budget.openVolts - budget.leftAtWeakest;
  const parts: ExplainedPart[] = [];
  for (let e = 0; e < elements.count; e++) {
    const [a, b] = [elements.nodeA[e]!, elements.nodeB[e]!];
    if (!nodes.has(a) && !(b >= 0 && nodes.has(b))) continue;
    parts.push(explainElement(fence, e, totalAmps, lostVolts));
  }
  return parts;
}

function explainElement(fence: OpenFence, e: number, totalAmps: number, lostVolts: number): ExplainedPart {
  const { network, siemens, volts } = fence;
  const { elements, layout, causes, parameters } = network;
  const kind = elements.kind[e]!;
  const formula = network.formulas[elements.formula[e]!]!;
  const range = formulaRange(formula, parameters);
  const gap = network.sparkGaps.find(({ element }) => element === e);
  const [a, b] = [elements.nodeA[e]!, elements.nodeB[e]!];
  const across = volts[a]! - (b < 0 ? 0 : volts[b]!);
  const amps = fence.amps(e);
  const ofFormula = formula.terms.flatMap((term) => term.powers.map((power) => power.parameter));
  const used = new Set(gap === undefined ? ofFormula : [gap.volts, gap.ohms]);
  const run = layout.runs[elements.run[e]!];
  const strand = run?.strands[elements.strand[e]!]?.id;
  const where = elements.post[e]! < 0 ? '' : ` ${run!.run.id}/${elements.post[e]!}`;
  const metal = isMetal(kind);
  const isOpen = fence.open[e] !== openBy.nothing;
  return {
    what: `${elementKinds[kind]}${strand === undefined ? '' : ` of ${strand}`}${kind === kindCode.span ? ' from' : ' at'}${where}: ${causes[elements.cause[e]!]!.text}`,
    ohms: gap === undefined ? 1 / siemens[e]! : amps === 0 ? Number.POSITIVE_INFINITY : across / amps,
    lowOhms: isOpen ? Number.POSITIVE_INFINITY : 1 / range.high,
    highOhms: isOpen ? Number.POSITIVE_INFINITY : 1 / range.low,
    volts: across,
    amps,
    percent: metal
      ? lostVolts > 0
        ? (100 * Math.abs(across)) / lostVolts
        : 0
      : totalAmps > 0
        ? (100 * amps) / totalAmps
        : 0,
    inputs: [...used].map((p) => {
      const { name, estimate, tableRow: from } = parameters[p]!;
      const { low, typical, high, unit, basis, source, fromMemory } = estimate;
      return { name, low, typical, high, unit, basis, source, fromMemory, from };
    }),
  };
}
