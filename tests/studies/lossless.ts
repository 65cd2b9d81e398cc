import type { ResolvedPlan } from '@postvolt/core';
import { exact, plainPlan } from '../support/fence.js';

type Fault = ResolvedPlan['faults'][number];
type Prices = NonNullable<ResolvedPlan['prices']>;

/** A wire on the ground through 250 Ω at the plain plan's far end, but for what a test says. */
export const fault = (id: string, changes: Partial<Fault> = {}): Fault => ({
  id,
  kind: 'wire on ground',
  run: 'north',
  post: 2,
  on: 'post',
  strand: 'top',
  otherStrand: null,
  ohms: exact(250, 'Ω'),
  gapVolts: null,
  conditions: null,
  ...changes,
});

/**
 * The plain plan with insulators that leak nothing: 6 kV behind 550 Ω, and two spans of 100 Ω each. The ground was measured
 * and the insulators are good and new, so that faults alone take volts.
 */
export function lossless(faults: Fault[], changes: Partial<ResolvedPlan> = {}): ResolvedPlan {
  const plan = plainPlan({ faults, ...changes });
  plan.rows.insulators['claw'] = { ...plan.rows.insulators['claw']!, formFactor: exact(1e30) };
  return plan;
}

/** Prices of a plan that has none of its own but these. */
export const ownPrices = (changes: Partial<Prices>): Prices => ({
  ...{ currency: 'crowns', wires: {}, posts: {}, insulators: {}, energizers: {}, parts: {} },
  ...{ labourPerHour: null, hours: {} },
  ...changes,
});

/** A second condition `cold`, in which the energizer has half its volts. */
export function withCold(plan: ResolvedPlan): ResolvedPlan {
  const [usual] = plan.conditions;
  return {
    ...plan,
    conditions: [usual!, { ...usual!, id: 'cold', name: 'cold' }],
    energizer: { ...plan.energizer, derating: { cold: 0.5 } },
  };
}
