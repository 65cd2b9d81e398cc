import type { PlanInput } from '@postvolt/core';
import { against } from './support/accuracy.js';
import { alongFence, solveInput, straight } from './support/whole-plan.js';

const check = against(import.meta.url, {
  title: 'Closed forms of ladders and leaky lines, through whole plans',
  about:
    "Any text on transmission lines has them: the telegrapher's equations at zero frequency, and the ladder of N equal " +
    'sections with cosh γ = 1 + RG/2. Plans are written as a person writes them, with resistances entered so that every ' +
    'span and post has the same; the energizer is 8 kV behind 400 Ω, its ground 20 Ω.',
  basis: 'reckoned',
});

const [openVolts, sourceOhms, groundOhms] = [8000, 400, 20];
const [spanM, postOhms] = [10, 3000];
/** The earth's share at the 1 Hz that the plans set is π²·10⁻⁷ Ω/m beside the wire's own. */
const earthOhmsPerMetre = Math.PI ** 2 * 1e-7;

/** A fence of n spans; every post leaks by 2000 Ω of insulator and 1000 Ω of wood, on soil that adds nothing. */
function ladder(n: number, ohmsPerMetre: number, changes: Partial<PlanInput> = {}): PlanInput {
  const claw = { like: 'nail-on claw', formFactor: 1 };
  return straight(`${n * spanM} m`, {
    pulseFrequency: '1 Hz',
    energizer: {
      at: 'home',
      output: { open: '8 kV', '600 ohm': '4800 V' },
      groundResistance: `${groundOhms} ohm`,
    },
    soil: { like: 'loam', moistTopsoil: '1e-9 ohm m' },
    tables: { films: { new: { leakDry: '0.5 mS' } } },
    build: {
      post: { like: 'wood', throughDry: '1000 ohm' },
      postSpacing: `${spanM} m`,
      wire: { like: '2.5 mm', resistance: `${ohmsPerMetre} ohm/m` },
      insulator: claw,
      endInsulator: claw,
      strands: [{ height: '0.9 m' }],
    },
    ...changes,
  });
}

/** Volts at posts 0 to N of a ladder with G at inner nodes and Ge at both ends, source and ground included. */
function ladderVolts(n: number, R: number, G: number, Ge: number): number[] {
  const gamma = Math.acosh(1 + (R * G) / 2);
  const b = ((Ge - G / 2) * R) / Math.sinh(gamma);
  const shape = (k: number) => Math.cosh((n - k) * gamma) + b * Math.sinh((n - k) * gamma);
  const input = Ge + (1 - shape(1) / shape(0)) / R;
  const first = openVolts / (input * (sourceOhms + groundOhms) + 1);
  return Array.from({ length: n + 1 }, (_, k) => (first * shape(k)) / shape(0));
}

const rounding = 'Some thousand roundings of a double on each side.';

for (const n of [1, 7, 60]) {
  for (const k of n === 1 ? [1] : [Math.floor(n / 2), n]) {
    check({
      quantity: `${n} span${n === 1 ? '' : 's'} of 100 Ω and posts of 3 kΩ, post ${k}`,
      unit: 'V',
      theirs: () => ladderVolts(n, spanM * (10 + earthOhmsPerMetre), 1 / postOhms, 1 / postOhms)[k]!,
      ours: () => alongFence(solveInput(ladder(n, 10)))[k]!.voltsToEarth,
      tolerance: { relative: 1e-10 },
      reason: rounding,
    });
  }
}

for (const k of [0, 20, 40]) {
  const leak = 3e-5;
  check({
    quantity: `40 spans of 10 Ω with a leak of 30 µS/m beside the posts, post ${k}`,
    unit: 'V',
    theirs: () =>
      ladderVolts(40, spanM * (1 + earthOhmsPerMetre), 1 / postOhms + leak * spanM, 1 / postOhms + (leak * spanM) / 2)[
        k
      ]!,
    ours: () =>
      alongFence(solveInput(ladder(40, 1, { stretches: [{ run: 'fence', leak: '30 uS/m' }] })))[k]!.voltsToEarth,
    tolerance: { relative: 1e-10 },
    reason: rounding,
  });
}

/** A line of 3 km, 0.07 Ω/m, that leaks by growth alone; V(ℓ) = V₀/cosh γℓ, input resistance √(R′/G′)/tanh γℓ. */
const [lengthM, ohmsPerMetre, leak] = [3000, 0.07, 1e-6];
const leakyLine = (postSpacing: string) =>
  ladder(lengthM / spanM, ohmsPerMetre, {
    tables: { films: { new: { leakDry: '1e-18 S' } } },
    runs: { fence: { from: 'home', to: 'end', length: `${lengthM} m`, postSpacing } },
    stretches: [{ run: 'fence', leak: '1 uS/m' }],
  });
const farVolts = () => {
  const gammaL = lengthM * Math.sqrt((ohmsPerMetre + earthOhmsPerMetre) * leak);
  const input = Math.sqrt((ohmsPerMetre + earthOhmsPerMetre) / leak) / Math.tanh(gammaL);
  return (openVolts * input) / (input + sourceOhms + groundOhms) / Math.cosh(gammaL);
};
for (const [postSpacing, relative, reason] of [
  ['1 m', 1e-8, 'Lumping every metre of a line with γ = 0.00026/m shifts it by some (γ·1 m)²/12 = 6·10⁻⁹.'],
  ['15 m', 2e-6, 'Lumping every 15 m of a line with γ = 0.00026/m shifts it by some (γ·15 m)²/12 = 1.3·10⁻⁶.'],
] as const) {
  check({
    quantity: `far end of a leaky line of 3 km, 0.07 Ω/m and 1 µS/m, posts every ${postSpacing}`,
    unit: 'V',
    theirs: farVolts,
    ours: () => alongFence(solveInput(leakyLine(postSpacing))).at(-1)!.voltsToEarth,
    tolerance: { relative },
    reason,
  });
}

/** Spans and posts of 3 kΩ: the ladder without end, forty sections of which are as good. */
const golden = (leadOut: boolean) => {
  const plan = ladder(40, 300 - earthOhmsPerMetre);
  const lead = { length: '10 m', wire: { like: '2.5 mm', resistance: '300 ohm/m' } };
  const { inputOhms } = solveInput(
    leadOut ? { ...plan, energizer: { ...plan.energizer, leadOut: lead } } : plan,
  ).energizer;
  return (inputOhms - groundOhms) / postOhms;
};
check({
  quantity: 'input of the endless ladder of equal spans and posts, post first, in posts',
  unit: '1',
  theirs: (Math.sqrt(5) - 1) / 2,
  ours: () => golden(false),
  tolerance: { relative: 1e-9 },
  reason: 'The wood stands on soil of 10⁻⁹ Ω·m, which adds 10⁻¹² of a post; forty sections leave out 10⁻³³.',
});
check({
  quantity: 'the same with a lead-out as the first span: the golden section',
  unit: '1',
  theirs: (1 + Math.sqrt(5)) / 2,
  ours: () => golden(true),
  tolerance: { relative: 1e-9 },
  reason: 'As before.',
});
