import {
  aluminium,
  awgDiameterM,
  coatedWireOhmsPerMetre,
  copper,
  findRow,
  roundWireDcOhmsPerMetre,
  standardTables,
  steelWireGauges,
  type WireRow,
  wireDcOhmsPerMetre,
  wireOhmsPerMetre,
} from '@postvolt/tables';
import { addDependencies, complexDependencies, create, divideDependencies, multiplyDependencies } from 'mathjs';
import { describe, expect, it } from 'vitest';

const math = create({
  complexDependencies: complexDependencies!,
  addDependencies: addDependencies!,
  divideDependencies: divideDependencies!,
  multiplyDependencies: multiplyDependencies!,
});
const wireOf = (name: string): WireRow => {
  const row = findRow(standardTables, 'wires', name);
  if (!row) throw new Error(name);
  return row;
};

const zincOnSteel = {
  diameterM: 0.0025146,
  resistivityOhmM: 0.18e-6,
  relativePermeability: 100,
  coating: { thicknessM: 40e-6, resistivityOhmM: 0.059e-6 },
};

describe('a coated wire', () => {
  // Printed to 0.01 Ω/km: tolerance half of that.
  it.each([
    [0, 32.12, 36.24],
    [2500, 54.55, 63.02],
    [5000, 69.52, 85.34],
    [10_000, 86.54, 116.33],
  ])(
    'at %d Hz has %d Ω/km with 40 µm of zinc and %d bare (independent evaluation, tube beside complex core)',
    (f, coated, bare) => {
      expect(Math.abs(1000 * coatedWireOhmsPerMetre(zincOnSteel, f) - coated)).toBeLessThanOrEqual(0.005);
      expect(Math.abs(1000 * coatedWireOhmsPerMetre({ ...zincOnSteel, coating: null }, f) - bare)).toBeLessThanOrEqual(
        0.005,
      );
    },
  );

  /** J₀(z)/J₁(z) by the power series in mathjs's complex numbers; good to x = 8 or so before digits cancel. */
  function seriesOhmsPerMetre(wire: typeof zincOnSteel, f: number): number {
    const outer = wire.diameterM / 2;
    const a = outer - wire.coating.thicknessM;
    const k = Math.sqrt((2 * Math.PI * f * 4e-7 * Math.PI * wire.relativePermeability) / wire.resistivityOhmM);
    const z = math.complex({ r: k * a, phi: -Math.PI / 4 });
    const quarter = math.multiply(math.multiply(z, z), -0.25) as typeof z;
    let [j0, j1, term] = [math.complex(0, 0), math.complex(0, 0), math.complex(1, 0)];
    for (let n = 0; n < 60; n++) {
      j0 = math.add(j0, term) as typeof z;
      j1 = math.add(j1, math.divide(math.multiply(term, z), 2 * (n + 1))) as typeof z;
      term = math.divide(math.multiply(term, quarter), (n + 1) ** 2) as typeof z;
    }
    const dc = wire.resistivityOhmM / (Math.PI * a * a);
    const core = math.multiply(math.divide(math.multiply(z, j0), j1), dc / 2) as typeof z;
    const tube = (Math.PI * (outer ** 2 - a ** 2)) / wire.coating.resistivityOhmM;
    return (math.divide(1, math.add(tube, math.divide(1, core))) as typeof z).re;
  }

  it.each([10, 1000, 5000, 20_000])('at %d Hz agrees with a complex power series', (f) => {
    // Tolerance: the series loses some four of its sixteen digits at x = 7.
    expect(Math.abs(coatedWireOhmsPerMetre(zincOnSteel, f) / seriesOhmsPerMetre(zincOnSteel, f) - 1)).toBeLessThan(
      1e-11,
    );
  });

  it('with a coating of no thickness is bare', () => {
    const none = { ...zincOnSteel, coating: { thicknessM: 0, resistivityOhmM: 0.059e-6 } };
    expect(coatedWireOhmsPerMetre(none, 5000)).toBe(coatedWireOhmsPerMetre({ ...zincOnSteel, coating: null }, 5000));
  });

  it('refuses a coating as thick as the wire', () => {
    const solid = { ...zincOnSteel, coating: { thicknessM: 0.00126, resistivityOhmM: 0.059e-6 } };
    expect(() => coatedWireOhmsPerMetre(solid, 5000)).toThrow('coating.thicknessM: found 0.00126');
  });
});

