import { kindCode } from '../network/elements.js';
import type { FenceNetwork } from '../network/network.js';
import type { LeakShare } from './result.js';

/** What leak accounting reads of a solved network. */
export interface SolvedElements {
  readonly fence: FenceNetwork;
  /** By element. */
  readonly siemens: Float64Array;
  /** By node, to remote earth. */
  readonly volts: Float64Array;
}

/** Amps through an element, positive from its first node to its second or to earth. */
export function elementAmps({ fence, siemens, volts }: SolvedElements, e: number): number {
  const b = fence.elements.nodeB[e]!;
  return siemens[e]! * (volts[fence.elements.nodeA[e]!]! - (b < 0 ? 0 : volts[b]!));
}

/** True for an element by which current leaves a strand: insulator, growth or fault. */
export const isLeak = (kind: number): boolean =>
  kind === kindCode.insulator ||
  kind === kindCode.vegetation ||
  kind === kindCode['fault leak'] ||
  kind === kindCode['fault contact'];

/**
 * The leak budget: every path by which current leaves the hot strands, named by its larger resistance.
 * An insulator's path goes on through its post, so a strand tied to a steel post leaks by its insulators, and one on a
 * wooden post in dry weather by the post. A fault is named as itself. The shares add up to the energizer's current.
 */
export function leakBudget(solved: SolvedElements): LeakShare[] {
  const { fence } = solved;
  const { elements, layout, causes } = fence;
  const hot = hotNodes(fence);
  const postOfBody = new Int32Array(layout.nodeCount).fill(-1);
  layout.body.forEach((node, post) => {
    postOfBody[node] = post;
  });
  const amps = new Map<string, { kind: string; cause: string; amps: number; places: number }>();
  let total = 0;
  for (let e = 0; e < elements.count; e++) {
    const a = elements.nodeA[e]!;
    const b = elements.nodeB[e]!;
    if (!isLeak(elements.kind[e]!) || !hot[a] || (b >= 0 && hot[b])) continue;
    const through = elementAmps(solved, e);
    let { kind, text } = causes[elements.cause[e]!]!;
    const post = b < 0 ? -1 : postOfBody[b]!;
    if (kind === 'insulators' && post >= 0) {
      const body = fence.postElement[post]!;
      if (body >= 0 && solved.siemens[body]! < solved.siemens[e]!) ({ kind, text } = causes[elements.cause[body]!]!);
    }
    const key = `${kind}|${text}`;
    const share = amps.get(key) ?? { kind, cause: text, amps: 0, places: 0 };
    share.amps += through;
    share.places += 1;
    amps.set(key, share);
    total += through;
  }
  return [...amps.values()]
    .map((share) => ({ ...share, percent: total > 0 ? (100 * share.amps) / total : 0 }))
    .sort((x, y) => y.amps - x.amps);
}

/** By node: 1 where it belongs to a hot strand, a hot bus or the fence terminal. */
export function hotNodes(fence: FenceNetwork): Uint8Array {
  const { layout } = fence;
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
