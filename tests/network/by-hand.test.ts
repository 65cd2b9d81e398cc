import { openFence } from '@postvolt/core';
import { describe, expect, test } from 'vitest';
import { plainPlan } from '../support/fence.js';

/*
 * Three posts, one strand, worked by hand. Span 10 m × 10 Ω/m = 100 Ω; leak of a post 2000 Ω + 1000 Ω = 3000 Ω;
 * ground 50 Ω; energizer 6000 V behind 500 Ω.
 *   last post, seen from the middle:   3000 + 100             = 3100 Ω
 *   middle:                            3100 ∥ 3000            = 1524.590 Ω
 *   seen from the first post:          1524.590 + 100         = 1624.590 Ω
 *   first post:                        1624.590 ∥ 3000        = 1053.882 Ω
 *   with the ground:                   1053.882 + 50          = 1103.882 Ω
 *   amps:                              6000 / (1103.882+500)  = 3.740925 A
 *   terminal volts                     3.740925 × 1103.882    = 4129.538 V
 *   ground terminal                    −3.740925 × 50         = −187.046 V
 *   first post                         3.740925 × 1053.882    = 3942.492 V
 *   middle        3942.492 × 1524.590 / 1624.590              = 3699.815 V
 *   last          3699.815 × 3000 / 3100                      = 3580.467 V
 *   body of a post: a third of its strand's volts
 */
describe('a fence of three posts worked by hand', () => {
  const plan = plainPlan();
  const { volts, circuit, network: fence } = openFence(plan, plan.conditions[0]!);
  const run = fence.layout.runs[0]!;
  const near = (actual: number, byHand: number) => expect(Math.abs(actual - byHand)).toBeLessThan(0.001);

  test('the energizer', () => {
    const { amps, terminalVolts } = circuit.solve();
    expect(Math.abs(amps - 3.740925)).toBeLessThan(1e-6);
    near(terminalVolts, 4129.538);
    near(volts[fence.layout.groundTerminal]!, -187.046);
  });

  test('every strand and every post body', () => {
    const byHand = [3942.492, 3699.815, 3580.467];
    byHand.forEach((expected, i) => {
      near(volts[run.nodes[0]![i]!]!, expected);
      near(volts[fence.layout.body[run.posts[i]!]!]!, expected / 3);
    });
  });

  test('has the nodes and elements that the drawing has, and no more', () => {
    // Strand at three posts, three bodies, the ground terminal (the fence terminal is the first post's strand).
    expect(fence.layout.nodeCount).toBe(7);
    // Two spans, three insulators, three bodies, one ground system.
    expect(fence.elements.count).toBe(9);
  });
});
