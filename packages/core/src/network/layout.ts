import { postPositionM, spanCount } from '../plan/posts.js';
import type { ResolvedBuild, ResolvedPlan, ResolvedRun, ResolvedStrand } from '../plan/resolved.js';
import { isTied } from '../plan/ties.js';

/** One end of a run at a junction. */
export interface RunEnd {
  readonly run: number;
  readonly end: 'from' | 'to';
}

/**
 * How the plan's posts and strands are numbered, made once per plan and the same in every condition.
 * Posts: junctions first, in the plan's order, then each run's posts 1 to N−1.
 * Nodes: fence terminal, ground terminal, two buses a junction (hot, grounded), one body a post, then the strands.
 * A run's strand shares its junction's bus at an end where it is tied; elsewhere it has a node of its own.
 */
export interface Layout {
  readonly plan: ResolvedPlan;
  readonly junctionCount: number;
  readonly postCount: number;
  readonly nodeCount: number;
  readonly fenceTerminal: number;
  readonly groundTerminal: number;
  /** By junction: node of the hot bus and of the grounded bus; −1 where nothing of that role ends there. */
  readonly hotBus: Int32Array;
  readonly groundedBus: Int32Array;
  /** By post: node of its body. */
  readonly body: Int32Array;
  readonly runs: readonly RunLayout[];
  /** By junction: the run ends there, in the plan's order. */
  readonly ends: readonly (readonly RunEnd[])[];
  readonly junctionOf: ReadonlyMap<string, number>;
  readonly runOf: ReadonlyMap<string, number>;
}

/** Posts and nodes of one run. */
export interface RunLayout {
  readonly run: ResolvedRun;
  readonly build: ResolvedBuild;
  readonly strands: readonly ResolvedStrand[];
  readonly strandOf: ReadonlyMap<string, number>;
  readonly spans: number;
  /** Places of posts 0 to N from the run's start. */
  readonly positionsM: Float64Array;
  /** Length of every span where all are alike; null where each is the difference of its posts' places. */
  readonly equalSpanM: number | null;
  readonly from: number;
  readonly to: number;
  /** By strand: nodes of posts 0 to N. */
  readonly nodes: readonly Int32Array[];
  /** Posts (global numbers) of posts 0 to N. */
  readonly posts: Int32Array;
}

const postPositions = (run: ResolvedRun): Float64Array =>
  Float64Array.from({ length: spanCount(run) + 1 }, (_, post) => postPositionM(run, post));

const index = (items: readonly { readonly id: string }[]): Map<string, number> =>
  new Map(items.map((item, i) => [item.id, i]));

/** Numbers the posts and nodes of a plan. */
export function layOut(plan: ResolvedPlan): Layout {
  const junctionOf = index(plan.junctions);
  const buildOf = new Map(plan.builds.map((build) => [build.id, build]));
  const junctionCount = plan.junctions.length;
  const ends: RunEnd[][] = plan.junctions.map(() => []);
  const hasHot = new Uint8Array(junctionCount);
  const hasGrounded = new Uint8Array(junctionCount);
  const mark = (junction: number, role: 'hot' | 'grounded') => {
    (role === 'hot' ? hasHot : hasGrounded)[junction] = 1;
  };
  plan.runs.forEach((run, r) => {
    for (const end of ['from', 'to'] as const) {
      const junction = junctionOf.get(run[end])!;
      ends[junction]!.push({ run: r, end });
      for (const strand of buildOf.get(run.build)!.strands) mark(junction, strand.role);
    }
  });
  for (const link of plan.links) for (const end of ['from', 'to'] as const) mark(junctionOf.get(link[end])!, link.role);

  const { energizer } = plan;
  const home = junctionOf.get(energizer.junction)!;
  let nodeCount = 0;
  const hotBus = Int32Array.from(hasHot, (has) => (has ? nodeCount++ : -1));
  const groundedBus = Int32Array.from(hasGrounded, (has) => (has ? nodeCount++ : -1));
  const fenceTerminal = energizer.leadOut === null && hotBus[home]! >= 0 ? hotBus[home]! : nodeCount++;
  const groundTerminal = energizer.groundLead === null && groundedBus[home]! >= 0 ? groundedBus[home]! : nodeCount++;
  const junctionBodies = nodeCount;
  nodeCount += junctionCount;

  let postCount = junctionCount;
  const bodies: number[] = Array.from({ length: junctionCount }, (_, j) => junctionBodies + j);
  const runs = plan.runs.map((run): RunLayout => {
    const build = buildOf.get(run.build)!;
    const positionsM = postPositions(run);
    const spans = positionsM.length - 1;
    const from = junctionOf.get(run.from)!;
    const to = junctionOf.get(run.to)!;
    const posts = new Int32Array(spans + 1);
    const nodes = build.strands.map(() => new Int32Array(spans + 1));
    for (let i = 0; i <= spans; i++) {
      const end = i === 0 ? 'from' : i === spans ? 'to' : null;
      const junction = end === 'from' ? from : to;
      posts[i] = end === null ? postCount++ : junction;
      if (end === null) bodies.push(nodeCount++);
      build.strands.forEach((strand, s) => {
        const bus = (strand.role === 'hot' ? hotBus : groundedBus)[junction]!;
        nodes[s]![i] = end !== null && isTied(build, strand, end) ? bus : nodeCount++;
      });
    }
    return {
      run,
      build,
      strands: build.strands,
      strandOf: index(build.strands),
      spans,
      positionsM,
      equalSpanM: run.posts.kind === 'equal' ? run.lengthM / spans : null,
      from,
      to,
      nodes,
      posts,
    };
  });
  return {
    plan,
    junctionCount,
    postCount,
    nodeCount,
    fenceTerminal,
    groundTerminal,
    hotBus,
    groundedBus,
    body: Int32Array.from(bodies),
    runs,
    ends,
    junctionOf,
    runOf: index(plan.runs),
  };
}

