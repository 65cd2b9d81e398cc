import type { Network } from '@postvolt/core/engine';
import { Matrix } from 'ml-matrix';

/** The nodal matrix of a network as a dense matrix, assembled the textbook way; extra conductances as [a, b or −1, S]. */
export function nodalMatrix(network: Network, extra: readonly (readonly [number, number, number])[] = []): Matrix {
  const { nodeCount, branchFrom, branchTo, branchSiemens, leakSiemens } = network;
  const matrix = Matrix.zeros(nodeCount, nodeCount);
  const add = (a: number, b: number, g: number) => {
    matrix.set(a, a, matrix.get(a, a) + g);
    if (b < 0) return;
    matrix.set(b, b, matrix.get(b, b) + g);
    matrix.set(a, b, matrix.get(a, b) - g);
    matrix.set(b, a, matrix.get(b, a) - g);
  };
  for (let i = 0; i < nodeCount; i++) add(i, -1, leakSiemens[i]!);
  for (let e = 0; e < branchFrom.length; e++) add(branchFrom[e]!, branchTo[e]!, branchSiemens[e]!);
  for (const [a, b, g] of extra) add(a, b, g);
  return matrix;
}
