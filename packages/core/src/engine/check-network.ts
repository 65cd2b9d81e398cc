import { refuse } from './issue.js';
import { EARTH, type Network } from './network.js';

/**
 * Checks every number of a network.
 *
 * Throws an {@link EngineError} with code `data` that names the first illegal entry.
 */
export function checkNetwork(network: Network): void {
  const { nodeCount, branchFrom, branchTo, branchSiemens, leakSiemens, ports, pairs, gaps } = network;
  if (!Number.isInteger(nodeCount) || nodeCount < 1)
    refuse('nodeCount', nodeCount, 'a whole number of nodes, 1 or more');
  sameLength('branchTo', branchTo.length, branchFrom.length);
  sameLength('branchSiemens', branchSiemens.length, branchFrom.length);
  sameLength('leakSiemens', leakSiemens.length, nodeCount);
  checkEnds('branchFrom', 'branchTo', branchFrom, branchTo, nodeCount, false);
  checkSiemens('branchSiemens', branchSiemens);
  checkSiemens('leakSiemens', leakSiemens);
  if (ports) {
    checkNode('ports.plus', ports.plus, nodeCount, false);
    checkNode('ports.minus', ports.minus, nodeCount, true);
    if (ports.plus === ports.minus) refuse('ports.minus', ports.minus, 'another node than ports.plus');
  }
  if (pairs) {
    sameLength('pairs.b', pairs.b.length, pairs.a.length);
    checkEnds('pairs.a', 'pairs.b', pairs.a, pairs.b, nodeCount, false);
  }
  if (gaps) {
    sameLength('gaps.b', gaps.b.length, gaps.a.length);
    sameLength('gaps.volts', gaps.volts.length, gaps.a.length);
    sameLength('gaps.ohms', gaps.ohms.length, gaps.a.length);
    checkEnds('gaps.a', 'gaps.b', gaps.a, gaps.b, nodeCount, true);
    for (let i = 0; i < gaps.a.length; i++) {
      const volts = gaps.volts[i]!;
      const ohms = gaps.ohms[i]!;
      if (!(volts >= 0 && volts < Infinity)) refuse(`gaps.volts[${i}]`, volts, 'a finite voltage, 0 V or more');
      if (!(ohms > 0 && ohms < Infinity)) refuse(`gaps.ohms[${i}]`, ohms, 'a finite resistance of more than 0 ohms');
    }
  }
}

function sameLength(path: string, found: number, expected: number): void {
  if (found !== expected) refuse(`${path}.length`, found, String(expected));
}

function checkNode(path: string, node: number, nodeCount: number, earthAllowed: boolean): void {
  if (earthAllowed && node === EARTH) return;
  if (!Number.isInteger(node) || node < 0 || node >= nodeCount) {
    refuse(path, node, `a node number, 0 to ${nodeCount - 1}${earthAllowed ? ', or EARTH (-1)' : ''}`);
  }
}

function checkEnds(
  pathA: string,
  pathB: string,
  a: Int32Array,
  b: Int32Array,
  nodeCount: number,
  earthAllowed: boolean,
): void {
  for (let i = 0; i < a.length; i++) {
    const from = a[i]!;
    const to = b[i]!;
    // One unsigned comparison each on the usual path; the slow checks word the error.
    if (from >>> 0 >= nodeCount) checkNode(`${pathA}[${i}]`, from, nodeCount, false);
    if (to >>> 0 >= nodeCount) checkNode(`${pathB}[${i}]`, to, nodeCount, earthAllowed);
    if (from === to) refuse(`${pathB}[${i}]`, to, `another node than ${pathA}[${i}]`);
  }
}

function checkSiemens(path: string, siemens: Float64Array): void {
  for (let i = 0; i < siemens.length; i++) {
    const value = siemens[i]!;
    if (!(value >= 0 && value < Infinity)) refuse(`${path}[${i}]`, value, 'a finite conductance, 0 S or more');
  }
}
