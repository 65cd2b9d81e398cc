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
    checkNode('ports.plus', ports.plus, nodeCount);
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

const isNode = (node: number, nodeCount: number): boolean => Number.isInteger(node) && node >= 0 && node < nodeCount;

/** Refuses a list that holds what is no node's number. */
export function checkNodes(path: string, nodes: ArrayLike<number>, nodeCount: number): void {
  for (let i = 0; i < nodes.length; i++)
    if (!isNode(nodes[i]!, nodeCount)) checkNode(`${path}[${i}]`, nodes[i]!, nodeCount);
}

/** Refuses what is no node's number; `EARTH` too, unless it is allowed. */
export function checkNode(path: string, node: number, nodeCount: number, earthAllowed = false): void {
  if (earthAllowed && node === EARTH) return;
  if (!isNode(node, nodeCount)) {
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
    if (from >>> 0 >= nodeCount) checkNode(`${pathA}[${i}]`, from, nodeCount);
    if (to >>> 0 >= nodeCount) checkNode(`${pathB}[${i}]`, to, nodeCount, earthAllowed);
    if (from === to) refuse(`${pathB}[${i}]`, to, `another node than ${pathA}[${i}]`);
  }
}

/** Refuses a conductance, S, below zero or without end; of a list's entry the path is written only where it is refused. */
export function checkConductance(path: string, siemens: number, index?: number): void {
  if (siemens >= 0 && siemens < Infinity) return;
  refuse(index === undefined ? path : `${path}[${index}]`, siemens, 'a finite conductance, 0 S or more');
}

function checkSiemens(path: string, siemens: Float64Array): void {
  for (let i = 0; i < siemens.length; i++) checkConductance(path, siemens[i]!, i);
}