/** Index of the grounded strand nearest in height to a strand; −1 where the build has none. */
export function nearestGrounded(strands: readonly { role: string; heightM: number }[], hot: number): number {
  let best = -1;
  strands.forEach((strand, s) => {
    if (strand.role !== 'grounded') return;
    const gap = Math.abs(strand.heightM - strands[hot]!.heightM);
    if (best < 0 || gap < Math.abs(strands[best]!.heightM - strands[hot]!.heightM)) best = s;
  });
  return best;
}

/** Length of the span from a post of a run to the next, m. */
export const spanLengthM = ({ equalSpanM, positionsM }: RunLayout, post: number): number =>
  equalSpanM ?? positionsM[post + 1]! - positionsM[post]!;

/** Node of a strand at a post of a run, all named as results name them. */
export function strandNode(layout: Layout, place: { run: string; post: number; strand: string }): number {
  const run = layout.runs[layout.runOf.get(place.run)!]!;
  return run.nodes[run.strandOf.get(place.strand)!]![place.post]!;
}

/** Name of a strand's node at a post of a run that is no junction. */
const strandNodeName = (run: number, post: number, strand: number): string => `r${run}_p${post}_s${strand}`;

/** Names of strands' nodes by place, for results; those that junctions and terminals share are found once. */
export function strandNodeNames(layout: Layout): (run: number, post: number, strand: number) => string {
  const shared = new Map<number, string>();
  nameJunctions(layout, (node, name) => shared.set(node, name));
  return (r, i, s) => {
    const { spans, nodes } = layout.runs[r]!;
    return ((i === 0 || i === spans) && shared.get(nodes[s]![i]!)) || strandNodeName(r, i, s);
  };
}

/** Names the nodes of junctions and of the energizer's terminals. */
function nameJunctions(layout: Layout, name: (node: number, name: string) => void): void {
  const named = new Set<number>();
  const add = (node: number, text: string) => {
    named.add(node);
    name(node, text);
  };
  for (let j = 0; j < layout.junctionCount; j++) {
    add(layout.body[j]!, `j${j}_body`);
    if (layout.hotBus[j]! >= 0) add(layout.hotBus[j]!, `j${j}_hot`);
    if (layout.groundedBus[j]! >= 0) add(layout.groundedBus[j]!, `j${j}_grounded`);
  }
  if (!named.has(layout.fenceTerminal)) name(layout.fenceTerminal, 'fence_terminal');
  // Not `ground`, which some circuit simulators take for node 0.
  if (!named.has(layout.groundTerminal)) name(layout.groundTerminal, 'ground_terminal');
}

/** Name of every node, for exported circuits and error messages: letters, digits and underscores. */
export function nodeNames(layout: Layout): string[] {
  const names = new Array<string>(layout.nodeCount).fill('');
  layout.runs.forEach((run, r) => {
    run.nodes.forEach((nodes, s) => {
      nodes.forEach((node, i) => {
        names[node] = strandNodeName(r, i, s);
      });
    });
    for (let i = 1; i < run.spans; i++) names[layout.body[run.posts[i]!]!] = `r${r}_p${i}_body`;
  });
  nameJunctions(layout, (node, name) => {
    names[node] = name;
  });
  return names;
}
