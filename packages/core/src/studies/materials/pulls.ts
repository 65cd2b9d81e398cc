import type { Layout, RunEnd } from '../../network/layout.js';
import { LocalConditions } from '../../network/local-conditions.js';
import type { ResolvedPlan, ResolvedStrand } from '../../plan/resolved.js';

/** A post that holds the pull of the wires. */
export interface Assembly {
  readonly kind: 'deep end post' | 'braced end' | 'braced corner';
  /** Strands that pull on it, and the height of the highest. */
  readonly strands: number;
  readonly topM: number;
  /** Row of the post that the plan has there. */
  readonly post: string;
}

/** A straight length of one strand between two posts that hold it. */
export interface Pull {
  readonly strand: ResolvedStrand;
  readonly lengthM: number;
}

/** Strands above which a single deep post no longer holds the pull [common practice, no source]. */
const mostOnOnePost = 2;

/**
 * Ends and corners of a plan by the rule of strands, and the lengths of strand that are strained between them.
 *
 * One or two strands: a single post set as deep as its top wire is high; three or more: a braced assembly [common practice,
 * no source]. Where runs meet without `through`, two of them make a corner and each further one an end; a gate has an end
 * on both sides. A line's bends inside a run are not looked at.
 */
export function pullsOf(plan: ResolvedPlan, layout: Layout): { assemblies: Assembly[]; pulls: Pull[] } {
  const lasting = { ...plan, stretches: plan.stretches.filter((s) => s.conditions === null) };
  const views = layout.runs.map((run) => new LocalConditions(lasting, plan.conditions[0]!, run));
  const place = ({ run, end }: RunEnd) => (end === 'from' ? 0 : layout.runs[run]!.spans);
  const postAt = (r: number, i: number) => views[r]!.post(layout.runs[r]!.positionsM[i]!);
  const assemblies: Assembly[] = [];
  const add = (isCorner: boolean, strands: readonly ResolvedStrand[], post: string) => {
    const single = strands.length <= mostOnOnePost;
    assemblies.push({
      kind: single ? 'deep end post' : isCorner ? 'braced corner' : 'braced end',
      strands: strands.length,
      topM: Math.max(...strands.map(({ heightM }) => heightM)),
      post,
    });
  };
  const strandsOf = (ends: readonly RunEnd[]) =>
    ends.map(({ run }) => layout.runs[run]!.strands).reduce((a, b) => (b.length > a.length ? b : a));
  layout.ends.forEach((ends, j) => {
    const first = ends[0];
    if (first === undefined) return;
    const { through, post } = plan.junctions[j]!;
    const held = through ? ends.slice(2) : ends;
    if (held.length === 0) return;
    // One post stands there, however many runs end on it; more of them pull on more braces.
    add(held.length > 1, strandsOf(held), post ?? postAt(first.run, place(first)));
  });
  for (const gate of plan.gates) {
    const r = layout.runOf.get(gate.run)!;
    const { strands, spans } = layout.runs[r]!;
    // At a run's end the junction's own post is the gate's.
    for (const i of [gate.post, gate.post + 1]) if (i > 0 && i < spans) add(false, strands, postAt(r, i));
  }
  return { assemblies, pulls: strained(plan, layout) };
}

/** Each strand of each run, in pieces between gates; a run that passes a `through` post goes on in the next. */
function strained(plan: ResolvedPlan, layout: Layout): Pull[] {
  const pulls: Pull[] = [];
  const gates = new Map<string, number>();
  for (const { run } of plan.gates) gates.set(run, (gates.get(run) ?? 0) + 1);
  // Runs that pass through posts are strained as one: the run that comes first stands for them all.
  const parent = layout.runs.map((_, r) => r);
  const root = (r: number): number => (parent[r] === r ? r : root(parent[r]!));
  layout.ends.forEach((ends, j) => {
    const [a, b] = ends;
    if (!plan.junctions[j]!.through || a === undefined || b === undefined) return;
    if (layout.runs[a.run]!.strands.length !== layout.runs[b.run]!.strands.length) return;
    const [x, y] = [root(a.run), root(b.run)];
    if (x !== y) parent[Math.max(x, y)] = Math.min(x, y);
  });
  const chains = new Map<number, { lengthM: number; pieces: number }>();
  layout.runs.forEach(({ run }, r) => {
    const chain = chains.get(root(r)) ?? { lengthM: 0, pieces: 1 };
    chain.lengthM += run.lengthM;
    chain.pieces += gates.get(run.id) ?? 0;
    chains.set(root(r), chain);
  });
  for (const [r, { lengthM, pieces }] of chains) {
    for (const strand of layout.runs[r]!.strands)
      for (let n = 0; n < pieces; n++) pulls.push({ strand, lengthM: lengthM / pieces });
  }
  return pulls;
}
