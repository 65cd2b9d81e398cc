import type { FenceNetwork } from '../network/network.js';

/** One node of every part of the network that nothing joins to remote earth, lowest node first. */
export function floatingNodes({ elements, layout }: FenceNetwork, siemens: Float64Array): number[] {
  // Union-find, remote earth last; the lower number of two parts becomes the root unless earth is one of them.
  const earth = layout.nodeCount;
  const parent = Int32Array.from({ length: earth + 1 }, (_, node) => node);
  const find = (node: number): number => {
    let root = node;
    while (parent[root] !== root) {
      parent[root] = parent[parent[root]!]!;
      root = parent[root]!;
    }
    return root;
  };
  const join = (a: number, b: number) => {
    const [low, high] = [find(a), find(b)].sort((x, y) => x - y) as [number, number];
    if (high === earth) parent[low] = high;
    else parent[high] = low;
  };
  for (let e = 0; e < elements.count; e++) {
    if (siemens[e]! > 0) join(elements.nodeA[e]!, elements.nodeB[e]! < 0 ? earth : elements.nodeB[e]!);
  }
  join(layout.fenceTerminal, layout.groundTerminal);
  const roots = new Set<number>();
  for (let node = 0; node < earth; node++) if (find(node) !== earth) roots.add(find(node));
  return [...roots];
}
