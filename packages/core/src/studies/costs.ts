import { Circuit } from '../engine/circuit.js';
import { gradient } from '../engine/gradient.js';
import { isMetal, kindCode } from '../network/elements.js';
import { recipeSensitivity, typicalValues } from '../network/parameters.js';
import { leakGroups } from '../result/leaks.js';
import type { SolvedFence } from '../result/solved-fence.js';

/** What one cause takes from a strand's volts. */
export interface VoltsCost {
  /** As in the leak budget; `wire` and `ground` besides. */
  readonly kind: string;
  readonly cause: string;
  /** Volts that the strand would gain if this cause alone were gone: no leak there, no resistance in the wire or ground. */
  readonly volts: number;
  readonly places: number;
}

/** How a strand's volts follow one input value. */
export interface InputPull {
  readonly key: string;
  readonly name: string;
  readonly kind: string;
  /** Volts for a rise of the value by one percent. */
  readonly voltsPerPercent: number;
  /** Volts at the low and at the high end of the value's range less those at the typical value, by the slope at the typical value in the logarithm. */
  readonly lowVolts: number;
  readonly highVolts: number;
}

/** Conductance that stands for "no resistance" when a cause is taken away: 1 µΩ is nothing beside any fence. */
const shortSiemens = 1e6;

/**
 * What costs a node its volts, cause by cause, largest first: each cause is taken away alone and the network solved
 * again, one numeric pass a cause. The costs do not add up: two leaks shadow each other.
 */
export function voltsCosts(solved: SolvedFence, node: number): VoltsCost[] {
  const { fence, map, siemens, volts } = solved;
  const { elements } = fence;
  const { network, source, analysis } = solved.circuit;
  // Forks share their spark gaps' values; these are to be changed too.
  const gaps = network.gaps && { ...network.gaps, volts: network.gaps.volts.slice() };
  const circuit = new Circuit({ ...network, gaps }, source, analysis);
  const { branchSiemens, leakSiemens } = circuit.network;
  const sparks = fence.sparkGaps;
  const without = (members: readonly number[], becomes: number): number => {
    const change = (e: number, from: number, to: number) => {
      const gap = sparks.findIndex(({ element }) => element === e);
      if (gap >= 0) {
        gaps!.volts[gap] = Number.MAX_VALUE;
        return;
      }
      const branch = map.branchOf[e]!;
      if (branch >= 0) branchSiemens[branch] = to;
      // Sums that fall back to a hair under zero would be refused.
      else leakSiemens[elements.nodeA[e]!] = Math.max(0, leakSiemens[elements.nodeA[e]!]! - from + to);
    };
    for (const e of members) change(e, siemens[e]!, becomes);
    circuit.valuesChanged();
    const gained = circuit.solve().volts[node]! - volts[node]!;
    branchSiemens.set(network.branchSiemens);
    leakSiemens.set(network.leakSiemens);
    if (gaps) gaps.volts.set(network.gaps!.volts);
    return gained;
  };
  const costs: VoltsCost[] = leakGroups(solved).map(({ kind, cause, elements: members }) => ({
    kind,
    cause,
    volts: without(members, 0),
    places: members.length,
  }));
  const pick = (wanted: (kind: number) => boolean) =>
    Array.from({ length: elements.count }, (_, e) => e).filter((e) => wanted(elements.kind[e]!) && siemens[e]! > 0);
  const wire = pick(isMetal);
  costs.push({
    kind: 'wire',
    cause: 'resistance of wire, joints and cables',
    volts: without(wire, shortSiemens),
    places: wire.length,
  });
  const ground = pick((kind) => kind === kindCode['ground system']);
  costs.push({
    kind: 'ground',
    cause: 'resistance of the ground system',
    volts: without(ground, shortSiemens),
    places: 1,
  });
  return costs.sort((a, b) => b.volts - a.volts);
}

/**
 * How a node's volts follow every input value that the network is made of, by one adjoint solve; the strongest first.
 *
 * Exact as a slope; over a wide range the volts bend, so the ends of the range are a guide and `spread` is the answer.
 */
export function inputPulls(solved: SolvedFence, node: number): InputPull[] {
  const { fence, map, circuit } = solved;
  const { elements, recipes, parameters } = fence;
  const slope = gradient(circuit, node);
  const perRecipe = new Float64Array(recipes.length);
  for (let e = 0; e < elements.count; e++) {
    const branch = map.branchOf[e]!;
    perRecipe[elements.recipe[e]!]! +=
      branch >= 0 ? slope.perBranchSiemens[branch]! : slope.perLeakSiemens[elements.nodeA[e]!]!;
  }
  const values = typicalValues(parameters);
  const perLog = new Float64Array(parameters.length);
  recipes.forEach((recipe, r) => {
    if (perRecipe[r] === 0) return;
    for (const [parameter, siemens] of recipeSensitivity(recipe, values)) perLog[parameter]! += perRecipe[r]! * siemens;
  });
  return parameters
    .map(({ key, name, kind, estimate: { low, typical, high } }, p) => {
      const pull = perLog[p]!;
      const at = (end: number) => (end > 0 && typical > 0 ? pull * Math.log(end / typical) : 0);
      return { key, name, kind, voltsPerPercent: pull / 100, lowVolts: at(low), highVolts: at(high) };
    })
    .sort((a, b) => Math.abs(b.voltsPerPercent) - Math.abs(a.voltsPerPercent));
}
