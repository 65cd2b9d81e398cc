import type { Network } from '../engine/network.js';
import { nearestGrounded } from './layout.js';
import type { FenceNetwork } from './network.js';

/** A fence's network as the engine takes it, with the way back. */
export interface EngineNetwork {
  readonly network: Network;
  /** By element: its branch in the network; −1 for an element to remote earth, which is part of its node's leak. */
  readonly branchOf: Int32Array;
  /** By declared pair: run, post of the run, hot strand and grounded strand, four numbers a pair. */
  readonly pairPlace: Int32Array;
}

/** A spark without resistance is a short, and is reckoned as next to none, Ω. */
const leastSparkOhms = 1e-3;

/** Ohms of a spark once it fires, as the engine takes them. */
export const sparkOhms = (ohms: number): number => Math.max(ohms, leastSparkOhms);

/** Lays the elements out as branches and leaks; pairs are each hot strand with the nearest grounded strand of its post. */
export function toEngineNetwork(fence: FenceNetwork, siemens: Float64Array): EngineNetwork {
  const { elements, layout } = fence;
  const branchOf = new Int32Array(elements.count).fill(-1);
  let branches = 0;
  for (let e = 0; e < elements.count; e++) if (elements.nodeB[e]! >= 0) branchOf[e] = branches++;
  const network = {
    nodeCount: layout.nodeCount,
    branchFrom: new Int32Array(branches),
    branchTo: new Int32Array(branches),
    branchSiemens: new Float64Array(branches),
    leakSiemens: new Float64Array(layout.nodeCount),
    ports: { plus: layout.fenceTerminal, minus: layout.groundTerminal },
  };
  for (let e = 0; e < elements.count; e++) {
    const branch = branchOf[e]!;
    if (branch < 0) continue;
    network.branchFrom[branch] = elements.nodeA[e]!;
    network.branchTo[branch] = elements.nodeB[e]!;
  }
  setSiemens(fence, branchOf, siemens, network.branchSiemens, network.leakSiemens);
  const { a, b, place } = strandPairs(fence);
  return {
    network: { ...network, pairs: { a, b }, gaps: sparkGaps(fence) },
    branchOf,
    pairPlace: place,
  };
}

/** Writes element conductances into a circuit's branch and leak arrays. */
export function setSiemens(
  fence: FenceNetwork,
  branchOf: Int32Array,
  siemens: Float64Array,
  branchSiemens: Float64Array,
  leakSiemens: Float64Array,
): void {
  const { count, nodeA } = fence.elements;
  leakSiemens.fill(0);
  for (let e = 0; e < count; e++) {
    const branch = branchOf[e]!;
    if (branch >= 0) branchSiemens[branch] = siemens[e]!;
    else leakSiemens[nodeA[e]!]! += siemens[e]!;
  }
}

function sparkGaps({ sparkGaps: gaps, elements, parameters }: FenceNetwork): Network['gaps'] {
  if (gaps.length === 0) return undefined;
  const typical = (parameter: number) => parameters[parameter]!.estimate.typical;
  return {
    a: Int32Array.from(gaps, (gap) => elements.nodeA[gap.element]!),
    b: Int32Array.from(gaps, (gap) => elements.nodeB[gap.element]!),
    volts: Float64Array.from(gaps, (gap) => typical(gap.volts)),
    ohms: Float64Array.from(gaps, (gap) => sparkOhms(typical(gap.ohms))),
  };
}

function strandPairs(fence: FenceNetwork) {
  const { runs } = fence.layout;
  const hot = runs.flatMap((run, r) =>
    run.strands.flatMap(({ role }, h) => {
      const g = role === 'hot' ? nearestGrounded(run.strands, h) : -1;
      return g < 0 ? [] : [{ r, run, h, g }];
    }),
  );
  const count = hot.reduce((sum, { run }) => sum + run.spans + 1, 0);
  const [a, b, place] = [new Int32Array(count), new Int32Array(count), new Int32Array(4 * count)];
  let p = 0;
  for (const { r, run, h, g } of hot) {
    for (let i = 0; i <= run.spans; i++, p++) {
      a[p] = run.nodes[h]![i]!;
      b[p] = run.nodes[g]![i]!;
      place.set([r, i, h, g], 4 * p);
    }
  }
  return { a, b, place };
}

/** Elements to remote earth by their node: those of node n stand at `start[n]` to `start[n + 1]` − 1. */
export interface NodeLeaks {
  /** Siemens of a node's leaks, added up anew so that nothing is left of what was taken away. */
  sum(node: number, siemens: Float64Array): number;
}

/** Gathers the elements to remote earth of every node. */
export function leaksByNode({ elements, layout }: FenceNetwork, branchOf: Int32Array): NodeLeaks {
  const start = new Int32Array(layout.nodeCount + 1);
  for (let e = 0; e < elements.count; e++) if (branchOf[e]! < 0) start[elements.nodeA[e]! + 1]!++;
  for (let n = 0; n < layout.nodeCount; n++) start[n + 1]! += start[n]!;
  const fill = start.slice();
  const members = new Int32Array(start[layout.nodeCount]!);
  for (let e = 0; e < elements.count; e++) if (branchOf[e]! < 0) members[fill[elements.nodeA[e]!]!++] = e;
  return {
    sum(node, siemens) {
      let sum = 0;
      for (let i = start[node]!; i < start[node + 1]!; i++) sum += siemens[members[i]!]!;
      return sum;
    },
  };
}

const isSame = (a: ArrayLike<number> | undefined, b: ArrayLike<number> | undefined): boolean =>
  a?.length === b?.length && Array.prototype.every.call(a ?? [], (value: number, i: number) => value === b![i]);

/** True where two networks differ in their values alone. */
export const isSameShape = (a: Network, b: Network): boolean =>
  a.nodeCount === b.nodeCount &&
  a.ports?.plus === b.ports?.plus &&
  a.ports?.minus === b.ports?.minus &&
  isSame(a.branchFrom, b.branchFrom) &&
  isSame(a.branchTo, b.branchTo) &&
  isSame(a.pairs?.a, b.pairs?.a) &&
  isSame(a.pairs?.b, b.pairs?.b) &&
  isSame(a.gaps?.a, b.gaps?.a) &&
  isSame(a.gaps?.b, b.gaps?.b);
