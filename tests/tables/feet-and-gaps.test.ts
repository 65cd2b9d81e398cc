import {
  airGapVolts,
  cylinderFormFactor,
  dirtySurfaceVolts,
  feetOhmsPerOhmM,
  footResistance,
  standardTables,
} from '@postvolt/tables';
import { Matrix, solve } from 'ml-matrix';
import { describe, expect, it } from 'vitest';

describe('feet on the soil (IEEE Std 80)', () => {
  it('one of 5 cm has 5 Ω per Ω·m, four far apart 1.25', () => {
    expect(footResistance(1, 0.05)).toBeCloseTo(5, 12);
    expect(footResistance(100, 0.05) / 4).toBeCloseTo(125, 12);
    expect(feetOhmsPerOhmM({ hoofRadiusM: 0.05, trackM: 1e6, lengthM: 1e6 })).toBeCloseTo(1.25, 5);
  });

  it("IEEE Std 80's own foot of 8 cm has about 3 Ω per Ω·m", () => {
    // The standard rounds ρ/(4·0.08) = 3.1ρ to 3ρ.
    expect(footResistance(1, 0.08)).toBeCloseTo(3.125, 12);
  });

  it('four of a cow that feel each other have 1.4 to 1.5 Ω per Ω·m', () => {
    const cow = feetOhmsPerOhmM({ hoofRadiusM: 0.05, trackM: 0.4, lengthM: 1.2 });
    expect(cow).toBeGreaterThan(1.4);
    expect(cow).toBeLessThan(1.5);
  });

  it('agree with four discs solved densely with the exact field of a disc', () => {
    const [b, track, length] = [0.05, 0.4, 1.2];
    const places = [
      [0, 0],
      [track, 0],
      [0, length],
      [track, length],
    ] as const;
    // A disc at 1 V lifts the surface at a distance s to (2/π)·asin(b/s); its resistance is 1/(4b).
    const ohms = new Matrix(
      places.map((p) =>
        places.map((q) => {
          const s = Math.hypot(p[0] - q[0], p[1] - q[1]);
          return s === 0 ? 1 / (4 * b) : ((2 / Math.PI) * Math.asin(b / s)) / (4 * b);
        }),
      ),
    );
    const dense = 1 / solve(ohms, Matrix.ones(4, 1)).sum();
    // Tolerance 1 %: a foot sees its neighbours as points, which errs by (b/s)²/6 of the mutual part.
    expect(Math.abs(feetOhmsPerOhmM({ hoofRadiusM: b, trackM: track, lengthM: length }) / dense - 1)).toBeLessThan(
      0.01,
    );
  });

  it('name what they refuse', () => {
    expect(() => footResistance(-1, 0.05)).toThrow('soilOhmM: found -1');
    expect(() => footResistance(100, 0)).toThrow('radiusM: found 0');
    expect(() => feetOhmsPerOhmM({ hoofRadiusM: 0.05, trackM: 0.05, lengthM: 1 })).toThrow('overlap');
    expect(() => feetOhmsPerOhmM({ hoofRadiusM: 0.05, trackM: Number.NaN, lengthM: 1 })).toThrow('trackM: found NaN');
  });
});

describe('spark-over', () => {
  it.each([
    [1, 4.5],
    [2, 7.8],
  ])('a clean gap of %d mm fires near %d kV (texts on high-voltage engineering, from memory)', (mm, kV) => {
    expect(Math.abs(airGapVolts(mm / 1000) / 1000 - kV)).toBeLessThanOrEqual(0.05);
  });

  it('keeps within 3 % of the other usual fit, 24.36 d + 6.72 √d kV with d in cm (Kuffel and Zaengl, from memory)', () => {
    // Tolerance: the two fits were made to different measurements; they differ by 1 to 2 %.
    for (const mm of [0.5, 1, 2, 3, 5, 10]) {
      const cm = mm / 10;
      expect(Math.abs(airGapVolts(mm / 1000) / (1000 * (24.36 * cm + 6.72 * Math.sqrt(cm))) - 1)).toBeLessThan(0.03);
    }
  });

  it('runs over dirt at a fraction of what a clean gap takes', () => {
    for (const mm of [5, 10, 40]) {
      const dirty = dirtySurfaceVolts(mm / 1000);
      expect(dirty.high).toBeLessThan(airGapVolts(mm / 1000) / 4);
      expect(dirty).toMatchObject({ unit: 'V', basis: 'estimate' });
    }
  });

  it('refuses gaps that are none', () => {
    expect(() => airGapVolts(-0.001)).toThrow('gapM: found -0.001');
    expect(() => dirtySurfaceVolts(Number.NaN)).toThrow('pathM: found NaN');
    expect(airGapVolts(0)).toBe(0);
  });
});

describe('form factor of a leakage path (IEC 60507)', () => {
  it('40 mm on a 20 mm body is 0.64', () => {
    expect(cylinderFormFactor(0.04, 0.02).toFixed(2)).toBe('0.64');
    expect(() => cylinderFormFactor(0.04, 0)).toThrow('diameterM: found 0');
  });

  it('of a claw that is touched on one side is two to three times that', () => {
    const claw = standardTables.insulators.find((row) => row.id === 'nail-on claw')!;
    const plain = cylinderFormFactor(0.04, 0.02);
    expect(claw.formFactor.typical / plain).toBeGreaterThan(2);
    expect(claw.formFactor.high / plain).toBeLessThanOrEqual(3);
  });
});