describe('metals and sizes', () => {
  // IEC 60028: a wire 1 m long of 1 mm² has 1/58 Ω at 20 °C. IEC 60889: hard-drawn aluminium, 61 % of copper's conductivity.
  it('copper is that of IEC 60028', () => {
    expect(copper.resistivityOhmM.typical).toBeCloseTo(1e-6 / 58, 11);
  });
  it('aluminium is that of IEC 60889', () => {
    const share = copper.resistivityOhmM.typical / aluminium.resistivityOhmM.typical;
    expect(share).toBeCloseTo(0.61, 4);
  });

  // Handbook tables of copper wire (US Bureau of Standards Handbook 100, from memory): ohms per 1000 ft at 20 °C, four
  // digits. Tolerance 0.1 %: the printed sizes are rounded to 0.1 mil.
  it.each([
    [10, 0.9989],
    [12, 1.588],
    [14, 2.525],
  ])('AWG %d copper has %d Ω per 1000 ft', (gauge, ohmsPer1000ft) => {
    const ours = roundWireDcOhmsPerMetre({
      radiusM: awgDiameterM(gauge) / 2,
      resistivityOhmM: copper.resistivityOhmM.typical,
    });
    expect(Math.abs((ours * 304.8) / ohmsPer1000ft - 1)).toBeLessThan(1e-3);
    expect(wireDcOhmsPerMetre(wireOf(`${gauge} AWG copper cable`)).typical).toBeCloseTo(ours, 9);
  });

  it('0.8 oz/ft² of zinc is about 1.35 mil (common practice: 1 oz/ft² is 1.7 mil)', () => {
    const zinc = wireOf('12.5 ga high-tensile').coating;
    // Tolerance: the rule has two digits.
    expect(Math.abs((zinc?.thicknessM.low ?? 0) / (0.8 * 1.7 * 25.4e-6) - 1)).toBeLessThan(0.03);
  });

  it('gauges thin out as their numbers rise, and class 3 holds more zinc than class 1', () => {
    const inches = steelWireGauges.map((g) => g.diameterM.typical);
    expect(inches).toEqual([...inches].sort((a, b) => b - a));
    for (const { zincKgPerM2 } of steelWireGauges) expect(zincKgPerM2[3]).toBeGreaterThan(zincKgPerM2[1]);
  });

  // 0.17 to 0.19 µΩ·m over the area, bare: 34 to 38, 52 to 59, 86 to 96 Ω/km.
  it.each([
    ['12.5 ga high-tensile', 34, 38],
    ['14 ga high-tensile', 52, 59],
    ['16 ga high-tensile', 86, 96],
  ])('%s without its zinc has %d to %d Ω/km to a direct current', (name, low, high) => {
    const row = wireOf(name);
    const { typical } = row.diameterM!;
    const bare = { ...row, coating: null, diameterM: { ...row.diameterM!, low: typical, high: typical } };
    const ohms = wireDcOhmsPerMetre(bare);
    expect(Math.round(ohms.low * 1000)).toBe(low);
    expect(Math.round(ohms.high * 1000)).toBe(high);
  });
});

