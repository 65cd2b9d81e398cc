import { type ComparedVolts, type ConditionResult, lowestHot, type PostResult } from '@postvolt/core';

/** Of a long list about `size` posts in their order: the weakest of the verdict, the next weakest, junctions, and an even spread. */
export function thinPosts(condition: ConditionResult, compared: ComparedVolts, size: number): readonly PostResult[] {
  const { posts, verdict } = condition;
  if (posts.length <= size) return posts;
  const kept = new Set<number>();
  const keepUpTo = (count: number, candidates: readonly number[]) => {
    const room = count - kept.size;
    if (room <= 0 || candidates.length === 0) return;
    const step = Math.max(1, (candidates.length - 1) / Math.max(1, room - 1));
    for (let at = 0; Math.round(at) < candidates.length; at += step) kept.add(candidates[Math.round(at)]!);
  };
  const all = posts.map((_, i) => i);
  for (const i of all) if (posts[i]!.id === verdict.weakest.postId) kept.add(i);
  for (const i of weakestOf(posts, compared, 3)) kept.add(i);
  keepUpTo(
    Math.ceil(size * 0.6),
    all.filter((i) => posts[i]!.junction !== null && !kept.has(i)),
  );
  keepUpTo(
    size,
    all.filter((i) => posts[i]!.junction === null && !kept.has(i)),
  );
  return all.filter((i) => kept.has(i)).map((i) => posts[i]!);
}

/** Indices of the posts with the fewest volts among those that the verdict looks at, the weakest first. */
export function weakestOf(posts: readonly PostResult[], compared: ComparedVolts, count: number): number[] {
  const ranked: { i: number; volts: number }[] = [];
  posts.forEach((post, i) => {
    const low = lowestHot(post.strands, compared);
    if (low === null || low.status === 'switched off') return;
    const volts = compared(low);
    if (ranked.length === count && volts >= ranked.at(-1)!.volts) return;
    ranked.push({ i, volts });
    ranked.sort((a, b) => a.volts - b.volts);
    ranked.length = Math.min(count, ranked.length);
  });
  return ranked.map(({ i }) => i);
}
