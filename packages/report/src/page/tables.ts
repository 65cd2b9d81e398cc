import {
  type ConditionResult,
  comparedVolts,
  formatAmps,
  formatLength,
  formatNumber,
  formatOhms,
  formatPercent,
  formatSignedVolts,
  formatTemperature,
  formatVolts,
  lowestHot,
  type PlanResult,
  type ResolvedPlan,
} from '@postvolt/core';
import { thinPosts, weakestByRun } from '../data/thin-posts.js';
import { shownLeaks } from '../figures/leak-bars.js';
import { budgetParts } from '../figures/volts-budget-bars.js';
import type { ReportTable } from './table.js';

/** Conditions side by side: holds or not, where, by how much, why. */
export const verdictTable = (result: PlanResult): ReportTable => ({
  caption: 'The answer in each condition',
  columns: [
    { head: 'Condition' },
    { head: 'Target' },
    { head: 'Least', numeric: true },
    { head: 'Margin', numeric: true },
    { head: 'Weakest post' },
    { head: 'Largest leak' },
  ],
  rows: result.conditions.map(({ name, verdict }) => [
    name,
    verdict.holds ? 'holds' : 'falls short',
    formatVolts(verdict.weakest.compared),
    formatSignedVolts(verdict.marginVolts),
    verdict.weakest.postId,
    verdict.largestCause === null
      ? 'none'
      : `${verdict.largestCause.cause}, ${formatPercent(verdict.largestCause.percent)}`,
  ]),
  strong: result.conditions.flatMap(({ verdict }, i) => (verdict.holds ? [] : [i])),
});

/** Volts at posts in every condition: all of a short fence, an even part of a long one with its weakest posts. */
export function postsTable(result: PlanResult, worst: ConditionResult, most = 40): ReportTable {
  const compared = comparedVolts(result.target.of);
  const shown = thinPosts(worst, compared, most);
  const byId = result.conditions.map(({ posts }) => new Map(posts.map((post) => [post.id, post])));
  const rows = shown.map(({ id, distanceM }) => [
    id,
    distanceM === null ? 'not fed' : formatLength(distanceM, result.units),
    ...byId.map((posts) => {
      const low = lowestHot(posts.get(id)?.strands ?? [], compared);
      if (low === null) return 'no hot strand';
      return low.status === 'live' ? formatVolts(compared(low)) : low.status;
    }),
  ]);
  const all = worst.posts.length;
  return {
    caption: `Volts ${result.target.of} at posts, each by its lowest hot strand`,
    columns: [
      { head: 'Post' },
      { head: 'Wire run', numeric: true },
      ...result.conditions.map(({ name }) => ({ head: name, numeric: true })),
    ],
    rows,
    strong: shown.flatMap(({ id }, i) => (id === worst.verdict.weakest.postId ? [i] : [])),
    note:
      shown.length === all
        ? `All ${formatNumber(all, 9)} posts. The weakest of ${worst.name} stands out.`
        : `${shown.length} of ${formatNumber(all, 9)} posts: junctions, the weakest of ${worst.name} (which stands out), and an even part of the rest. The CSV and GeoJSON files hold every one.`,
  };
}

/** The weakest post of each run, the weakest runs first, with what an animal meets there. */
export function weakestTable(result: PlanResult, condition: ConditionResult, most = 12): ReportTable {
  const compared = comparedVolts(result.target.of);
  const posts = weakestByRun(condition.posts, compared).slice(0, most);
  const strands = posts.map((post) => lowestHot(post.strands, compared)!);
  const grounded = strands.some(({ voltsToGrounded }) => voltsToGrounded !== null);
  return {
    caption: `Weakest post of each run in ${condition.name}`,
    columns: [
      { head: 'Post' },
      { head: 'Run' },
      { head: 'Strand' },
      { head: 'Wire run', numeric: true },
      { head: 'To earth', numeric: true },
      ...(grounded ? [{ head: 'To ground wire', numeric: true }] : []),
      { head: 'Across animal', numeric: true },
      { head: 'Leak here', numeric: true },
    ],
    rows: strands.map((strand, i) => [
      posts[i]!.id,
      strand.run,
      strand.status === 'dead' ? `${strand.strand}, cut off` : strand.strand,
      strand.distanceM === null ? 'not fed' : formatLength(strand.distanceM, result.units),
      formatVolts(strand.voltsToEarth),
      ...(grounded ? [strand.voltsToGrounded === null ? 'none' : formatVolts(strand.voltsToGrounded)] : []),
      formatVolts(strand.animalVolts),
      formatAmps(strand.leakAmps),
    ]),
    strong: posts.flatMap(({ id }, i) => (id === condition.verdict.weakest.postId ? [i] : [])),
  };
}

