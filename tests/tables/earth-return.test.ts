import { earthReturnOhmsPerMetre, frequencyOfPulse, pulseFrequencyHz } from '@postvolt/tables';
import { describe, expect, it } from 'vitest';

/**
 * The real part of Carson's integral, by Simpson's rule: ∫ Re(√(u² + j) − u)·e^(−2hu) du from 0, with h the wire's height
 * over √(ρ/ωµ). The resistance that the earth adds is ωµ/π times this (J. R. Carson 1926).
 */
function carson(height: number): number {
  const integrand = (u: number): number => {
    // Re √(u² + j) − u without cancellation: s² − u² = 1/(4s²) where s is the real part.
    const s = Math.sqrt((u * u + Math.hypot(u * u, 1)) / 2);
    return Math.exp(-2 * height * u) / (4 * s * s) / (s + u);
  };
  // u = t/(1 − t) brings the infinite range to 0..1; the integrand falls as u⁻³, so nothing is left at the end.
  const n = 20_000;
  const at = (i: number): number => {
    const t = i / n;
    return i === n ? 0 : integrand(t / (1 - t)) / (1 - t) ** 2;
  };
  let sum = at(0) + at(n);
  for (let i = 1; i < n; i++) sum += at(i) * (i % 2 === 0 ? 2 : 4);
  return sum / (3 * n);
}

describe('earth return', () => {
  const mu = 4e-7 * Math.PI;

  it('adds 4.9 Ω/km at 5 kHz (Carson 1926, first term)', () => {
    expect((1000 * earthReturnOhmsPerMetre(5000)).toFixed(1)).toBe('4.9');
  });

  it.each([50, 5000, 20_000])("at %d Hz is the limit of Carson's integral for a wire on the ground", (f) => {
    // Tolerance: Simpson's rule on 20 000 steps.
    expect(Math.abs(earthReturnOhmsPerMetre(f) / (2 * f * mu * carson(0)) - 1)).toBeLessThan(1e-7);
  });

  it('is within 3 % of the whole integral for a wire 1 m over 100 Ω·m at the frequency of a pulse', () => {
    // Tolerance: the second term of the series, k/(3√2) against π/8 with k = 2h√(ωµ/ρ) = 0.04, is 2.4 %.
    const height = Math.sqrt((2 * Math.PI * pulseFrequencyHz * mu) / 100);
    expect(
      Math.abs(earthReturnOhmsPerMetre(pulseFrequencyHz) / (2 * pulseFrequencyHz * mu * carson(height)) - 1),
    ).toBeLessThan(0.03);
  });

  it('refuses a negative frequency', () => {
    expect(() => earthReturnOhmsPerMetre(-1)).toThrow(RangeError);
    expect(() => earthReturnOhmsPerMetre(Number.NaN)).toThrow(RangeError);
  });

  it('a pulse of 100 µs stands for 5 kHz', () => {
    expect(frequencyOfPulse(100e-6)).toBeCloseTo(pulseFrequencyHz, 9);
    expect(() => frequencyOfPulse(0)).toThrow('widthS: found 0');
  });
});
