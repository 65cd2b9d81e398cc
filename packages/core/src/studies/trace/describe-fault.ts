import type { FenceNetwork } from '../../network/network.js';
import { likelyCauses } from './causes.js';
import type { SizeCell } from './fault-sizes.js';
import type { Located } from './locate.js';
import { likeliestPosts } from './place-posterior.js';
import type { FaultKinds, TracedFault } from './result.js';
import { closeGaps, stretchesOf } from './stretches.js';
import { likeliestKind } from './words.js';

/** Chance that the reported stretches hold the fault. */
export const stretchChance = 0.95;

/** Marks the posts of the stretches that are reported. */
export function reportedPosts(fence: FenceNetwork, { posterior }: Located): Uint8Array {
  const marked = likeliestPosts(posterior.ofPost, stretchChance);
  closeGaps(fence.layout, marked);
  return marked;
}

/** A located fault in the terms of results. */
export function describeFault(fence: FenceNetwork, located: Located): TracedFault {
  const { layout } = fence;
  const { posterior, scores } = located;
  const { hypotheses } = scores;
  const { probability } = posterior;
  const marked = reportedPosts(fence, located);
  const kinds = { leak: 0, series: 0, contact: 0 };
  let cost = 0;
  hypotheses.forEach((hypothesis, h) => {
    kinds[hypothesis.candidate.kind] += probability[h]!;
    cost += hypothesis.cost * probability[h]!;
  });
  return {
    stretches: stretchesOf(layout, marked, posterior.ofPost),
    stretchChance,
    fenceShare: marked.reduce((sum, mark) => sum + mark, 0) / layout.postCount,
    kinds,
    causes: likelyCauses(fence, hypotheses, probability),
    ohms: sizesOf(located, likeliestKind(kinds)),
    cost,
  };
}

/** 5th, 50th and 95th percentile of the ohms of a kind, even in the logarithm within a cell; null where they are without end. */
function sizesOf({ scores: { hypotheses }, posterior }: Located, kind: keyof FaultKinds): TracedFault['ohms'] {
  const cells = new Map<SizeCell, number>();
  hypotheses.forEach(({ candidate, size }, h) => {
    if (candidate.kind === kind) cells.set(size, (cells.get(size) ?? 0) + posterior.probability[h]!);
  });
  const own = [...cells].sort(([a], [b]) => a.ohms - b.ohms);
  const total = own.reduce((sum, [, chance]) => sum + chance, 0);
  const at = (share: number): number | null => {
    let left = share * total;
    for (const [{ lowOhms, width }, chance] of own) {
      if (left <= chance) return width === 0 ? null : lowOhms * Math.exp((width * left) / chance);
      left -= chance;
    }
    return null;
  };
  return { low: at(0.05), typical: at(0.5), high: at(0.95) };
}
