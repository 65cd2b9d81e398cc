import { parsePlan, type ResolvedPlan } from '@postvolt/core';

const common = {
  formatVersion: 1,
  units: 'metric',
  target: 'cattle',
  soil: 'loam',
} as const;

const plan = (input: unknown): ResolvedPlan => parsePlan(input as never);

/** Fences of different shapes that faults are traced on; every farm is invented. */
export const scoringFarms: readonly { readonly name: string; readonly plan: ResolvedPlan }[] = [
  {
    name: 'one line',
    plan: plan({
      ...common,
      title: 'One line',
      energizer: { at: 'home', class: '3 J', groundRods: { count: 3, length: '1.8 m', spacing: '3 m' } },
      junctions: ['home', 'end'],
      builds: {
        single: { post: 'wood', postSpacing: '15 m', wire: '12.5 ga', strands: [{ name: 'top', height: '85 cm' }] },
      },
      runs: { line: { from: 'home', to: 'end', length: '3 km', build: 'single' } },
      conditions: { usual: { soil: 'moist', surface: 'damp', growth: 'light', growthHeight: '90 cm' } },
    }),
  },
  {
    name: 'branches',
    plan: plan({
      ...common,
      title: 'Branches',
      energizer: { at: 'home', class: '6 J', groundRods: { count: 4, length: '1.8 m', spacing: '3 m' } },
      junctions: ['home', 'fork', 'corner', 'creek', 'hill', 'ridge'],
      builds: {
        double: {
          post: 'wood',
          postSpacing: '12 m',
          wire: '12.5 ga',
          strands: [
            { name: 'top', height: '90 cm' },
            { name: 'low', height: '50 cm' },
          ],
        },
        single: {
          post: 'fibreglass rod',
          postSpacing: '12 m',
          wire: '12.5 ga',
          strands: [{ name: 'top', height: '80 cm' }],
        },
      },
      runs: {
        lane: { from: 'home', to: 'fork', length: '700 m', build: 'double' },
        west: { from: 'fork', to: 'corner', length: '900 m', build: 'double' },
        brook: { from: 'corner', to: 'creek', length: '500 m', build: 'single' },
        slope: { from: 'fork', to: 'hill', length: '800 m', build: 'single' },
        top: { from: 'hill', to: 'ridge', length: '600 m', build: 'single' },
      },
      conditions: { usual: { soil: 'moist', surface: 'wet', growth: 'light', growthHeight: '60 cm' } },
    }),
  },
  {
    name: 'ring',
    plan: plan({
      ...common,
      title: 'Ring',
      energizer: { at: 'home', class: '6 J', groundRods: { count: 4, length: '1.8 m', spacing: '3 m' } },
      junctions: ['home', 'nw', 'n', 'ne', 'se', 's'],
      builds: {
        double: {
          post: 'steel t-post',
          postSpacing: '14 m',
          wire: '12.5 ga',
          strands: [
            { name: 'top', height: '90 cm' },
            { name: 'low', height: '50 cm' },
          ],
        },
        single: {
          post: 'wood',
          postSpacing: '14 m',
          wire: '12.5 ga',
          strands: [{ name: 'top', height: '80 cm' }],
        },
      },
      runs: {
        west: { from: 'home', to: 'nw', length: '800 m', build: 'double' },
        'north 1': { from: 'nw', to: 'n', length: '700 m', build: 'double' },
        'north 2': { from: 'n', to: 'ne', length: '700 m', build: 'double' },
        east: { from: 'ne', to: 'se', length: '800 m', build: 'double' },
        'south 2': { from: 'se', to: 's', length: '700 m', build: 'double' },
        'south 1': { from: 's', to: 'home', length: '700 m', build: 'double' },
        cross: { from: 's', to: 'n', length: '800 m', build: 'single' },
      },
      conditions: { usual: { soil: 'moist', surface: 'damp', growth: 'light', growthHeight: '60 cm' } },
    }),
  },
];
