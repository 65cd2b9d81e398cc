import { Pacer, type TaskOptions } from '../../engine/pacer.js';
import { openFence } from '../../fence/open-fence.js';
import { pickConditions } from '../../fence/pick-conditions.js';
import { type Issue, PlanError } from '../../issue.js';
import { layOut } from '../../network/layout.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import { chanceOf } from './chance.js';
import { ConditionDraws } from './condition-draws.js';
import { conditionSpread, hitsOf } from './condition-spread.js';
import { latinHypercube } from './hypercube.js';
import { shareNoise } from './influences.js';
import type { ConditionSpread, SpreadResult } from './result.js';
import { spreadSentence } from './words.js';

export interface SpreadOptions extends TaskOptions {
  /** Ids of the conditions; all where left out. */
  readonly conditions?: readonly string[];
  /** 100 to 100 000; 2000 where left out, which settles a chance to some two hundredths. */
  readonly draws?: number;
  /** A whole number; the same seed gives the same draws. 1 where left out. */
  readonly seed?: number;
}

/** Fewest and most draws. */
const [leastDraws, mostDraws] = [100, 100_000];

/**
 * How sure the volts are: the ranges of the tables carried through to every post.
 *
 * Latin-hypercube draws over all uncertain values; values that rise and fall together (`Parameter.group`) take one draw,
 * the same in every condition. Each value is log-normal in two halves with `low`, `typical` and `high` at its 5th, 50th and
 * 95th percentile; the energizer's volts take one factor at every load. A draw costs one numeric pass of the engine.
 *
 * Volts are peak volts. Rejects with a `PlanError` for a condition that the plan does not have and for draws or a seed
 * out of range, and with the signal's reason when it is aborted.
 */
export async function spread(plan: ResolvedPlan, options: SpreadOptions = {}): Promise<SpreadResult> {
  const { draws = 2000, seed = 1 } = options;
  checkNumbers(draws, seed);
  const picked = pickConditions(plan, options.conditions);
  const pacer = new Pacer(options);
  const layout = layOut(plan);
  const hypercube = latinHypercube(draws, seed);
  const holds = new Uint8Array(draws).fill(1);
  const conditions: ConditionSpread[] = [];
  let binWidth = 0;
  for (const [c, condition] of picked.entries()) {
    const fence = openFence(plan, condition, { layout });
    const counted = new ConditionDraws(fence, hypercube, draws);
    for (let d = 0; d < draws; d++) {
      if (pacer.due) await pacer.step((c + d / draws) / picked.length);
      counted.draw(d);
    }
    hitsOf(counted, plan.target.volts).forEach((hit, d) => {
      holds[d]! &= hit;
    });
    conditions.push(conditionSpread(fence, counted, hypercube));
    binWidth = Math.max(binWidth, counted.toEarth.binWidth);
  }
  options.onProgress?.(1);
  const result = {
    target: plan.target,
    chance: chanceOf(
      holds.reduce((sum, held) => sum + held, 0),
      draws,
    ),
    conditions,
    shareNoise: shareNoise(draws),
  };
  return {
    format: 'postvolt spread',
    formatVersion: 1,
    title: plan.title,
    units: plan.units,
    sentence: spreadSentence(result),
    ...result,
    draws,
    seed,
    binWidth,
  };
}

function checkNumbers(draws: number, seed: number): void {
  const issues: Issue[] = [];
  const refuse = (key: string, found: number, expected: string) =>
    issues.push({
      code: 'out-of-range',
      severity: 'error',
      path: [key],
      found: String(found),
      expected,
      hint: '',
      at: null,
    });
  if (!(Number.isInteger(draws) && draws >= leastDraws && draws <= mostDraws))
    refuse('draws', draws, `a whole number from ${leastDraws} to ${mostDraws}`);
  if (!Number.isSafeInteger(seed)) refuse('seed', seed, 'a whole number');
  if (issues.length > 0) throw new PlanError(issues);
}
