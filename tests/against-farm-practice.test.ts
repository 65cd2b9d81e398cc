import type { PlanInput } from '@postvolt/core';
import { against } from './support/accuracy.js';
import { alongFence, solveInput, straight } from './support/whole-plan.js';

const check = against(import.meta.url, {
  title: 'Rules of thumb of the trade',
  about:
    'Plausibility, not proof: the rules are round and their fences are not described. One joule a mile, with 3 ft of rod a ' +
    'joule and three rods at the least, is said to hold 3 kV over a moderately grown fence, cleanly built, fed from one ' +
    'end. By the tables it does, from one mile to six and with one to two strands in wet growth up to 30 in, on loam; and ' +
    'it is not idle, since heavy wet growth brings six miles below 3 kV.',
  basis: 'practice',
});

/** A fence of two-strand or three-strand wire on wood, new insulators, growth up to the second strand from the top. */
function fence(joules: number, miles: number, growth: string, heights: readonly string[], rods = 3): PlanInput {
  return straight(`${miles} mi`, {
    energizer: {
      at: 'home',
      class: `${joules} J`,
      groundRods: { count: rods, length: '6 ft', spacing: '10 ft' },
    },
    build: { post: 'wood', postSpacing: '40 ft', wire: '12.5 ga', strands: heights.map((height) => ({ height })) },
    conditions: { wet: { soil: 'wet', surface: 'wet', growth, growthHeight: '30 in' } },
  });
}
const least = (plan: PlanInput) => solveInput(plan).verdict.weakest.voltsToEarth;

const two = ['36 in', '24 in'];
const three = ['36 in', '24 in', '12 in'];
for (const [joules, miles] of [
  [1, 1],
  [3, 3],
  [6, 6],
] as const) {
  for (const [heights, inGrowth] of [
    [two, 'one strand'],
    [three, 'two strands'],
  ] as const) {
    check({
      quantity: `${joules} J on ${miles} mile${miles === 1 ? '' : 's'}, moderate growth on ${inGrowth}, least volts`,
      unit: 'V',
      ours: () => least(fence(joules, miles, 'moderate', heights)),
      tolerance: { notBelow: 3000 },
      reason: 'The rule says that it holds 3 kV.',
    });
  }
}
check({
  quantity: '6 J on 6 miles, heavy growth on two strands, least volts',
  unit: 'V',
  ours: () => least(fence(6, 6, 'heavy', three)),
  tolerance: { notAbove: 3000 },
  reason: 'The rule is for moderate growth; one that held whatever grew would say nothing.',
});
check({
  quantity: '1 J on 6 miles, moderate growth on two strands, least volts',
  unit: 'V',
  ours: () => least(fence(1, 6, 'moderate', three)),
  tolerance: { notAbove: 3000 },
  reason: 'A sixth of the joules that the rule asks for must not do.',
});

/** Part of the volts that is left at a post where the wire has come off its insulator. */
function left(post: string, surface: 'dry' | 'wet'): number {
  const volts = (faulty: boolean) => {
    const plan = straight('1 km', {
      energizer: { at: 'home', class: '3 J', groundRods: { count: 3, length: '6 ft', spacing: '10 ft' } },
      build: { post, postSpacing: '12 m', wire: '12.5 ga', strands: [{ height: '0.9 m' }] },
      conditions: { usual: { surface } },
      faults: faulty ? [{ kind: 'wire on post', run: 'fence', post: 40 }] : [],
    });
    return alongFence(solveInput(plan))[40]!.voltsToEarth;
  };
  return volts(true) / volts(false);
}
const offInsulator = 'A wire off its insulator is harmless on fibreglass, a nuisance on wood, a heavy fault on steel.';
for (const [post, surface, tolerance] of [
  ['fibreglass rod', 'wet', { notBelow: 0.999 }],
  ['wood', 'dry', { notBelow: 0.999 }],
  ['wood', 'wet', { within: [0.9, 0.999] }],
  ['steel t-post', 'dry', { notAbove: 0.6 }],
] as const) {
  check({
    quantity: `part of the volts left where the wire lies on a ${surface} ${post}`,
    unit: '1',
    ours: () => left(post, surface),
    tolerance,
    reason: offInsulator,
  });
}
