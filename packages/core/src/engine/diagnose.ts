import type { EngineIssue } from './issue.js';
import { EARTH, type Network } from './network.js';

/** Says why a network that could not be factored has no solution. Linear time. */
export function diagnose(network: Network): EngineIssue {
  const { nodeCount, branchFrom, branchTo, branchSiemens, leakSiemens, ports } = network;
  // Union-find with earth as the last element.
  const parent = Int32Array.from({ length: nodeCount + 1 }, (_, i) => i);
  const find = (node: number) => {
    let root = node === EARTH ? nodeCount : node;
    while (parent[root] !== root) {
      parent[root] = parent[parent[root]!]!;
      root = parent[root]!;
    }
    return root;
  };
  for (let e = 0; e < branchFrom.length; e++) {
    if (branchSiemens[e]! > 0) parent[find(branchFrom[e]!)] = find(branchTo[e]!);
  }
  // The source joins its terminals.
  if (ports) parent[find(ports.plus)] = find(ports.minus);
  for (let i = 0; i < nodeCount; i++) if (leakSiemens[i]! > 0) parent[find(i)] = find(EARTH);

  const earth = find(EARTH);
  const source = ports ? find(ports.plus) : earth;
  const sizes = new Map<number, number>();
  let node = -1;
  for (let i = 0; i < nodeCount; i++) {
    const root = find(i);
    if (root === earth) continue;
    sizes.set(root, (sizes.get(root) ?? 0) + 1);
    // A part that floats alone is the better example; the source's own part is named only if it is all there is.
    if (node === -1 || (find(node) === source && root !== source)) node = i;
  }
  if (node === -1) {
    return {
      code: 'range',
      path: 'network',
      found: 'conductances whose products overflow or vanish',
      expected: 'values between about 1e-100 and 1e100 S',
    };
  }
  const root = find(node);
  const size = sizes.get(root)!;
  const ownPart = root === source;
  return {
    code: ownPart ? 'no-earth' : 'floating',
    path: `node ${node}`,
    found: `${size} node${size === 1 ? '' : 's'} without any conductance to earth${ownPart ? '' : ' or to the source'}`,
    expected: `a leak of more than 0 S at one of them${ownPart ? '' : ' or a branch of more than 0 S to the rest'}`,
    node,
    nodeCount: size,
  };
}
