import { earthReturnOhmsPerMetre } from '@postvolt/tables';
import { against } from './support/accuracy.js';

const check = against(import.meta.url, {
  title: 'J. R. Carson 1926: wave propagation in overhead wires with ground return',
  about:
    'The earth that returns the current adds ωµ₀/π·Re ∫ (√(u² + j) − u)·e^(−ku) du to the resistance of a wire at height h, ' +
    'with k = 2h√(ωµ₀σ). Its first term is ωµ₀/8 = π²f·10⁻⁷ Ω/m, whatever the soil and height; the integral is worked out ' +
    "here by Simpson's rule to show what the first term leaves out.",
  basis: 'reckoned',
});

/** Re √(u² + j). */
const root = (u: number) => Math.sqrt((u * u + Math.sqrt(u ** 4 + 1)) / 2);

/** Carson's P, by Simpson's rule in t with u = t/(1 − t); the integrand falls as 1/u³ even where the wire lies on the soil. */
function carsonP(k: number): number {
  const n = 20_000;
  const f = (t: number) => {
    const u = t / (1 - t);
    // √ − u by its conjugate: the difference of two large numbers would lose its digits.
    const value = u > 1e4 ? 1 / (8 * u ** 3) : root(u) - u;
    return (value * Math.exp(-k * u)) / (1 - t) ** 2;
  };
  let sum = f(0);
  for (let i = 1; i < n; i++) sum += f(i / n) * (i % 2 === 1 ? 4 : 2);
  return sum / (3 * n);
}

const exactOhmsPerKm = (hz: number, heightM: number, soilOhmM: number) => {
  const omega = 2 * Math.PI * hz;
  const k = 2 * heightM * Math.sqrt((omega * 4e-7 * Math.PI) / soilOhmM);
  return 1000 * 4e-7 * omega * carsonP(k);
};

check({
  quantity: 'at 5 kHz, a wire lying on the soil',
  unit: 'Ω/km',
  theirs: () => exactOhmsPerKm(5000, 0, 100),
  ours: () => 1000 * earthReturnOhmsPerMetre(5000),
  tolerance: { relative: 1e-6 },
  reason: "The first term is the whole integral at no height; Simpson's rule is good to 10⁻⁷.",
});
for (const [hz, soilOhmM] of [
  [2500, 100],
  [5000, 1000],
  [5000, 100],
  [5000, 25],
  [10_000, 100],
] as const) {
  check({
    quantity: `at ${hz / 1000} kHz, a wire 1 m above soil of ${soilOhmM} Ω·m`,
    unit: 'Ω/km',
    theirs: () => exactOhmsPerKm(hz, 1, soilOhmM),
    ours: () => 1000 * earthReturnOhmsPerMetre(hz),
    tolerance: { relative: 0.06 },
    reason:
      'The second term is −k/(3√2) beside π/8, 5 % in the wettest clay; the earth is 6 % of a steel wire, so 0.3 % of the whole.',
  });
}
