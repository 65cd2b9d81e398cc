import type { OpenFence } from '../fence/open-fence.js';
import { type Cause, kindCode } from '../network/elements.js';
import type { FenceNetwork } from '../network/network.js';
import type { LeakShare } from './result.js';

/** True for an element by which current leaves a strand: insulator, growth or fault. */
export const isLeak = (kind: number): boolean =>
  kind === kindCode.insulator ||
  kind === kindCode.vegetation ||
  kind === kindCode['fault leak'] ||
  kind === kindCode['fault contact'] ||
  kind === kindCode['spark gap'];

/** Paths of one name by which current leaves the hot strands. */
export interface LeakGroup {
  readonly kind: Cause['kind'];
  readonly cause: string;
  /** Element numbers, each where the path leaves the strand. */
  readonly elements: readonly number[];
}

/**
 * Every path by which current leaves the hot strands, grouped by its larger resistance.
 * An insulator's path goes on through its post, so a strand on a steel post leaks by its insulators, and one on a dry
 * wooden post by the post. A fault is named as itself.
 */
export function leakGroups({ network, siemens }: OpenFence): LeakGroup[] {
  const { elements, layout, causes } = network;
  const hot = hotNodes(network);
  const postOfBody = new Int32Array(layout.nodeCount).fill(-1);
  layout.body.forEach((node, post) => {
    postOfBody[node] = post;
  });
  const groups = new Map<number, number[]>();
  for (let e = 0; e < elements.count; e++) {
    const b = elements.nodeB[e]!;
    if (!isLeak(elements.kind[e]!) || !hot[elements.nodeA[e]!] || (b >= 0 && hot[b])) continue;
    let cause = elements.cause[e]!;
    const post = b < 0 ? -1 : postOfBody[b]!;
    if (elements.kind[e] === kindCode.insulator && post >= 0) {
      const body = network.postElement[post]!;
      if (body >= 0 && siemens[body]! < siemens[e]!) cause = elements.cause[body]!;
    }
    const group = groups.get(cause);
    if (group === undefined) groups.set(cause, [e]);
    else group.push(e);
  }
  return [...groups].map(([cause, members]) => {
    const { kind, text } = causes[cause]!;
    return { kind, cause: text, elements: members };
  });
}

/** The leak budget, largest first; the shares add up to the energizer's current. */
export function leakBudget(fence: OpenFence): LeakShare[] {
  const shares = leakGroups(fence).map(({ kind, cause, elements }) => ({
    kind,
    cause,
    amps: elements.reduce((sum, e) => sum + fence.amps(e), 0),
    places: elements.length,
  }));
  const total = shares.reduce((sum, share) => sum + share.amps, 0);
  return shares
    .map((share) => ({ ...share, percent: total > 0 ? (100 * share.amps) / total : 0 }))
    .sort((x, y) => y.amps - x.amps);
}

/** By node: 1 where it belongs to a hot strand, a hot bus or the fence terminal. */
export function hotNodes({ layout }: FenceNetwork): Uint8Array {
  const hot = new Uint8Array(layout.nodeCount);
  for (const run of layout.runs) {
    run.strands.forEach((strand, s) => {
      if (strand.role === 'hot') for (const node of run.nodes[s]!) hot[node] = 1;
    });
  }
  for (const node of layout.hotBus) if (node >= 0) hot[node] = 1;
  hot[layout.fenceTerminal] = 1;
  return hot;
}
