import { PlanError } from '../issue.js';
import { postAtEnd } from '../network/hanging.js';
import type { Layout } from '../network/layout.js';
import { strandStatus } from './status.js';

/** A post with hot strands that the verdict looks at, as results name it. */
export interface HotPost {
  /** `run/number`, or the junction's id. */
  readonly id: string;
  readonly junction: string | null;
  readonly run: string | null;
  readonly post: number | null;
}

/** Posts with hot strands in the order of results, each with the nodes of those strands. */
export interface HotPosts {
  /** Of post p, by number; made on demand, since a fence has many. */
  readonly postAt: (p: number) => HotPost;
  readonly count: number;
  /** Nodes of post p: `nodes[start[p]]` to `nodes[start[p + 1] - 1]`. */
  readonly start: Int32Array;
  readonly nodes: Int32Array;
  /** By entry of `nodes`: run, post of the run and strand by which it was found first. */
  readonly run: Int32Array;
  readonly post: Int32Array;
  readonly strand: Int32Array;
  /** Posts with a hot strand that a fault has cut off, by number. */
  readonly deadPosts: Int32Array;
}

/** The weakest hot strand of an open fence. */
export interface Lowest {
  /** Of what the target compares. */
  readonly volts: number;
  /** Over the target; at or above zero holds. */
  readonly marginVolts: number;
  readonly node: number;
  readonly postId: string;
  readonly run: number;
  readonly post: number;
  readonly strand: number;
  /** Whether a fault has cut any hot strand off. */
  readonly anyDead: boolean;
  /** Whether the target holds: no volts short anywhere, and nothing cut off. */
  readonly holds: boolean;
}

/** A fence with its ways of metal, by node. */
interface Fed {
  readonly layout: Layout;
  readonly distanceM: Float64Array;
  readonly mendedDistanceM: Float64Array;
}

/** Finds the hot strands of every post; those behind an open switch are left out. */
export function hotPosts({ layout, distanceM, mendedDistanceM }: Fed): HotPosts {
  const { plan } = layout;
  const most = layout.runs.reduce((sum, { strands, spans }) => sum + strands.length * (spans + 1), 0);
  const [nodes, runOf, postOf, strandOf] = Array.from({ length: 4 }, () => new Int32Array(most)) as [
    Int32Array,
    Int32Array,
    Int32Array,
    Int32Array,
  ];
  const start = new Int32Array(layout.postCount + 1);
  const firstEntry: number[] = [];
  const dead: number[] = [];
  const junctionOf: number[] = [];
  let count = 0;
  let entries = 0;
  let isDead = false;
  const hang = (r: number, i: number) => {
    const run = layout.runs[r]!;
    for (let s = 0; s < run.strands.length; s++) {
      const node = run.nodes[s]![i]!;
      const status = strandStatus(run.strands[s]!.role, distanceM[node]!, mendedDistanceM[node]!);
      if (status !== 'live' && status !== 'dead') continue;
      if (status === 'dead') isDead = true;
      // Strands that are tied at a junction are one node.
      let known = false;
      for (let n = start[count]!; n < entries; n++) if (nodes[n] === node) known = true;
      if (known) continue;
      nodes[entries] = node;
      runOf[entries] = r;
      postOf[entries] = i;
      strandOf[entries] = s;
      entries++;
    }
  };
  const close = (junction: number) => {
    if (entries === start[count]) return;
    if (isDead) dead.push(count);
    isDead = false;
    firstEntry.push(start[count]!);
    junctionOf.push(junction);
    count++;
    start[count] = entries;
  };
  layout.ends.forEach((ends, j) => {
    for (const end of ends) hang(end.run, postAtEnd(layout, end));
    close(j);
  });
  layout.runs.forEach(({ spans }, r) => {
    for (let i = 1; i < spans; i++) {
      hang(r, i);
      close(-1);
    }
  });
  const postAt = (p: number): HotPost => {
    const junction = junctionOf[p]!;
    if (junction >= 0) {
      const { id } = plan.junctions[junction]!;
      return { id, junction: id, run: null, post: null };
    }
    const [run, post] = [layout.runs[runOf[firstEntry[p]!]!]!.run.id, postOf[firstEntry[p]!]!];
    return { id: `${run}/${post}`, junction: null, run, post };
  };
  return {
    postAt,
    count,
    start: start.slice(0, count + 1),
    nodes: nodes.slice(0, entries),
    run: runOf,
    post: postOf,
    strand: strandOf,
    deadPosts: Int32Array.from(dead),
  };
}

/** The number of the post that an entry of the hot nodes hangs on. */
export function postOfEntry({ start }: HotPosts, entry: number): number {
  let low = 0;
  let high = start.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (start[middle]! <= entry) low = middle;
    else high = middle;
  }
  return low;
}

/** Id of the post that an entry of the hot nodes hangs on. */
export const postIdOf = (hot: HotPosts, entry: number): string => hot.postAt(postOfEntry(hot, entry)).id;

/** The hot strand with the fewest volts of what is compared; the first of several alike. */
export function lowestOf(hot: HotPosts, compared: ArrayLike<number>, targetVolts: number): Lowest {
  const { nodes, deadPosts } = hot;
  if (nodes.length === 0) throw new PlanError([notFed]);
  let least = 0;
  for (let n = 1; n < nodes.length; n++) if (compared[nodes[n]!]! < compared[nodes[least]!]!) least = n;
  const node = nodes[least]!;
  const volts = compared[node]!;
  const anyDead = deadPosts.length > 0;
  return {
    volts,
    marginVolts: volts - targetVolts,
    node,
    postId: postIdOf(hot, least),
    run: hot.run[least]!,
    post: hot.post[least]!,
    strand: hot.strand[least]!,
    anyDead,
    holds: volts >= targetVolts && !anyDead,
  };
}

const notFed = {
  code: 'not-fed',
  severity: 'error',
  path: ['energizer'],
  found: 'no hot strand with a way to the energizer',
  expected: 'one at least',
  hint: 'Is every switch open?',
  at: null,
} as const;

/** The worst of several answers: one that does not hold before one that does, then the one with the least margin. */
export const worstOf = <T extends Pick<Lowest, 'holds' | 'marginVolts'>>(answers: readonly T[]): T =>
  answers.reduce((a, b) => {
    if (a.holds !== b.holds) return a.holds ? b : a;
    return b.marginVolts < a.marginVolts ? b : a;
  });

/** Writes the least of each post's nodes' values into `least`. */
export function leastByPost({ start, nodes }: HotPosts, values: Float64Array, least: Float64Array): void {
  for (let p = 0, n = 0; p < least.length; p++) {
    let low = values[nodes[n]!]!;
    for (n++; n < start[p + 1]!; n++) {
      const value = values[nodes[n]!]!;
      if (value < low) low = value;
    }
    least[p] = low;
  }
}
