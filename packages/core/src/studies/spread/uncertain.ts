import { type Estimate, isUncertain } from '@postvolt/tables';
import type { FenceNetwork } from '../../network/network.js';
import type { ResolvedEnergizer } from '../../plan/resolved.js';
import { usedParameters } from './used-parameters.js';

/** Input values that rise and fall group: one draw for all of them. */
export interface UncertainValue {
  /** The `group` of the parameters, or `energizer`. */
  readonly key: string;
  /** In words. */
  readonly name: string;
  readonly kind: string;
  /** Table rows. */
  readonly from: readonly string[];
}

export const energizerKey = 'energizer';

/** Values that the plan's target depends on and that carry a range: of the network's parameters, and the energizer's output. */
export function uncertainValues(network: FenceNetwork): UncertainValue[] {
  const { energizer, target } = network.plan;
  const found = new Map<string, { kind: string; names: Set<string>; from: Set<string> }>();
  const add = (key: string, kind: string, name: string, from: string) => {
    const known = found.get(key);
    if (known === undefined) found.set(key, { kind, names: new Set([name]), from: new Set([from]) });
    else {
      known.names.add(name);
      known.from.add(from);
    }
  };
  if (energizer.loads.some(({ volts }) => isUncertain(volts))) {
    const from = energizer.row === null ? energizer.loads[0]!.volts.source : `energizers: ${energizer.row}`;
    add(energizerKey, energizerKey, 'output of the energizer', from);
  }
  const used = usedParameters(network, target.of === 'across the animal');
  network.parameters.forEach(({ group, kind, name, tableRow: from, estimate }, p) => {
    if (used[p] === 1 && isUncertain(estimate)) add(group, kind, name, from);
  });
  return distinct(
    [...found].map(([key, { kind, names, from }]) => ({ key, kind, name: joined(names), from: [...from] })),
  );
}

/** Factor on the energizer's volts at every load: one for all, so that the curve keeps falling; ranges of loads are averaged. */
export function sourceFactor({ loads }: ResolvedEnergizer): Pick<Estimate, 'low' | 'typical' | 'high'> {
  const mean = (end: 'low' | 'high') =>
    Math.exp(loads.reduce((sum, { volts }) => sum + Math.log(volts[end] / volts.typical), 0) / loads.length);
  return { low: mean('low'), typical: 1, high: mean('high') };
}

const joined = (names: ReadonlySet<string>): string => {
  const [first, ...rest] = names;
  return rest.length === 0 ? first! : rest.length === 1 ? `${first}; ${rest[0]}` : `${first} and ${rest.length} more`;
};

/** Adds to names that several values share what tells them apart: the run, or the place on it. */
function distinct(values: readonly UncertainValue[]): UncertainValue[] {
  const uses = new Map<string, number>();
  for (const { name } of values) uses.set(name, (uses.get(name) ?? 0) + 1);
  return values.map((value) => {
    const place = value.key.slice(value.key.indexOf('|') + 1);
    return uses.get(value.name) === 1 ? value : { ...value, name: `${value.name} (${place})` };
  });
}
