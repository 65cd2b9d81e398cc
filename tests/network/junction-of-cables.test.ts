import { parsePlan, solvePlan } from '@postvolt/core';
import { expect, test } from 'vitest';

// Its post's body once hung in the air, and the whole plan could not be solved.
test('a junction where cables alone meet has a post at earth and the volts of its cables', () => {
  const plan = parsePlan({
    formatVersion: 1,
    units: 'metric',
    soil: 'loam',
    energizer: { at: 'shed', class: '3 J', groundResistance: '20 ohm' },
    junctions: ['shed', 'box', 'gate', 'end'],
    builds: { line: { post: 'wood', wire: '2.5 mm', strands: [{ height: '0.9 m' }] } },
    runs: { fence: { from: 'gate', to: 'end', length: '200 m', build: 'line' } },
    cables: [
      { from: 'shed', to: 'box', length: '30 m' },
      { from: 'box', to: 'gate', length: '30 m' },
    ],
  });
  const { posts, energizer } = solvePlan(plan).conditions[0]!;
  expect(posts.find(({ id }) => id === 'box')).toMatchObject({ bodyVolts: 0, bodyAmps: 0, strands: [] });
  const atGate = posts.find(({ id }) => id === 'gate')!.strands[0]!;
  expect(atGate.voltsToEarth).toBeGreaterThan(0.99 * energizer.fenceVoltsToEarth);
  expect(atGate.voltsToEarth).toBeLessThan(energizer.fenceVoltsToEarth);
});
