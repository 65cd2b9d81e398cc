// A farm tool that keeps its fences in SI hands them over as a resolved plan; rows that it names come from the tables.
//   node examples/solve-in-si.mjs
import { readResolvedPlan, solvePlan } from '@postvolt/core';

const read = readResolvedPlan({
  format: 'postvolt resolved plan',
  formatVersion: 1,
  title: 'Field 7',
  units: 'metric',
  animal: 'cattle',
  soil: 'loam',
  energizer: {
    junction: 'shed',
    row: '3 j',
    ground: { kind: 'rods', count: 3, lengthM: 1.8, diameterM: 0.016, spacingM: 3, layout: 'line' },
  },
  junctions: [{ id: 'shed' }, { id: 'brook' }],
  builds: [
    {
      id: 'two strands',
      post: 'wood',
      strands: [{ id: 'top', heightM: 0.9, wire: '2.5 mm high-tensile', insulator: 'nail-on claw' }],
    },
  ],
  runs: [
    {
      id: 'east side',
      from: 'shed',
      to: 'brook',
      lengthM: 402,
      posts: { kind: 'equal', spacingM: 12 },
      build: 'two strands',
    },
  ],
  conditions: [
    {
      id: 'rain',
      soil: 'wet',
      film: 'wet',
      post: 'wet',
      growthWetness: 'wet',
      growth: { vegetation: 'moderate', heightM: 1 },
    },
  ],
});
if (!read.ok) {
  for (const { path, found, expected } of read.issues)
    console.error(`${path.join('.')}: ${found}, expected ${expected}`);
  process.exit(2);
}

const [rain] = solvePlan(read.value).conditions;
console.log(rain.verdict.sentence);
for (const { id, strands } of rain.posts.slice(-3)) console.log(id, strands[0].voltsToEarth.toFixed(0), 'V');
