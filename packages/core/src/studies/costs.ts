import { gradient } from '../engine/gradient.js';
import type { FenceChange, OpenFence } from '../fence/open-fence.js';
import { isMetal, kindCode, openBy } from '../network/elements.js';
import { formulaSensitivity, typicalValues } from '../network/formulas.js';
import { leakGroups } from '../result/leaks.js';

/** What one cause takes from a strand's volts. */
export interface CauseLoss {
  /** As in the leak budget; `wire` and `ground` besides. */
  readonly kind: string;
  readonly cause: string;
  /** Volts that the strand would gain if this cause alone were gone: no leak there, no resistance in the wire or ground. */
  readonly volts: number;
  readonly places: number;
}

/** How a strand's volts follow one input value. */
export interface InputSensitivity {
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
export function lossesByCause(fence: OpenFence, node: number): CauseLoss[] {
  const { elements, sparkGaps } = fence.network;
  const { siemens } = fence;
  const present = fence.volts[node]!;
  const trial = fence.fork();
  const without = (members: readonly number[], becomes: number): number => {
    const gaps = sparkGaps.flatMap(({ element }, gap) => (members.includes(element) ? [gap] : []));
    const change: FenceChange = { elements: members, siemens: new Float64Array(members.length).fill(becomes), gaps };
    return trial.tried(change, ({ volts }) => volts[node]!) - present;
  };
  const costs: CauseLoss[] = leakGroups(fence).map(({ kind, cause, elements: members }) => ({
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
export function inputSensitivities(fence: OpenFence, node: number): InputSensitivity[] {
  const { network, branchOf, circuit, open } = fence;
  const { elements, formulas, parameters } = network;
  const slope = gradient(circuit, node);
  const perFormula = new Float64Array(formulas.length);
  for (let e = 0; e < elements.count; e++) {
    if (open[e] !== openBy.nothing) continue;
    const branch = branchOf[e]!;
    perFormula[elements.formula[e]!]! +=
      branch >= 0 ? slope.perBranchSiemens[branch]! : slope.perLeakSiemens[elements.nodeA[e]!]!;
  }
  const values = typicalValues(parameters);
  const perLog = new Float64Array(parameters.length);
  formulas.forEach((formula, r) => {
    if (perFormula[r] === 0) return;
    for (const [parameter, siemens] of formulaSensitivity(formula, values))
      perLog[parameter]! += perFormula[r]! * siemens;
  });
  return parameters
    .map(({ key, name, kind, estimate: { low, typical, high } }, p) => {
      const pull = perLog[p]!;
      const at = (end: number) => (end > 0 && typical > 0 ? pull * Math.log(end / typical) : 0);
      return { key, name, kind, voltsPerPercent: pull / 100, lowVolts: at(low), highVolts: at(high) };
    })
    .sort((a, b) => Math.abs(b.voltsPerPercent) - Math.abs(a.voltsPerPercent));
}
