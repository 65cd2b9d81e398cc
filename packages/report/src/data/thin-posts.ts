import { type ComparedVolts, type ConditionResult, lowestHot, type PostResult } from '@postvolt/core';

/**
 * About `size` posts of a long list: the weakest of the verdict and of the weakest runs, junctions, and an even spread.
 * All where there are no more than that; run by run in either case.
 */
export function thinPosts(
  { posts, verdict }: ConditionResult,
  compared: ComparedVolts,
  size: number,
): readonly PostResult[] {
  const walk = runByRun(posts);
  if (walk.length <= size) return walk;
  const kept = new Set<PostResult>(walk.filter(({ id }) => id === verdict.weakest.postId));
  for (const post of weakestByRun(walk, compared).slice(0, Math.ceil(size / 3))) kept.add(post);
  const spread = (share: number, candidates: readonly PostResult[]) => {
    const room = Math.min(Math.floor(share * size) - kept.size, candidates.length);
    for (let i = 0; i < room; i++) kept.add(candidates[Math.floor(((i + 0.5) * candidates.length) / room)]!);
  };
  const rest = (junctions: boolean) => walk.filter((post) => (post.junction !== null) === junctions && !kept.has(post));
  spread(0.75, rest(true));
  spread(1, rest(false));
  return walk.filter((post) => kept.has(post));
}

/** Posts in the order in which one walks the runs, a junction where it is first met. */
function runByRun(posts: readonly PostResult[]): PostResult[] {
  const order = new Map<string, number>();
  for (const { run } of posts) if (run !== null && !order.has(run)) order.set(run, order.size);
  for (const { strands } of posts) for (const { run } of strands) if (!order.has(run)) order.set(run, order.size);
  const first = ({ strands }: PostResult) =>
    strands
      .map(({ run, post }) => [order.get(run)!, post] as const)
      .reduce((a, b) => (b[0] < a[0] || (b[0] === a[0] && b[1] < a[1]) ? b : a), [order.size, 0] as const);
  return posts
    .map((post) => ({ post, at: first(post) }))
    .sort(({ at: a }, { at: b }) => a[0] - b[0] || a[1] - b[1])
    .map(({ post }) => post);
}

/** The post with the fewest volts on each run, the weakest first; what stands behind an open switch is left out. */
export function weakestByRun(posts: readonly PostResult[], compared: ComparedVolts): PostResult[] {
  const weakest = new Map<string, { post: PostResult; volts: number }>();
  for (const post of posts) {
    const low = lowestHot(post.strands, compared);
    if (low === null || low.status === 'switched off') continue;
    const held = weakest.get(low.run);
    if (held === undefined || compared(low) < held.volts) weakest.set(low.run, { post, volts: compared(low) });
  }
  return [...weakest.values()].sort((a, b) => a.volts - b.volts).map(({ post }) => post);
}
