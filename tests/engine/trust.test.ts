import {
  EARTH,
  gapAmps,
  gapVolts,
  kirchhoffResidual,
  type Network,
  NetworkBuilder,
  powerBalance,
} from '@postvolt/core/engine';
import { describe, expect, test } from 'vitest';

// All by hand, on potentials that are no solution: what a check says of a wrong answer is what it is there for.
//
// Nodes 0, 1, 2 with leaks of 0.1, 0.2 and 0 S; branches 0–1 of 2 S and 1–2 of 0.5 S; at 10, 8 and −4 V to earth.
// A gap of 3 V and 2 Ω from 1 to 2, one of 1 V and 4 Ω from 2 to earth, and one of 20 V from 0 to earth.
const volts = Float64Array.of(10, 8, -4);

function network(withGaps: boolean, ports: 'none' | 'earth' | 'node' = 'none'): Network {
  const builder = new NetworkBuilder();
  for (const leak of [0.1, 0.2, 0]) builder.node(leak);
  builder.branch(0, 1, 2);
  builder.branch(1, 2, 0.5);
  if (withGaps) {
    builder.gap(1, 2, 3, 2);
    builder.gap(2, EARTH, 1, 4);
    builder.gap(0, EARTH, 20, 1);
  }
  if (ports !== 'none') builder.ports(0, ports === 'node' ? 2 : EARTH);
  return builder.build();
}

describe('the residual of wrong potentials', () => {
  test('without a source: the branches and leaks alone', () => {
    // In: 0: −1 − 4 = −5; 1: −1.6 + 4 − 6 = −3.6; 2: +6. Terms: 1 + 36 = 37; 1.6 + 36 + 6 = 43.6; 6.
    const residual = kirchhoffResidual(network(false), { volts, amps: 0 });
    expect(residual).toMatchObject({ node: 2, amps: 6, backward: 1 });
    expect(residual.relative).toBe(Infinity);
  });

  test('with currents sent in, and relative to them', () => {
    // 0: −5 + 4.5 = −0.5; 1: −3.6 + 2 = −1.6; 2: 6 − 7 = −1. Sent in: 13.5 A. Terms of 2: 6 + 7.
    const residual = kirchhoffResidual(network(false), { volts, amps: 0 }, Float64Array.of(4.5, 2, -7));
    expect(residual.node).toBe(1);
    expect(residual.amps).toBeCloseTo(1.6, 14);
    expect(residual.relative).toBeCloseTo(1.6 / 13.5, 14);
    expect(residual.backward).toBeCloseTo(1 / 13, 14);
  });

  test('with a source to earth, and to a node', () => {
    // 0: −5 + 7 = 2 of 44; 1: −3.6 of 43.6; 2: 6 of 6.
    expect(kirchhoffResidual(network(false, 'earth'), { volts, amps: 7 })).toMatchObject({
      node: 2,
      amps: 6,
      relative: 6 / 7,
      backward: 1,
    });
    // Back in at 2: 6 − 7 = −1 of 13; worst 1 with 3.6 of 43.6.
    const back = kirchhoffResidual(network(false, 'node'), { volts, amps: 7 });
    expect(back.node).toBe(1);
    expect(back.relative).toBeCloseTo(3.6 / 7, 14);
    expect(back.backward).toBeCloseTo(3.6 / 43.6, 14);
  });

  test('with spark gaps: those that fire carry what their law says, the others nothing', () => {
    // 1→2: 12 V, 9 V over: 4.5 A; 2→earth: −4 V, −3 V over: −0.75 A; 0→earth: 10 V of 20: 0.
    // 0: −5 + 7 = 2 of 44; 1: −3.6 − 4.5 = −8.1; 2: 6 + 4.5 + 0.75 = 11.25 of 6 + (8 + 4 + 3)/2 + (4 + 1)/4 = 14.75.
    const residual = kirchhoffResidual(network(true, 'earth'), { volts, amps: 7 });
    expect(residual.node).toBe(2);
    expect(residual.amps).toBeCloseTo(11.25, 14);
    expect(residual.backward).toBeCloseTo(11.25 / 14.75, 14);
  });

  test('of nothing at all is nothing', () => {
    expect(kirchhoffResidual(network(true), { volts: new Float64Array(3), amps: 0 })).toEqual({
      amps: 0,
      node: 0,
      relative: 0,
      backward: 0,
    });
  });

  test('says so where a potential is no number', () => {
    const { amps, node } = kirchhoffResidual(network(false), { volts: Float64Array.of(1, Number.NaN, 1), amps: 0 });
    expect(amps).toBeNaN();
    expect(node).toBeGreaterThanOrEqual(0);
  });
});

describe('the power balance of wrong potentials', () => {
  test('with a source to earth or to a node', () => {
    // Leaks 10 + 12.8, branches 2·4 + 0.5·144: 102.8 W. Delivered: 7 A at 10 V, or at 14 V.
    const earth = powerBalance(network(false, 'earth'), { volts, amps: 7 });
    expect(earth.deliveredWatts).toBeCloseTo(70, 12);
    expect(earth.dissipatedWatts).toBeCloseTo(102.8, 12);
    expect(earth.relative).toBeCloseTo(32.8 / 102.8, 14);
    const node = powerBalance(network(false, 'node'), { volts, amps: 10 });
    expect(node.deliveredWatts).toBeCloseTo(140, 12);
    expect(node.relative).toBeCloseTo(37.2 / 140, 14);
  });

  test('with currents sent in', () => {
    // 4.5·10 + 2·8 + 7·4 = 89 W.
    const { deliveredWatts } = powerBalance(network(false), { volts, amps: 0 }, Float64Array.of(4.5, 2, -7));
    expect(deliveredWatts).toBeCloseTo(89, 12);
  });

  test('with spark gaps', () => {
    // 4.5 A at 12 V and 0.75 A at 4 V more.
    expect(powerBalance(network(true), { volts, amps: 0 }).dissipatedWatts).toBeCloseTo(102.8 + 54 + 3, 12);
  });

  test('of nothing at all is nothing', () => {
    expect(powerBalance(network(true), { volts: new Float64Array(3), amps: 0 })).toEqual({
      deliveredWatts: 0,
      dissipatedWatts: 0,
      relative: 0,
    });
  });
});

test('a spark gap at its threshold does not fire; either side of it, it does', () => {
  const gaps = network(true);
  expect([0, 1, 2].map((gap) => gapVolts(gaps, volts, gap))).toEqual([12, -4, 10]);
  expect([0, 1, 2].map((gap) => gapAmps(gaps, volts, gap))).toEqual([4.5, -0.75, 0]);
  expect(gapAmps(gaps, Float64Array.of(0, 3, 0), 0)).toBe(0);
  expect(gapAmps(gaps, Float64Array.of(0, -3 - 2, 0), 0)).toBe(-1);
});
