import { refuse } from './issue.js';

/** Where the curve and a load line meet. */
export interface OperatingPoint {
  /** Volts between the terminals. */
  volts: number;
  /** Amps out of the plus terminal. */
  amps: number;
  /** Number of the segment, 0 for the one that starts at open circuit. */
  segment: number;
}

/**
 * A source's falling, piecewise-linear volts-over-amps curve, extended at both ends with its end slopes.
 * One point is an ideal source; two are a Thévenin source.
 */
export class SourceCurve {
  /** Amps of each point, rising from 0. */
  readonly amps: Float64Array;
  /** Volts of each point, falling. */
  readonly volts: Float64Array;
  /** Open-circuit volts of the straight line through each segment. */
  readonly emfVolts: Float64Array;
  /** Fall of each segment, V/A; 0 for an ideal source. */
  readonly ohms: Float64Array;

  /** Points as `[amps, volts]`. Throws an {@link EngineError} where they do not start at 0 A, rise in amps and fall in volts. */
  constructor(points: readonly (readonly [amps: number, volts: number])[]) {
    if (points.length === 0) refuse('source', 'no point', 'one point or more');
    this.amps = Float64Array.from(points, (point) => point[0]);
    this.volts = Float64Array.from(points, (point) => point[1]);
    const { amps, volts } = this;
    for (let i = 0; i < amps.length; i++) {
      const path = `source[${i}]`;
      if (!Number.isFinite(amps[i]!)) refuse(path, `${amps[i]} A`, 'a finite current');
      if (!(volts[i]! >= 0 && volts[i]! < Infinity)) refuse(path, `${volts[i]} V`, 'a finite voltage, 0 V or more');
      if (i === 0 && volts[0] === 0) refuse(path, '0 V', 'an open-circuit voltage of more than 0 V');
      if (i === 0 && amps[0] !== 0) refuse(path, `${amps[0]} A`, '0 A at the first point, the open circuit');
      if (i > 0 && amps[i]! <= amps[i - 1]!) refuse(path, `${amps[i]} A`, `more than ${amps[i - 1]} A`);
      if (i > 0 && volts[i]! >= volts[i - 1]!) refuse(path, `${volts[i]} V`, `less than ${volts[i - 1]} V`);
    }
    const segments = Math.max(1, amps.length - 1);
    this.ohms = new Float64Array(segments);
    this.emfVolts = Float64Array.of(volts[0]!);
    if (amps.length > 1) {
      for (let i = 0; i < segments; i++) this.ohms[i] = (volts[i]! - volts[i + 1]!) / (amps[i + 1]! - amps[i]!);
      this.emfVolts = this.ohms.map((ohms, i) => volts[i]! + ohms * amps[i]!);
    }
  }

  /** A source of constant volts. */
  static ideal(volts: number): SourceCurve {
    return new SourceCurve([[0, volts]]);
  }

  /** A source of an open-circuit voltage behind a resistance of more than 0 Ω. */
  static thevenin(emfVolts: number, ohms: number): SourceCurve {
    if (!(ohms > 0 && ohms < Infinity)) refuse('source', `${ohms} ohms`, 'a finite resistance of more than 0 ohms');
    return new SourceCurve([
      [0, emfVolts],
      [emfVolts / ohms, 0],
    ]);
  }

  /** Amps that the source gives at given volts between its terminals; of a curve with two points or more. */
  ampsAt(volts: number): number {
    let segment = 0;
    while (segment < this.ohms.length - 1 && volts < this.volts[segment + 1]!) segment++;
    return (this.emfVolts[segment]! - volts) / this.ohms[segment]!;
  }

  /**
   * Meets the load line amps = siemens · volts − offsetAmps, exactly and into `point`.
   * One division on the segment where they meet; sums of positive numbers where the offset is 0.
   */
  meet(siemens: number, offsetAmps: number, point: OperatingPoint): OperatingPoint {
    const { amps, volts, ohms, emfVolts } = this;
    const last = ohms.length - 1;
    let segment = 0;
    // At a knee the load draws more than the source gives: they meet further down the curve.
    while (segment < last && siemens * volts[segment + 1]! - offsetAmps > amps[segment + 1]!) segment++;
    const fall = ohms[segment]!;
    point.volts = (emfVolts[segment]! + fall * offsetAmps) / (1 + fall * siemens);
    point.amps = siemens * point.volts - offsetAmps;
    point.segment = segment;
    return point;
  }
}
