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

/** Every path by which current leaves the hot strands, grouped by its cause; see {@link leakBudget}. */
export function leakGroups(fence: OpenFence): LeakGroup[] {
  const groups = new Map<number, number[]>();
  eachLeak(fence, (e, cause) => {
    const group = groups.get(cause);
    if (group === undefined) groups.set(cause, [e]);
    else group.push(e);
  });
  return [...groups].map(([cause, elements]) => {
    const { kind, text } = fence.network.causes[cause]!;
    return { kind, cause: text, elements };
  });
}

/**
 * The leak budget, largest first; the shares add up to the energizer's current.
 *
 * Paths are grouped by their larger resistance: an insulator's path goes on through its post, so a strand on a steel post
 * leaks by its insulators, and one on a dry wooden post by the post. A fault is named as itself.
 */
export function leakBudget(fence: OpenFence): LeakShare[] {
  const { causes } = fence.network;
  const amps = new Float64Array(causes.length);
  const places = new Int32Array(causes.length);
  eachLeak(fence, (e, cause) => {
    amps[cause]! += fence.amps(e);
    places[cause]!++;
  });
  const total = amps.reduce((sum, own) => sum + own, 0);
  return causes
    .flatMap(({ kind, text }, c): LeakShare[] => {
      if (places[c] === 0) return [];
      const percent = total > 0 ? (100 * amps[c]!) / total : 0;
      return [{ kind, cause: text, amps: amps[c]!, percent, places: places[c]! }];
    })
    .sort((x, y) => y.amps - x.amps);
}

/** Calls back for every element by which current leaves a hot strand for anything else, with the cause that it counts to. */
function eachLeak({ network, siemens }: OpenFence, found: (e: number, cause: number) => void): void {
  const { cause } = network.elements;
  const { leaks, body } = leakPaths(network);
  for (let n = 0; n < leaks.length; n++) {
    const e = leaks[n]!;
    const through = body[n]!;
    found(e, through >= 0 && siemens[through]! < siemens[e]! ? cause[through]! : cause[e]!);
  }
}

/** Elements by which current leaves the hot strands, each with the post element that its path goes on through, or −1. */
interface LeakPaths {
  readonly leaks: Int32Array;
  readonly body: Int32Array;
}

/** Found once a network: an open fence is asked for its leaks after every change. */
const pathsOf = new WeakMap<FenceNetwork, LeakPaths>();

function leakPaths(network: FenceNetwork): LeakPaths {
  const known = pathsOf.get(network);
  if (known !== undefined) return known;
  const { elements, layout, postElement } = network;
  const hot = hotNodes(network);
  const postOfBody = new Int32Array(layout.nodeCount).fill(-1);
  for (let post = 0; post < layout.body.length; post++) postOfBody[layout.body[post]!] = post;
  const [leaks, body]: [number[], number[]] = [[], []];
  for (let e = 0; e < elements.count; e++) {
    const b = elements.nodeB[e]!;
    if (!isLeak(elements.kind[e]!) || !hot[elements.nodeA[e]!] || (b >= 0 && hot[b])) continue;
    const post = b < 0 || elements.kind[e] !== kindCode.insulator ? -1 : postOfBody[b]!;
    leaks.push(e);
    body.push(post < 0 ? -1 : postElement[post]!);
  }
  const paths = { leaks: Int32Array.from(leaks), body: Int32Array.from(body) };
  pathsOf.set(network, paths);
  return paths;
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
