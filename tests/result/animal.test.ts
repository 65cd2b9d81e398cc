import { solvePlan } from '@postvolt/core';
import { describe, expect, test } from 'vitest';
import { exact, plainPlan, strand } from '../support/fence.js';

/** The plain plan with a soil of so many ohm-metres under the feet and a body of 500 ohms without hide. */
function pasture(topsoilOhmM: number, strands = [strand('top')]) {
  const plan = plainPlan();
  plan.builds[0]!.strands = strands;
  const soil = plan.rows.soils['loam']!;
  const at = { topsoilOhmM: exact(topsoilOhmM, 'Ω·m'), deepOhmM: exact(1e-12, 'Ω·m') };
  plan.rows.soils['loam'] = { ...soil, states: { dry: at, moist: at, wet: at, frozen: at } };
  const cattle = plan.rows.animals['cattle']!;
  plan.rows.animals['cattle'] = {
    ...cattle,
    bodyOhms: exact(500, 'Ω'),
    hideOhms: exact(0, 'Ω'),
    feetOhmsPerOhmM: exact(1.45),
  };
  return plan;
}

describe('the animal that touches', () => {
  test('is in series with its feet and the fence’s driving-point resistance (Thévenin’s theorem)', () => {
    for (const soil of [1e-12, 100, 5000]) {
      const plan = pasture(soil);
      // Insulators that do not leak, so that the driving point at the far end is wire, energizer and ground alone.
      plan.rows.insulators['claw'] = { ...plan.rows.insulators['claw']!, formFactor: exact(1e12) };
      const posts = solvePlan(plan).conditions[0]!.posts;
      const end = posts.find((post) => post.junction === 'b')!.strands[0]!;
      // Open 6000 V behind 500 Ω, ground 50 Ω, two spans of 100 Ω, feet 1.45 ρ, body 500 Ω.
      const amps = 6000 / (500 + 50 + 200 + 1.45 * soil + 500);
      expect(Math.abs(end.animalAmps / amps - 1)).toBeLessThan(1e-6);
      expect(Math.abs(end.animalVolts / (500 * amps) - 1)).toBeLessThan(1e-6);
    }
  });

  test('is starved by dry ground, and the result says so', () => {
    const [wet, dry] = [pasture(30), pasture(5000)].map((plan) => solvePlan(plan).conditions[0]!);
    expect(dry!.verdict.weakest.animalVolts).toBeLessThan(0.2 * wet!.verdict.weakest.animalVolts);
    expect(dry!.warnings.map((warning) => warning.code)).toContain('starved-animal');
    expect(wet!.warnings.map((warning) => warning.code)).not.toContain('starved-animal');
  });

  test('gets its volts back from a grounded strand beside the hot one (common practice, no source)', () => {
    const grounded = strand('low', { role: 'grounded', heightM: 0.6 });
    const beside = solvePlan(pasture(5000, [strand('top'), grounded])).conditions[0]!;
    const alone = solvePlan(pasture(5000)).conditions[0]!;
    expect(beside.verdict.weakest.animalVolts).toBeGreaterThan(4 * alone.verdict.weakest.animalVolts);
  });
});
