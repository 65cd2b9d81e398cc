import { leastByPost } from '../../fence/hot-posts.js';
import type { OpenFence } from '../../fence/open-fence.js';
import { chanceOf } from './chance.js';
import { type ConditionDraws, indexOfLeast } from './condition-draws.js';
import type { Hypercube } from './hypercube.js';
import { influenceOf, quantileOf, ranksOf, shareNoise } from './influences.js';
import type { LogHistogram } from './log-histogram.js';
import type { ConditionSpread, VoltsSpread } from './result.js';
import { uncertainValues } from './uncertain.js';
import { conditionSentence } from './words.js';

/** Shares of the draws that the quantiles stand for. */
const shares = [0.1, 0.5, 0.9];

const spreadOf = (typical: number, [p10, p50, p90]: readonly number[]): VoltsSpread => ({
  typical,
  p10: p10!,
  p50: p50!,
  p90: p90!,
});

/** The result of one condition, once all its draws are counted. */
export function conditionSpread(fence: OpenFence, counted: ConditionDraws, hypercube: Hypercube): ConditionSpread {
  const { plan, condition } = fence.network;
  const { hot, toEarth, across, weakestVolts, timesWeakest } = counted;
  const draws = weakestVolts.length;
  const posts = Array.from({ length: hot.count }, (_, p) => hot.postAt(p));
  const leastOf = (volts: Float64Array) => {
    const least = new Float64Array(hot.count);
    leastByPost(hot, volts, least);
    return least;
  };
  const typicalToEarth = leastOf(fence.volts);
  const typicalAcross = across === null ? null : leastOf(fence.animal.volts);
  const typical = typicalAcross ?? typicalToEarth;
  const row = (histogram: LogHistogram, typicalVolts: Float64Array, p: number) =>
    spreadOf(typicalVolts[p]!, histogram.quantiles(p, shares));
  const sorted = weakestVolts.slice().sort();
  const ranks = ranksOf(weakestVolts);
  const result = {
    id: condition.id,
    name: condition.name,
    chance: chanceOf(
      hitsOf(counted, plan.target.volts).reduce((sum, hit) => sum + hit, 0),
      draws,
    ),
    weakest: spreadOf(
      typical[indexOfLeast(typical)]!,
      shares.map((share) => quantileOf(sorted, share)),
    ),
    weakestPosts: posts
      .map(({ id }, p) => ({ id, share: timesWeakest[p]! / draws }))
      .filter(({ share }) => share > 0)
      .sort((a, b) => b.share - a.share),
    influences: uncertainValues(fence.network)
      .map((value) => ({ ...value, ...influenceOf(hypercube(value.key), weakestVolts, ranks) }))
      .sort((a, b) => b.varianceShare - a.varianceShare),
    posts: posts.map((post, p) => ({
      ...post,
      voltsToEarth: row(toEarth, typicalToEarth, p),
      animalVolts: across === null ? null : row(across, typicalAcross!, p),
    })),
  };
  return { ...result, sentence: conditionSentence(result, shareNoise(draws)) };
}

/** By draw: 1 where the target holds at every post and no hot strand is cut off. */
export const hitsOf = ({ hot, weakestVolts }: ConditionDraws, targetVolts: number): Uint8Array =>
  Uint8Array.from(weakestVolts, (volts) => (volts >= targetVolts && hot.deadPosts.length === 0 ? 1 : 0));
