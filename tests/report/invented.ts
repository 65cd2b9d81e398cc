import type { ConditionResult, PlanResult } from '@postvolt/core';
import type { Solved } from './plans.js';

/**
 * The same fence with made-up volts: drawings of it change only when drawing does, not with the tables or the model.
 * Volts fall by a half over two kilometres, faster in each later condition.
 */
export function withInventedVolts({ plan, result }: Solved): Solved {
  const conditions = result.conditions.map((condition, c): ConditionResult => {
    const volts = (distanceM: number | null) => Math.round(7000 * 0.5 ** (((1 + 2 * c) * (distanceM ?? 0)) / 2000));
    const posts = condition.posts.map((post) => ({
      ...post,
      strands: post.strands.map((strand) => ({ ...strand, voltsToEarth: volts(strand.distanceM) })),
    }));
    const strands = posts.flatMap((post) => post.strands.map((strand) => ({ post, strand })));
    const lowest = strands.reduce((a, b) => (b.strand.voltsToEarth < a.strand.voltsToEarth ? b : a));
    const left = lowest.strand.voltsToEarth;
    return {
      ...condition,
      posts,
      verdict: {
        ...condition.verdict,
        holds: left >= result.target.volts,
        marginVolts: left - result.target.volts,
        weakest: {
          postId: lowest.post.id,
          run: lowest.strand.run,
          post: lowest.strand.post,
          strand: lowest.strand.strand,
          voltsToEarth: left,
          animalVolts: left,
          compared: left,
        },
      },
      energizer: { ...condition.energizer, fenceVoltsToEarth: 7000 },
      voltsBudget: {
        openVolts: 8000,
        insideEnergizer: 700,
        groundSystem: 250,
        leadOut: 50,
        wire: 7000 - left,
        leftAtWeakest: left,
      },
      leaks: [
        { kind: 'vegetation', cause: 'heavy growth, wet', amps: 1.2, percent: 60, places: 50 },
        { kind: 'insulators', cause: 'new nail-on claw insulators, wet', amps: 0.7, percent: 35, places: 49 },
        { kind: 'posts', cause: 'wood posts, wet', amps: 0.1, percent: 5, places: 1 },
      ],
    };
  });
  const drawn: PlanResult = { ...result, target: { volts: 3000, of: 'to earth', label: 'cattle' }, conditions };
  return { plan, result: drawn };
}
