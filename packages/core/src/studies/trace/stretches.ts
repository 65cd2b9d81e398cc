import type { Layout } from '../../network/layout.js';

/** Posts of one run, both ends included. */
export interface RunPiece {
  readonly run: string;
  readonly fromPost: number;
  readonly toPost: number;
}

/** Posts that hang together and among which the fault is likely to be. */
export interface Stretch {
  /** That the fault is there, 0 to 1. */
  readonly chance: number;
  /** `north/12 to north/19`; round a junction its largest pieces. */
  readonly name: string;
  readonly pieces: readonly RunPiece[];
  readonly posts: number;
  /** From its first posts to its last; 0 for a single post. */
  readonly lengthM: number;
}

/** Longest gap, in posts, that is closed between two likely ones. */
const closedGap = 2;

/** Marks also the few posts between marked ones of a run, where the chances flicker. */
export function closeGaps(layout: Layout, marked: Uint8Array): void {
  for (const { posts } of layout.runs) {
    let last = -1;
    for (let i = 0; i < posts.length; i++) {
      if (marked[posts[i]!] !== 1) continue;
      if (last >= 0 && i - last - 1 <= closedGap) for (let k = last + 1; k < i; k++) marked[posts[k]!] = 1;
      last = i;
    }
  }
}

/** Marked posts as stretches, likeliest first. */
export function stretchesOf(layout: Layout, marked: Uint8Array, ofPost: Float64Array): Stretch[] {
  const pieces = layout.runs.flatMap(({ posts }, r) => {
    const found: { r: number; from: number; to: number }[] = [];
    for (let i = 0; i < posts.length; i++) {
      if (marked[posts[i]!] !== 1) continue;
      const open = found.at(-1);
      if (open !== undefined && open.to === i - 1) open.to = i;
      else found.push({ r, from: i, to: i });
    }
    return found;
  });
  // Pieces that share a junction belong together.
  const parent = pieces.map((_, p) => p);
  const root = (p: number): number => (parent[p] === p ? p : root(parent[p]!));
  const atJunction = new Map<number, number>();
  pieces.forEach(({ r, from, to }, p) => {
    const { posts, spans } = layout.runs[r]!;
    for (const end of [...(from === 0 ? [0] : []), ...(to === spans ? [spans] : [])]) {
      const other = atJunction.get(posts[end]!);
      if (other === undefined) atJunction.set(posts[end]!, p);
      else parent[root(p)] = root(other);
    }
  });
  const groups = new Map<number, typeof pieces>();
  pieces.forEach((piece, p) => {
    groups.set(root(p), [...(groups.get(root(p)) ?? []), piece]);
  });
  return [...groups.values()].map((group) => stretchOf(layout, group, ofPost)).sort((a, b) => b.chance - a.chance);
}

function stretchOf(
  layout: Layout,
  group: readonly { r: number; from: number; to: number }[],
  ofPost: Float64Array,
): Stretch {
  const posts = new Set(group.flatMap(({ r, from, to }) => Array.from(layout.runs[r]!.posts.subarray(from, to + 1))));
  // A junction that other pieces reach anyhow is not a piece of its own in every run that ends there.
  const longer = group.filter(({ from, to }) => from < to);
  const shown = longer.length > 0 ? longer : group.slice(0, 1);
  const pieces = shown.map(({ r, from, to }) => ({ run: layout.runs[r]!.run.id, fromPost: from, toPost: to }));
  let lengthM = 0;
  for (const { r, from, to } of shown) lengthM += layout.runs[r]!.positionsM[to]! - layout.runs[r]!.positionsM[from]!;
  const name = nameOf(
    layout,
    [...shown].sort((a, b) => b.to - b.from - (a.to - a.from)),
  );
  let chance = 0;
  for (const post of posts) chance += ofPost[post]!;
  return { chance: Math.min(1, chance), name, pieces, posts: posts.size, lengthM };
}

/** Pieces of a stretch that its name holds. */
const namedPieces = 3;

/** The largest pieces by name; whole runs by the run's. */
function nameOf(layout: Layout, pieces: readonly { r: number; from: number; to: number }[]): string {
  const words = pieces.slice(0, namedPieces).map(({ r, from, to }) => {
    const { run, spans } = layout.runs[r]!;
    if (from === 0 && to === spans) return `all of ${run.id}`;
    return from === to ? `${run.id}/${from}` : `${run.id}/${from} to ${run.id}/${to}`;
  });
  const rest = pieces.length - words.length;
  return [...words, ...(rest > 0 ? [`${rest} more piece${rest === 1 ? '' : 's'}`] : [])]
    .join(', ')
    .replace(/, ([^,]*)$/, ' and $1');
}
