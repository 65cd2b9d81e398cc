import { parsePlan, solvePlan } from '@postvolt/core';
import { impulseLimit, impulseLimitAmps } from '@postvolt/tables';
import { against } from './support/accuracy.js';

const check = against(import.meta.url, {
  title: 'IEC 60335-2-76: limits of electric fence energizers',
  about:
    'A current-limited energizer may give an impulse no longer than t(ms) = 41.885·10³·I(mA)^−1.34, from 1 to 15.7 A ' +
    'r.m.s.; an energy-limited one 5 J into 500 Ω; one impulse a second at most, 10 ms at most. They are type-test limits ' +
    'on the energizer: Postvolt warns where entered data break them and claims nothing from peak volts.',
  basis: 'memory',
});

check({
  quantity: 'longest impulse at 15.7 A',
  unit: 'ms',
  theirs: 0.1,
  ours: () => 1000 * impulseLimit(15.7),
  tolerance: { relative: 0.005 },
  reason: 'The end of the line is printed as 15 700 mA and 0.1 ms, three figures at best.',
});
check({
  quantity: 'longest impulse at 1 A',
  unit: 'ms',
  theirs: 4,
  ours: () => 1000 * impulseLimit(1),
  tolerance: { relative: 0.005 },
  reason: 'The end of the line is printed as 1000 mA and 4 ms, two figures at best.',
});
check({
  quantity: 'largest current of an impulse of 1 ms, and back',
  unit: 'ms',
  theirs: 1,
  ours: () => 1000 * impulseLimit(impulseLimitAmps(1e-3)),
  tolerance: { relative: 1e-12 },
  reason: 'A function and its inverse, rounding apart.',
});

const warnings = (data: { joules?: string; pulseWidth?: string; pulseInterval?: string }) =>
  solvePlan(
    parsePlan({
      formatVersion: 1,
      units: 'metric',
      soil: 'loam',
      energizer: { at: 'a', output: { open: '8 kV', '500 ohm': '6 kV' }, groundResistance: '20 ohm', ...data },
      junctions: ['a', 'b'],
      builds: { line: { post: 'wood', wire: '2.5 mm', strands: [{ height: '0.9 m' }] } },
      runs: { fence: { from: 'a', to: 'b', length: '100 m', build: 'line' } },
    }),
  ).warnings.filter(({ code }) => code === 'iec-60335-2-76').length;

for (const [quantity, data, expected] of [
  ['5 J in 0.2 ms, a pulse every second', { joules: '5 J', pulseWidth: '0.2 ms', pulseInterval: '1 s' }, 0],
  ['a pulse every 0.9 s', { pulseInterval: '0.9 s' }, 1],
  ['a pulse of 12 ms', { pulseWidth: '12 ms' }, 1],
  // √(0.95 · 12 J / (500 Ω · 0.1 ms)) = 15.1 A, and 16.9 A for 15 J.
  ['12 J in 0.1 ms, some 15.1 A r.m.s.', { joules: '12 J', pulseWidth: '0.1 ms' }, 0],
  ['15 J in 0.1 ms, some 16.9 A r.m.s.', { joules: '15 J', pulseWidth: '0.1 ms' }, 1],
] as const) {
  check({
    quantity: `warnings for ${quantity}`,
    unit: '1',
    theirs: expected,
    ours: () => warnings(data),
    tolerance: { absolute: 0 },
    reason: 'A count.',
  });
}
