interface Complex {
  readonly re: number;
  readonly im: number;
}
const times = (a: Complex, b: Complex): Complex => ({ re: a.re * b.re - a.im * b.im, im: a.re * b.im + a.im * b.re });
const plus = (a: Complex, b: Complex, scale = 1): Complex => ({ re: a.re + scale * b.re, im: a.im + scale * b.im });

/** A round core in a tube of another metal. */
export interface TwoLayers {
  readonly coreRadiusM: number;
  readonly outerRadiusM: number;
  readonly coreOhmM: number;
  readonly tubeOhmM: number;
  /** Relative, of the core; the tube is not magnetic. */
  readonly corePermeability: number;
}

/**
 * Internal impedance of a two-layer round wire, ohms a metre, from Maxwell's equations: E' = jωµH, (rH)' = rσE, integrated
 * outwards from the axis by the classical fourth-order Runge-Kutta rule with E and H continuous from metal to metal.
 * Z = E/(2πrH) at the surface.
 */
export function twoLayerImpedance(wire: TwoLayers, hz: number, steps = 4000): Complex {
  const omega = 2 * Math.PI * hz;
  const vacuum = 4e-7 * Math.PI;
  let electric: Complex = { re: 1, im: 0 };
  /** rH: the current inside r over 2π. */
  let current: Complex = { re: 0, im: 0 };
  const cross = (from: number, to: number, permeability: number, ohmM: number) => {
    const h = (to - from) / steps;
    const slopes = (r: number, e: Complex, i: Complex): [Complex, Complex] => [
      r === 0 ? { re: 0, im: 0 } : times({ re: 0, im: (omega * permeability) / r }, i),
      { re: (r / ohmM) * e.re, im: (r / ohmM) * e.im },
    ];
    for (let n = 0; n < steps; n++) {
      const r = from + n * h;
      const [e1, i1] = slopes(r, electric, current);
      const [e2, i2] = slopes(r + h / 2, plus(electric, e1, h / 2), plus(current, i1, h / 2));
      const [e3, i3] = slopes(r + h / 2, plus(electric, e2, h / 2), plus(current, i2, h / 2));
      const [e4, i4] = slopes(r + h, plus(electric, e3, h), plus(current, i3, h));
      electric = plus(electric, plus(plus(e1, e4), plus(e2, e3), 2), h / 6);
      current = plus(current, plus(plus(i1, i4), plus(i2, i3), 2), h / 6);
    }
  };
  cross(0, wire.coreRadiusM, vacuum * wire.corePermeability, wire.coreOhmM);
  if (wire.outerRadiusM > wire.coreRadiusM) cross(wire.coreRadiusM, wire.outerRadiusM, vacuum, wire.tubeOhmM);
  const size = 2 * Math.PI * (current.re ** 2 + current.im ** 2);
  const quotient = times(electric, { re: current.re, im: -current.im });
  return { re: quotient.re / size, im: quotient.im / size };
}
