import { type SolvedFence, statusOf } from '../../result/solved-fence.js';

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
  readonly posts: readonly HotPost[];
  /** Nodes of post p: `nodes[start[p]]` to `nodes[start[p + 1] - 1]`. */
  readonly start: Int32Array;
  readonly nodes: Int32Array;
  /** True where a fault has cut a hot strand off. */
  readonly anyDead: boolean;
}

/** Finds the hot strands of every post; those behind an open switch are left out. */
export function hotPosts(solved: SolvedFence): HotPosts {
  const { layout, plan } = solved.fence;
  const posts: HotPost[] = [];
  const start = [0];
  const nodes: number[] = [];
  let anyDead = false;
  const add = (post: HotPost, places: readonly (readonly [run: number, post: number])[]) => {
    const own = new Set<number>();
    for (const [r, i] of places) {
      const run = layout.runs[r]!;
      run.strands.forEach(({ role }, s) => {
        const node = run.nodes[s]![i]!;
        const status = statusOf(solved, role, node);
        if (status !== 'live' && status !== 'dead') return;
        if (status === 'dead') anyDead = true;
        own.add(node);
      });
    }
    if (own.size === 0) return;
    posts.push(post);
    nodes.push(...own);
    start.push(nodes.length);
  };
  layout.ends.forEach((ends, j) => {
    const { id } = plan.junctions[j]!;
    const places = ends.map(({ run, end }) => [run, end === 'from' ? 0 : layout.runs[run]!.spans] as const);
    add({ id, junction: id, run: null, post: null }, places);
  });
  layout.runs.forEach(({ run, spans }, r) => {
    for (let i = 1; i < spans; i++) add({ id: `${run.id}/${i}`, junction: null, run: run.id, post: i }, [[r, i]]);
  });
  return { posts, start: Int32Array.from(start), nodes: Int32Array.from(nodes), anyDead };
}

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