/** What the energizer gives and what its ground does. */
export const energizerTable = ({ name, energizer }: ConditionResult): ReportTable => ({
  caption: `Energizer and ground in ${name}`,
  columns: [{ head: 'Quantity' }, { head: 'Value', numeric: true }],
  rows: [
    ['Open circuit', formatVolts(energizer.openVolts)],
    ['At its terminals', formatVolts(energizer.terminalVolts)],
    ['Fence terminal to earth', formatVolts(energizer.fenceVoltsToEarth)],
    ['Current', formatAmps(energizer.amps)],
    ['Fence and ground together', formatOhms(energizer.inputOhms)],
    ['Ground rods', formatOhms(energizer.groundOhms)],
    ['Rise of the ground rods', formatVolts(energizer.groundRiseVolts)],
  ],
});

/** Where the open-circuit volts go. */
export const voltsBudgetTable = (result: PlanResult, condition: ConditionResult): ReportTable => ({
  caption: `Volts budget in ${condition.name}`,
  columns: [{ head: 'Part' }, { head: 'Volts', numeric: true }],
  rows: [
    ['open circuit', formatVolts(condition.voltsBudget.openVolts)],
    ...budgetParts({ result, condition }).map(({ name, volts }) => [name, formatVolts(volts)]),
    [`left at ${condition.verdict.weakest.postId}`, formatVolts(condition.voltsBudget.leftAtWeakest)],
  ],
});

/** What takes the current. */
export const leakTable = ({ name, leaks }: ConditionResult): ReportTable => ({
  caption: `Leak budget in ${name}`,
  columns: [
    { head: 'Cause' },
    { head: 'Share', numeric: true },
    { head: 'Current', numeric: true },
    { head: 'Places', numeric: true },
  ],
  rows: shownLeaks(leaks, 12).map(({ cause, percent, amps, places }) => [
    cause,
    formatPercent(percent),
    formatAmps(amps),
    formatNumber(places, 9),
  ]),
});

/** Posts, insulators and wire, counted from the plan. */
export function countsTable({ counts, units }: PlanResult): ReportTable {
  const pieces = (kind: string, items: Readonly<Record<string, number>>) =>
    Object.entries(items).map(([id, count]) => [id, kind, formatNumber(count, 9)]);
  const grounded =
    counts.groundedStrandM > 0 ? ` and ${formatLength(counts.groundedStrandM, units)} of grounded strand` : '';
  return {
    caption: 'What the fence takes',
    columns: [{ head: 'Row of the tables' }, { head: 'Kind' }, { head: 'Amount', numeric: true }],
    rows: [
      ...pieces('posts', counts.posts),
      ...pieces('line insulators', counts.lineInsulators),
      ...pieces('end insulators', counts.endInsulators),
      ...Object.entries(counts.wireM).map(([id, metres]) => [id, 'wire and cable', formatLength(metres, units)]),
    ],
    note: `${formatLength(counts.runM, units)} of fence: ${formatLength(counts.hotStrandM, units)} of hot strand${grounded}. Lengths along the line, without waste and ties.`,
  };
}

/** Faults that the plan has, with where and when; null where it has none. */
export function faultsTable({ faults }: ResolvedPlan): ReportTable | null {
  if (faults.length === 0) return null;
  return {
    caption: 'Faults in the plan',
    columns: [{ head: 'Place' }, { head: 'Fault' }, { head: 'Strand' }, { head: 'Conditions' }],
    rows: faults.map(({ kind, run, post, on, strand, otherStrand, conditions }) => [
      on === 'post' ? `${run}/${post}` : `${run}/${post} to ${post + 1}`,
      kind,
      otherStrand === null ? strand : `${strand} and ${otherStrand}`,
      conditions === null ? 'all' : conditions.join(', '),
    ]),
  };
}

/** What each condition stands for. */
export const conditionsTable = (plan: ResolvedPlan, result: PlanResult): ReportTable => {
  const solved = new Set(result.conditions.map(({ id }) => id));
  return {
    caption: 'What the conditions stand for',
    columns: [
      { head: 'Condition' },
      { head: 'Soil' },
      { head: 'Insulators' },
      { head: 'Posts' },
      { head: 'Growth' },
      { head: 'Air', numeric: true },
    ],
    rows: plan.conditions
      .filter(({ id }) => solved.has(id))
      .map((condition) => [
        condition.name,
        condition.soil,
        condition.film,
        condition.post,
        `${condition.growth.vegetation}, ${condition.growthWetness}, to ${formatLength(condition.growth.heightM, plan.units, 2)}`,
        formatTemperature(condition.temperatureC, plan.units),
      ]),
  };
};