describe('a row of the wire table', () => {
  const solid = standardTables.wires.filter((row) => row.diameterM);

  /** 5th and 95th percentile of draws of every property by itself: log-normal in two halves about its typical value. */
  function drawnRange(row: (typeof solid)[number]): [number, number] {
    let state = 12345;
    const uniform = () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return (state + 0.5) / 2 ** 32;
    };
    const draw = (e: { low: number; typical: number; high: number } | null, without = 1) => {
      if (e === null) return without;
      // G. E. P. Box and M. E. Muller 1958.
      const z = Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
      return e.typical * ((z < 0 ? e.low : e.high) / e.typical) ** (Math.abs(z) / 1.6448536);
    };
    const ohms = Array.from({ length: 4000 }, () =>
      coatedWireOhmsPerMetre(
        {
          diameterM: draw(row.diameterM),
          resistivityOhmM: draw(row.resistivityOhmM),
          relativePermeability: draw(row.relativePermeability),
          coating: row.coating && {
            thicknessM: draw(row.coating.thicknessM),
            resistivityOhmM: draw(row.coating.resistivityOhmM),
          },
        },
        5000,
      ),
    ).sort((a, b) => a - b);
    return [ohms[200]!, ohms[3800]!];
  }

  it('has as its range the 5th and 95th percentile of its properties drawn one by one', () => {
    for (const row of solid) {
      const ohms = wireOhmsPerMetre(row);
      const [low, high] = drawnRange(row);
      // Fixed beforehand: 3 % for the bend of the skin effect between the ends, and 4000 draws settle a percentile to 1 %.
      expect(Math.abs(ohms.low / low - 1), `${row.id} low`).toBeLessThan(0.04);
      expect(Math.abs(ohms.high / high - 1), `${row.id} high`).toBeLessThan(0.04);
      expect(ohms).toMatchObject({ unit: 'Ω/m', basis: 'derived' });
      expect(ohms.source).toContain(row.id);
    }
  });

  it('is some 55 to 99 mΩ/m for 12.5 ga at 5 kHz, and not the 50 to 111 of every property at its worst at once', () => {
    const { low, high } = wireOhmsPerMetre(wireOf('12.5 ga high-tensile'));
    // Drawn one by one: 55 and 99, worked out beforehand by other hands; the squares in the logarithm come within 1 mΩ/m.
    expect(Math.abs(1000 * low - 55)).toBeLessThan(1);
    expect(Math.abs(1000 * high - 99)).toBeLessThan(1);
  });

  it('follows the temperature of core and coating, each by its own coefficient', () => {
    const row = wireOf('12.5 ga high-tensile');
    const at = (temperatureC: number) => wireDcOhmsPerMetre(row, { temperatureC }).typical;
    const { typical: d } = row.diameterM!;
    const [rho, alpha] = [row.resistivityOhmM!.typical, row.temperatureCoefficient!.typical];
    const { thicknessM, resistivityOhmM } = row.coating!;
    const core = (d - 2 * thicknessM.typical) / 2;
    const [steel, zinc] = [Math.PI * core ** 2, Math.PI * ((d / 2) ** 2 - core ** 2)];
    for (const warmer of [-40, 20]) {
      // Two conductors side by side; zinc at 0.0037 /K (handbooks, from memory).
      const siemens = steel / (rho * (1 + alpha * warmer)) + zinc / (resistivityOhmM.typical * (1 + 0.0037 * warmer));
      expect(at(20 + warmer) * siemens).toBeCloseTo(1, 9);
    }
  });

  it('resists a pulse about twice as much as a direct current if it is steel, and hardly more if it is not', () => {
    for (const row of solid) {
      const ratio = wireOhmsPerMetre(row).typical / wireDcOhmsPerMetre(row).typical;
      if (row.relativePermeability!.typical > 1) expect(ratio).toBeGreaterThan(1.5);
      else expect(ratio).toBeLessThan(1.25);
    }
  });

  it('gives ohms per metre of its own as they stand', () => {
    const twine = wireOf('poly twine');
    expect(wireOhmsPerMetre(twine, { frequencyHz: 1e4, temperatureC: -20 })).toBe(twine.ohmsPerMetre);
  });

  it('follows the temperature by the coefficients of its metals', () => {
    const row = wireOf('12 AWG copper cable');
    const [cold, warm] = [-20, 40].map((temperatureC) => wireDcOhmsPerMetre(row, { temperatureC }).typical);
    // IEC 60028: 0.00393 per kelvin from 20 °C.
    expect(warm! / cold!).toBeCloseTo((1 + 0.00393 * 20) / (1 - 0.00393 * 40), 9);
    const steel = wireOf('12.5 ga high-tensile');
    for (const temperatureC of [-30, 45]) {
      const ohms = wireDcOhmsPerMetre(steel, { temperatureC });
      expect(ohms.low).toBeLessThan(ohms.typical);
      expect(ohms.typical).toBeLessThan(ohms.high);
    }
  });

  it('refuses what it cannot use', () => {
    const row = wireOf('12.5 ga high-tensile');
    expect(() => wireOhmsPerMetre(row, { frequencyHz: -1 })).toThrow('frequencyHz: found -1');
    expect(() => wireOhmsPerMetre(row, { temperatureC: Number.NaN })).toThrow('temperatureC: found NaN');
    expect(() => wireOhmsPerMetre(row, { temperatureC: 2000 })).toThrow('temperatureC: found 2000');
    expect(() => wireOhmsPerMetre({ ...row, diameterM: null })).toThrow('12.5 ga high-tensile');
  });
});
