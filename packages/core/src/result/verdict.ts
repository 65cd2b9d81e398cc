import type { LeakShare, PostResult, StrandResult, Verdict, VoltsBudget, WeakestPost } from './result.js';
import type { SolvedFence } from './solved-fence.js';
import { verdictSentence } from './words.js';

/** The hot strand with the lowest volts of what the target compares; strands behind an open switch are left out. */
export function weakestPost(posts: readonly PostResult[], of: 'to earth' | 'across the animal'): WeakestPost {
  const compare = (strand: StrandResult) => (of === 'to earth' ? strand.voltsToEarth : strand.animalVolts);
  let best: { post: PostResult; strand: StrandResult } | null = null;
  for (const post of posts) {
    for (const strand of post.strands) {
      if (strand.status !== 'live' && strand.status !== 'dead') continue;
      if (best === null || compare(strand) < compare(best.strand)) best = { post, strand };
    }
  }
  // The plan's checks see to it that the energizer feeds a hot strand.
  if (best === null) throw new Error('no hot strand is fed');
  const { post, strand } = best;
  return {
    postId: post.id,
    run: strand.run,
    post: strand.post,
    strand: strand.strand,
    voltsToEarth: strand.voltsToEarth,
    animalVolts: strand.animalVolts,
    compared: compare(strand),
  };
}

/** Where the open-circuit volts go on the way to a strand. */
export function voltsBudget(solved: SolvedFence, weakest: WeakestPost): VoltsBudget {
  const { fence, volts, circuit } = solved;
  const { layout, plan } = fence;
  const { terminalVolts } = circuit.solve();
  const openVolts = circuit.source.volts[0]!;
  const home = layout.hotBus[layout.junctionOf.get(plan.energizer.junction)!]!;
  const atFence = volts[layout.fenceTerminal]!;
  return {
    openVolts,
    insideEnergizer: openVolts - terminalVolts,
    groundSystem: -volts[layout.groundTerminal]!,
    leadOut: atFence - volts[home]!,
    wire: volts[home]! - weakest.voltsToEarth,
    leftAtWeakest: weakest.voltsToEarth,
  };
}

/** Holds or not, where, by how much, and the largest cause. */
export function judge(solved: SolvedFence, posts: readonly PostResult[], leaks: readonly LeakShare[]): Verdict {
  const { plan, condition } = solved.fence;
  const weakest = weakestPost(posts, plan.target.of);
  const dead = posts.filter((post) => post.strands.some((strand) => strand.status === 'dead'));
  const marginVolts = weakest.compared - plan.target.volts;
  const verdict = {
    holds: marginVolts >= 0 && dead.length === 0,
    targetVolts: plan.target.volts,
    marginVolts,
    weakest,
    largestCause: leaks[0] ?? null,
  };
  return {
    ...verdict,
    sentence: verdictSentence(
      plan,
      condition.name,
      verdict,
      dead.map((post) => post.id),
    ),
  };
}
