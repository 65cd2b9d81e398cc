import { openFence } from '@postvolt/core';
import { describe, expect, test } from 'vitest';
import { exact, plainPlan, plainValues } from '../support/fence.js';

/** Rounding of the closed form's own cosh and of the elimination; both are good to a few 1e-16 a step. */
const tolerance = 1e-10;

const relative = (actual: number, expected: number) => Math.abs(actual / expected - 1);

/** A run of n spans of 10 m with a post's leak at every node, or half of it at both ends. */
function ladder(n: number) {
  const plan = plainPlan();
  plan.runs[0] = { ...plan.runs[0]!, lengthM: 10 * n };
  return plan;
}

describe('ladders against their closed forms (telegrapher’s equations at zero frequency; any text on transmission lines)', () => {
  const R = plainValues.ohmsPerMetre * 10;
  const G = 1 / (plainValues.insulatorOhms + plainValues.postOhms);
  const gamma = Math.acosh(1 + (R * G) / 2);

  test.each([1, 2, 7, 60])('full leak at the last post: V_k = V_0 cosh((N−k+½)γ)/cosh((N+½)γ), N = %i', (n) => {
    const plan = ladder(n);
    const { volts, network: fence } = openFence(plan, plan.conditions[0]!);
    const nodes = fence.layout.runs[0]!.nodes[0]!;
    for (let k = 0; k <= n; k++) {
      const expected = (volts[nodes[0]!]! * Math.cosh((n - k + 0.5) * gamma)) / Math.cosh((n + 0.5) * gamma);
      expect(relative(volts[nodes[k]!]!, expected)).toBeLessThan(tolerance);
    }
  });

  test('growth alone, half of a span’s at either end: V_k = V_0 cosh((N−k)γ)/cosh(Nγ)', () => {
    const n = 40;
    const plan = ladder(n);
    const leak = 2e-4;
    plan.stretches = [
      {
        id: 'growth',
        run: 'north',
        fromM: 0,
        toM: null,
        strands: null,
        conditions: null,
        set: {
          post: null,
          soil: null,
          wire: null,
          insulator: null,
          insulatorState: null,
          fouledFraction: null,
          growth: null,
          growthWetness: null,
          leakSiemensPerMetre: exact(leak, 'S/m'),
          postWetness: null,
        },
      },
    ];
    // Insulators that leak 1e-30 S leave the growth alone.
    plan.rows.insulators['claw'] = { ...plan.rows.insulators['claw']!, formFactor: exact(1e30) };
    const { volts, network: fence } = openFence(plan, plan.conditions[0]!);
    const nodes = fence.layout.runs[0]!.nodes[0]!;
    const step = Math.acosh(1 + (R * leak * 10) / 2);
    for (let k = 0; k <= n; k++) {
      const expected = (volts[nodes[0]!]! * Math.cosh((n - k) * step)) / Math.cosh(n * step);
      expect(relative(volts[nodes[k]!]!, expected)).toBeLessThan(tolerance);
    }
  });

  test('short spans approach the leaky line: V(x) = V_0 cosh(γ(ℓ−x))/cosh(γℓ), γ = √(R′G′)', () => {
    const plan = ladder(100);
    plan.runs[0] = { ...plan.runs[0]!, posts: { kind: 'equal', spacingM: 0.5 } };
    const leak = 3e-6;
    plan.rows.insulators['claw'] = { ...plan.rows.insulators['claw']!, formFactor: exact(1) };
    for (const row of Object.values(plan.rows.films)) {
      // A post every half metre: its leak a metre is twice a post's.
      const film = exact(leak / 2, 'S');
      plan.rows.films[row.id] = { ...row, siemens: { dry: film, damp: film, wet: film } };
    }
    const { volts, network: fence } = openFence(plan, plan.conditions[0]!);
    const nodes = fence.layout.runs[0]!.nodes[0]!;
    const n = nodes.length - 1;
    const perPost = 1 / (2 / leak + plainValues.postOhms);
    const line = Math.sqrt(plainValues.ohmsPerMetre * perPost * 2);
    for (let k = 0; k <= n; k += 100) {
      const expected = (volts[nodes[0]!]! * Math.cosh(line * (1000 - k * 0.5))) / Math.cosh(line * 1000);
      // Lumping every half metre of a line of γℓ ≈ 5 shifts it by some (γ·0.5)²/24 and half a post’s leak at the end.
      expect(relative(volts[nodes[k]!]!, expected)).toBeLessThan(5e-3);
    }
  });
});
