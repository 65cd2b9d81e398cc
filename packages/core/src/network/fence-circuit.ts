import type { Network } from '../engine/network.js';
import type { FenceNetwork } from './network.js';

/** A fence's network as the engine takes it, with the way back. */
export interface FenceCircuit {
  readonly network: Network;
  /** By element: its branch in the network; −1 for an element to remote earth, which is part of its node's leak. */
  readonly branchOf: Int32Array;
  /** By declared pair: run, post of the run, hot strand and grounded strand, four numbers a pair. */
  readonly pairPlace: Int32Array;
}

/** Siemens of every element, from the siemens of every recipe. */
export function elementSiemens(network: FenceNetwork, recipeSiemens: Float64Array): Float64Array {
  const { count, recipe } = network.elements;
  const siemens = new Float64Array(count);
  for (let e = 0; e < count; e++) siemens[e] = recipeSiemens[recipe[e]!]!;
  return siemens;
}

/** Lays the elements out as branches and leaks; pairs are each hot strand with the nearest grounded strand of its post. */
export function toCircuit(fence: FenceNetwork, siemens: Float64Array): FenceCircuit {
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
    network: { ...network, pairs: { a: Int32Array.from(a), b: Int32Array.from(b) }, gaps: sparkGaps(fence) },
    branchOf,
    pairPlace: Int32Array.from(place),
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
    // A spark without resistance is a short, and is reckoned as next to none.
    ohms: Float64Array.from(gaps, (gap) => Math.max(typical(gap.ohms), 1e-3)),
  };
}

function strandPairs(fence: FenceNetwork): { a: number[]; b: number[]; place: number[] } {
  const a: number[] = [];
  const b: number[] = [];
  const place: number[] = [];
  fence.layout.runs.forEach((run, r) => {
    run.strands.forEach((hot, h) => {
      if (hot.role !== 'hot') return;
      const g = nearestGrounded(run.strands, h);
      if (g < 0) return;
      for (let i = 0; i <= run.spans; i++) {
        a.push(run.nodes[h]![i]!);
        b.push(run.nodes[g]![i]!);
        place.push(r, i, h, g);
      }
    });
  });
  return { a, b, place };
}

/** Index of the grounded strand nearest in height to a strand; −1 where the build has none. */
export function nearestGrounded(strands: readonly { role: string; heightM: number }[], hot: number): number {
  let best = -1;
  strands.forEach((strand, s) => {
    if (strand.role !== 'grounded') return;
    const gap = Math.abs(strand.heightM - strands[hot]!.heightM);
    if (best < 0 || gap < Math.abs(strands[best]!.heightM - strands[hot]!.heightM)) best = s;
  });
  return best;
}
