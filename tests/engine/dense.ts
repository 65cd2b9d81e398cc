import { EARTH, type Network } from '@postvolt/core/engine';
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

/** Visits every leak, branch and extra conductance. */
export function forEachConductance(
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
