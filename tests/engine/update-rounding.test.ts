import { SourceCurve } from '@postvolt/core/engine';
import { describe, expect, test } from 'vitest';
import { isAccurate, type Update } from '../../packages/core/src/engine/update-rounding.js';

// Sixteen roundings of 2⁻⁵² are let grow to 1e-9 of the source's volts: by this factor.
const ROOM = 1e-9 / (16 * 2 ** -52);

/** One change of −1 S between nodes of 1 Ω, with nothing else to it, at an ideal source of 1 V. */
const plain: Update = {
  delta: [-1],
  inverse: [1],
  acrossOhms: [1],
  endsOhms: [1],
  shareAcross: [0],
  shareEnds: [0],
  offsetAcross: [0],
  offsetEnds: [0],
};

interface Case {
  readonly update?: Partial<Update>;
  readonly ohms?: number;
  readonly before?: number;
  readonly after?: number;
  readonly offsetAmps?: number;
  readonly terminal?: number;
}

function judged({ update, ohms = 0, before = 0, after = 0, offsetAmps = 0, terminal = 1 }: Case): boolean {
  const source = ohms === 0 ? SourceCurve.ideal(1) : SourceCurve.thevenin(1, ohms);
  const point = { volts: terminal, amps: 0, segment: 0 };
  return isAccurate({ ...plain, ...update }, before, after, offsetAmps, source, point);
}

// By hand: with one change of δ, K Ω across and Z Ω at its ends, its volts y = inverse · (share · V + offset) are off by
// inverse · (y + Z δ y + ends of share · V + ends of offset), the nodes by δ (K · that + Z y), the source's volts by
// R (before · V + offset amps + δ (share · that + ends · y)) / (1 + R · after), each times sixteen roundings.
describe('an update is trusted as far as its rounding goes', () => {
  test.each<[string, (x: number) => Case, (x: number) => number]>([
    ['volts at the ends, from spark gaps', (x) => ({ update: { offsetEnds: [x] } }), (x) => x],
    ['volts at the ends, from the source', (x) => ({ update: { shareEnds: [x] } }), (x) => x],
    ['the same at half the terminal volts', (x) => ({ update: { shareEnds: [x] }, terminal: 0.5 }), (x) => x / 2],
    ['and below earth', (x) => ({ update: { shareEnds: [x] }, terminal: -0.5 }), (x) => x / 2],
    ['volts across, from spark gaps', (x) => ({ update: { offsetAcross: [x] } }), (x) => 3 * x],
    ['volts across, from the source', (x) => ({ update: { shareAcross: [x] } }), (x) => 3 * x],
    ['at half the terminal volts', (x) => ({ update: { shareAcross: [x] }, terminal: 0.5 }), (x) => 1.5 * x],
    ['both, of one sign', (x) => ({ update: { shareAcross: [x], offsetAcross: [x] } }), (x) => 6 * x],
    ['ohms across', (x) => ({ update: { acrossOhms: [x], offsetEnds: [1] } }), (x) => x],
    ['ohms of the ends', (x) => ({ update: { endsOhms: [x], offsetAcross: [1] } }), (x) => 2 * x + 1],
    ['the conductance', (x) => ({ update: { delta: [-x], offsetEnds: [1] } }), (x) => x],
    ['the inverse', (x) => ({ update: { inverse: [x], offsetEnds: [1] } }), (x) => x],
    ['the load', (x) => ({ ohms: 2, before: x }), (x) => 2 * x],
    ['the load at half the terminal volts', (x) => ({ ohms: 2, before: x, terminal: 0.5 }), (x) => x],
    ['the load where some is left', (x) => ({ ohms: 2, before: x, after: 1 }), (x) => (2 / 3) * x],
    ['the load where rounding leaves less than none', (x) => ({ ohms: 2, before: x, after: -0.4 }), (x) => 2 * x],
    ['amps of spark gaps', (x) => ({ ohms: 1, offsetAmps: -x }), (x) => x],
    [
      'amps of the change, by its ends',
      (x) => ({ ohms: 1000, update: { shareEnds: [x], offsetAcross: [1] } }),
      (x) => 1000 * x + (x + 2) + 1,
    ],
    [
      'amps of the change, by its volts',
      (x) => ({ ohms: 1000, update: { shareAcross: [x], offsetEnds: [10] }, terminal: 0 }),
      (x) => 1000 * 10 * x + 10,
    ],
    [
      'another change',
      (x) => ({
        update: {
          delta: [-1, -1],
          inverse: [1, x, 0, 1],
          acrossOhms: [1, 1],
          endsOhms: [0, 0],
          shareAcross: [0, 0],
          shareEnds: [0, 0],
          offsetAcross: [0, 0],
          offsetEnds: [0, 1],
        },
      }),
      (x) => x + 1,
    ],
  ])('%s', (_, of, volts) => {
    // `volts` is a straight line: the x at which it uses up the room.
    const limit = (ROOM - volts(0)) / (volts(1) - volts(0));
    expect(judged(of(0.999 * limit))).toBe(true);
    expect(judged(of(1.001 * limit))).toBe(false);
  });

  test('only where its inverse itself holds to a hundredth', () => {
    // 1 / (1 + δ Z) = 1/2 is left; off by inverse · (1/2 + Z δ / 2) = inverse.
    const limit = (0.01 * 0.5) / (16 * 2 ** -52);
    expect(judged({ update: { inverse: [0.999 * limit] } })).toBe(true);
    expect(judged({ update: { inverse: [1.001 * limit] } })).toBe(false);
    // With 1/9 left: inverse · (1/9 + 8/9) against a hundredth of a ninth, so a quarter and a bit of that.
    expect(judged({ update: { inverse: [(0.999 * limit * 2) / 9], endsOhms: [8] } })).toBe(true);
    expect(judged({ update: { inverse: [(1.001 * limit * 2) / 9], endsOhms: [8] } })).toBe(false);
    expect(judged({ update: { inverse: [Number.NaN] } })).toBe(false);
  });
});
