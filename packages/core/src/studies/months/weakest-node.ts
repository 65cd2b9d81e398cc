import type { Layout } from '../../network/layout.js';
import type { WeakestPost } from '../../result/result.js';
import { type SolvedFence, touchEverywhere } from '../../result/solved-fence.js';
import { starvedShare } from '../../result/warnings.js';
import { hotPosts } from '../spread/hot-posts.js';

/** The weakest post of a solved fence, with its node; `anyDead` where a fault has cut a hot strand off. */
export interface WeakestNode {
  readonly weakest: WeakestPost;
  readonly node: number;
  readonly anyDead: boolean;
  /** Whether the ground keeps more of the volts there than the plan's animal gets. */
  readonly starves: boolean;
}

/** Finds the hot strand with the lowest volts of what the target compares; strands behind an open switch are left out. */
export function weakestNode(solved: SolvedFence): WeakestNode {
  const { layout, plan } = solved.fence;
  const { nodes, start, posts, anyDead } = hotPosts(solved);
  const { volts: animal, bodyShare } = touchEverywhere(solved);
  const compared = plan.target.of === 'to earth' ? solved.volts : animal;
  let least = 0;
  for (let n = 1; n < nodes.length; n++) if (compared[nodes[n]!]! < compared[nodes[least]!]!) least = n;
  const node = nodes[least]!;
  let p = 0;
  while (start[p + 1]! <= least) p++;
  const { id } = posts[p]!;
  return {
    weakest: {
      postId: id,
      ...placeOf(layout, node),
      voltsToEarth: solved.volts[node]!,
      animalVolts: animal[node]!,
      compared: compared[node]!,
    },
    node,
    anyDead,
    starves: bodyShare[node]! < starvedShare,
  };
}

/** Run, post and strand of a node; of a junction's, those of the first run that ends there. */
function placeOf(layout: Layout, node: number): Pick<WeakestPost, 'run' | 'post' | 'strand'> {
  for (const { run, nodes, strands } of layout.runs) {
    for (const [s, own] of nodes.entries()) {
      const post = own.indexOf(node);
      if (post >= 0 && strands[s]!.role === 'hot') return { run: run.id, post, strand: strands[s]!.id };
    }
  }
  throw new Error(`node ${node} is on no hot strand`);
}
