import { parsePlan } from '@postvolt/core';

/** A fence with a grounded strand beside the hot ones, on dry soil; invented. */
export const groundedFarm = parsePlan({
  formatVersion: 1,
  title: 'Grounded strand',
  units: 'metric',
  target: 'cattle',
  soil: 'loam',
  energizer: { at: 'home', class: '6 J', groundRods: { count: 4, length: '1.8 m', spacing: '3 m' } },
  junctions: ['home', 'corner', 'end'],
  builds: {
    three: {
      post: 'wood',
      postSpacing: '15 m',
      wire: '12.5 ga',
      strands: [
        { name: 'top', height: '100 cm' },
        { name: 'middle', height: '70 cm', role: 'grounded' },
        { name: 'low', height: '40 cm' },
      ],
    },
  },
  runs: {
    north: { from: 'home', to: 'corner', length: '600 m', build: 'three' },
    east: { from: 'corner', to: 'end', length: '450 m', build: 'three' },
  },
  conditions: { usual: { soil: 'dry', surface: 'damp', growth: 'light', growthHeight: '50 cm' } },
} as never);
