import { EARTH, type Network } from '@postvolt/core/engine';
import { all, create } from 'mathjs';
import { inverse, Matrix, solve } from 'ml-matrix';

/** A conductance from node a to node b or `EARTH`, S, on top of a network's own. */
export type Extra = readonly [a: number, b: number, siemens: number];

/** The nodal matrix of a network, assembled the textbook way. */
export function nodalMatrix(network: Network, extra: readonly Extra[] = []): Matrix {
  const matrix = Matrix.zeros(network.nodeCount, network.nodeCount);
  forEachConductance(network, extra, (a, b, g) => {
    matrix.set(a, a, matrix.get(a, a) + g);
    if (b === EARTH) return;
    matrix.set(b, b, matrix.get(b, b) + g);
    matrix.set(a, b, matrix.get(a, b) - g);
    matrix.set(b, a, matrix.get(b, a) - g);
  });
  return matrix;
}

/** Inverse of the nodal matrix, Ω: the mutual resistances of all nodes. */
export function denseInverse(network: Network, extra: readonly Extra[] = []): Matrix {
  return inverse(nodalMatrix(network, extra));
}

/** Volts of every node with a Thévenin source of so many ohms between the ports. */
export function denseVolts(network: Network, emfVolts: number, ohms: number, extra: readonly Extra[] = []): number[] {
  const { plus, minus } = network.ports!;
  const matrix = nodalMatrix(network, [...extra, [plus, minus, 1 / ohms]]);
  const amps = Matrix.zeros(network.nodeCount, 1);
  amps.set(plus, 0, emfVolts / ohms);
  if (minus !== EARTH) amps.set(minus, 0, -emfVolts / ohms);
  return solve(matrix, amps).to1DArray();
}

const precise = create(all, { number: 'BigNumber', precision: 50 });
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

function forEachConductance(
  { leakSiemens, branchFrom, branchTo, branchSiemens }: Network,
  extra: readonly Extra[],
  visit: (a: number, b: number, siemens: number) => void,
): void {
  leakSiemens.forEach((g, i) => {
    visit(i, EARTH, g);
  });
  branchSiemens.forEach((g, e) => {
    visit(branchFrom[e]!, branchTo[e]!, g);
  });
  for (const [a, b, g] of extra) visit(a, b, g);
}
