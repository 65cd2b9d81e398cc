import type { OpenFence } from '../fence/open-fence.js';
import { leakBudget } from './leaks.js';
import type { LeakShare, Verdict, VoltsBudget, WeakestPost } from './result.js';
import { verdictSentence } from './words.js';

/** The hot strand with the lowest volts of what the target compares; strands behind an open switch are left out. */
export function weakestPost(fence: OpenFence): WeakestPost {
  const { node, postId, run, post, strand, volts } = fence.lowest();
  const { run: own, strands } = fence.layout.runs[run]!;
  return {
    postId,
    run: own.id,
    post,
    strand: strands[strand]!.id,
    voltsToEarth: fence.volts[node]!,
    animalVolts: fence.animalVoltsAt(node),
    compared: volts,
  };
}

/** Where the open-circuit volts go on the way to a node. */
export function voltsBudget(fence: OpenFence, node: number): VoltsBudget {
  const { plan, layout, volts, circuit } = fence;
  const { terminalVolts } = fence.solution;
  const openVolts = circuit.source.volts[0]!;
  const home = layout.hotBus[layout.junctionOf.get(plan.energizer.junction)!]!;
  const atFence = volts[layout.fenceTerminal]!;
  return {
    openVolts,
    insideEnergizer: openVolts - terminalVolts,
    groundSystem: -volts[layout.groundTerminal]!,
    leadOut: atFence - volts[home]!,
    wire: volts[home]! - volts[node]!,
    leftAtWeakest: volts[node]!,
  };
}

/**
 * Holds or not, where, by how much, and the largest cause: the verdict of an open fence as it stands, without the results
 * of its posts.
 */
export function verdictOf(fence: OpenFence, leaks: readonly LeakShare[] = leakBudget(fence)): Verdict {
  const { plan, condition, hot } = fence;
  const { holds, marginVolts } = fence.lowest();
  const verdict = {
    holds,
    targetVolts: plan.target.volts,
    marginVolts,
    weakest: weakestPost(fence),
    largestCause: leaks[0] ?? null,
  };
  const dead = Array.from(hot.deadPosts, (post) => hot.postAt(post).id);
  return { ...verdict, sentence: verdictSentence(plan, condition.name, verdict, dead) };
}
