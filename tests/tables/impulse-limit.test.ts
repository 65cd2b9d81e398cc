import { impulseLimit, impulseLimitAmps, impulseLimitAmpsRange, impulseLimits } from '@postvolt/tables';
import { describe, expect, it } from 'vitest';

describe('the limit line of IEC 60335-2-76 (from memory)', () => {
  // Tolerance 0.2 %: the ends are printed as round numbers beside a factor of five digits.
  it.each([
    [15.7, 0.1e-3],
    [1, 4e-3],
  ])('ends at %d A for %d s', (amps, seconds) => {
    expect(Math.abs(impulseLimit(amps) / seconds - 1)).toBeLessThan(2e-3);
    expect(Math.abs(impulseLimitAmps(Math.min(seconds, impulseLimit(1))) / amps - 1)).toBeLessThan(2e-3);
  });

  it('falls, and its inverse leads back', () => {
    let before = Number.POSITIVE_INFINITY;
    for (let amps = 1; amps <= 15.7; amps += 0.7) {
      const seconds = impulseLimit(amps);
      expect(seconds).toBeLessThan(before);
      expect(impulseLimitAmps(seconds)).toBeCloseTo(amps, 10);
      before = seconds;
    }
  });

  it('holds shorter impulses to 15.7 A', () => {
    expect(impulseLimitAmps(1e-6)).toBe(impulseLimitAmpsRange.high);
  });

  it('is not stretched beyond its ends', () => {
    for (const amps of [0.999, 15.71, -1, Number.NaN]) expect(() => impulseLimit(amps)).toThrow(RangeError);
    for (const seconds of [0, -1, 5e-3, Number.NaN]) expect(() => impulseLimitAmps(seconds)).toThrow(RangeError);
  });

  it('stands beside the other limits', () => {
    expect(impulseLimits).toEqual({ joules: 5, durationS: 0.01, perSecond: 1, loadOhms: 500 });
  });
});
