import { EARTH, type Network } from '@postvolt/core/engine';
import { BigNumberDependencies, bignumberDependencies, create } from 'mathjs';
import { type Extra, forEachConductance } from './dense.js';

const precise = create(
  { BigNumberDependencies: BigNumberDependencies!, bignumberDependencies: bignumberDependencies! },
  { number: 'BigNumber', precision: 50 },
);
const big = (value: number) => precise.bignumber(value);
type Big = ReturnType<typeof big>;

/**
 * Volts of every node for amps injected at each, by elimination with pivoting in 50-digit arithmetic.
 *
 * Eighteen decades of conductance cost it some twenty digits, so that about thirty are left.
 */
export function preciseVolts(network: Network, amps: readonly number[], extra: readonly Extra[] = []): Big[] {
  const n = network.nodeCount;
  const rows = Array.from({ length: n }, (_, i) =>
    Array.from({ length: n + 1 }, (_, j) => (j === n ? big(amps[i]!) : big(0))),
  );
  const add = (i: number, j: number, g: Big) => {
    rows[i]![j] = rows[i]![j]!.plus(g);
  };
  forEachConductance(network, extra, (a, b, siemens) => {
    const g = big(siemens);
    add(a, a, g);
    if (b === EARTH) return;
    add(b, b, g);
    add(a, b, g.negated());
    add(b, a, g.negated());
  });
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (rows[i]![k]!.abs().greaterThan(rows[pivot]![k]!.abs())) pivot = i;
    [rows[k], rows[pivot]] = [rows[pivot]!, rows[k]!];
    for (let i = k + 1; i < n; i++) {
      const ratio = rows[i]![k]!.div(rows[k]![k]!);
      if (ratio.isZero()) continue;
      for (let j = k; j <= n; j++) rows[i]![j] = rows[i]![j]!.minus(ratio.times(rows[k]![j]!));
    }
  }
  const volts: Big[] = [];
  for (let i = n - 1; i >= 0; i--) {
    let sum = rows[i]![n]!;
    for (let j = i + 1; j < n; j++) sum = sum.minus(rows[i]![j]!.times(volts[j]!));
    volts[i] = sum.div(rows[i]![i]!);
  }
  return volts;
}
