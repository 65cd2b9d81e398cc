import type { PlanInput } from '@postvolt/core';
import { parse } from 'yaml';

/** A plan of the length that a newcomer would write; every test that needs a good plan starts from it. */
export const smallPlan = `formatVersion: 1
title: Home pasture
units: imperial
target: cattle
soil: loam
energizer:
  at: barn
  class: 6 J
  leadOut: {wire: lead-out cable, length: 60 ft}
  groundRods: {count: 3, length: 6 ft, spacing: 10 ft}
junctions: [barn, corner, creek, hill]
builds:
  two wires:
    post: steel T-post
    postSpacing: 40 ft
    wire: 12.5 ga high-tensile
    strands:
      - {name: top, height: 36 in}
      - {name: bottom, height: 20 in}
runs:
  north: {from: barn, to: corner, length: "1,320 ft"}
  west: {from: corner, to: creek, length: 0.5 mi}
  lane: {from: corner, to: hill, length: 660 ft}
conditions:
  summer: {soil: moist, surface: damp, growth: moderate}
  drought: {soil: dry, growth: light}
  storm: {soil: wet, surface: wet, growth: moderate}
`;

type Fields = Record<string, unknown>;
type Runs = Record<'north' | 'west' | 'lane', Fields>;

/** The small plan as an object whose parts a test may change at will. */
export interface LoosePlan extends Fields {
  energizer: Fields;
  builds: { 'two wires': Fields & { strands: Fields[] } };
  runs: Runs & Record<string, Fields>;
  conditions: Record<string, Fields>;
}

/** A fresh copy of the small plan, changed by `change`. */
export function loosePlan(change: (plan: LoosePlan) => void = () => {}): LoosePlan {
  const plan = parse(smallPlan) as LoosePlan;
  change(plan);
  return plan;
}

/** The same, typed as the library takes it. */
export const planOf = (change?: (plan: LoosePlan) => void): PlanInput => loosePlan(change) as unknown as PlanInput;
