import { Circuit } from '../engine/circuit.js';
import type { Network } from '../engine/network.js';
import { SourceCurve } from '../engine/source-curve.js';
import { touchNodes, touchPairs } from '../engine/touch.js';
import { curvePoints } from '../network/curve.js';
import { metalDistances } from '../network/distances.js';
import { openBy } from '../network/elements.js';
import { elementSiemens, type FenceCircuit, toCircuit } from '../network/fence-circuit.js';
import type { Layout } from '../network/layout.js';
import { buildNetwork, type FenceNetwork, recipeValues } from '../network/network.js';
import type { ResolvedCondition, ResolvedPlan } from '../plan/resolved.js';
import type { SolvedElements } from './leaks.js';
import type { StrandStatus } from './result.js';

/** A plan's network in one condition, solved: what results and studies are made from. */
export interface SolvedFence extends SolvedElements {
  readonly fence: FenceNetwork;
  readonly circuit: Circuit;
  readonly map: FenceCircuit;
  readonly siemens: Float64Array;
  readonly volts: Float64Array;
  /** By node: metres of metal from the fence terminal, and with faults mended; Infinity where no metal leads. */
  readonly distanceM: Float64Array;
  readonly mendedDistanceM: Float64Array;
}

/**
 * Builds and solves a plan in one condition; where `like` has the same nodes and branches, its ordering serves again.
 */
export function solveFence(
  plan: ResolvedPlan,
  condition: ResolvedCondition,
  layout?: Layout,
  like?: SolvedFence,
): SolvedFence {
  const fence = buildNetwork(plan, condition, layout);
  const siemens = elementSiemens(fence, recipeValues(fence));
  const map = toCircuit(fence, siemens);
  const source = new SourceCurve(curvePoints(plan.energizer, condition));
  const known = like !== undefined && isSameShape(like.map.network, map.network) ? like.circuit.analysis : undefined;
  const circuit = new Circuit(map.network, source, known);
  const { volts } = circuit.solve();
  const { nodeCount, fenceTerminal } = fence.layout;
  const distanceM = metalDistances(fence.elements, nodeCount, fenceTerminal);
  const isCut = fence.elements.open.includes(openBy.fault);
  return {
    fence,
    circuit,
    map,
    siemens,
    volts,
    distanceM,
    mendedDistanceM: isCut ? metalDistances(fence.elements, nodeCount, fenceTerminal, 'faults') : distanceM,
  };
}

const isSame = (a: ArrayLike<number> | undefined, b: ArrayLike<number> | undefined): boolean =>
  a?.length === b?.length && Array.prototype.every.call(a ?? [], (value: number, i: number) => value === b![i]);

/** True where two networks differ in their values alone. */
const isSameShape = (a: Network, b: Network): boolean =>
  a.nodeCount === b.nodeCount &&
  a.ports?.plus === b.ports?.plus &&
  a.ports?.minus === b.ports?.minus &&
  isSame(a.branchFrom, b.branchFrom) &&
  isSame(a.branchTo, b.branchTo) &&
  isSame(a.pairs?.a, b.pairs?.a) &&
  isSame(a.pairs?.b, b.pairs?.b) &&
  isSame(a.gaps?.a, b.gaps?.a) &&
  isSame(a.gaps?.b, b.gaps?.b);

/** Why a strand's node carries the volts that it does. */
export function statusOf(solved: SolvedFence, role: 'hot' | 'grounded', node: number): StrandStatus {
  if (role === 'grounded') return 'grounded';
  if (Number.isFinite(solved.distanceM[node]!)) return 'live';
  return Number.isFinite(solved.mendedDistanceM[node]!) ? 'dead' : 'switched off';
}

/** What the plan's animal gets at every node, by the way back that gives it more: the soil, or the grounded strand. */
export interface AnimalTouches {
  /** Across body and hide, without what the soil under the feet takes. */
  readonly volts: Float64Array;
  readonly amps: Float64Array;
  /** Of body and hide in the animal's whole path, feet and soil included; 1 between two strands. */
  readonly bodyShare: Float64Array;
}

/**
 * Touches every strand in turn with the plan's animal; exact across the knees of the energizer's curve. `recipes` holds the
 * siemens of every recipe, of typical values where it is left out.
 */
export function touchEverywhere(
  { fence, circuit }: Pick<SolvedFence, 'fence' | 'circuit'>,
  recipes: Float64Array = recipeValues(fence),
): AnimalTouches {
  const { layout } = fence;
  const bodyOhms = 1 / recipes[fence.animalBetweenStrands]!;
  const ohms = new Float64Array(layout.nodeCount).fill(1 / recipes[fence.animalToEarth[0]![0]!]!);
  layout.runs.forEach((run, r) => {
    for (const nodes of run.nodes) {
      nodes.forEach((node, i) => {
        ohms[node] = 1 / recipes[fence.animalToEarth[r]![i]!]!;
      });
    }
  });
  const { amps } = touchNodes(circuit, ohms);
  const bodyShare = ohms.map((path) => bodyOhms / path);
  const { pairs } = circuit.network;
  if (pairs !== undefined && pairs.a.length > 0) {
    const between = touchPairs(circuit, bodyOhms);
    pairs.a.forEach((node, p) => {
      if (between.amps[p]! <= amps[node]!) return;
      amps[node] = between.amps[p]!;
      bodyShare[node] = 1;
    });
  }
  return { volts: amps.map((through) => through * bodyOhms), amps, bodyShare };
}
