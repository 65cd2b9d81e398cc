// A reading is low: trace the fault, stop after stop, each where the last answer said to read.
// The fence itself stands in as the plan with a fault in it; a program for the field would ask its user instead.
//   node examples/follow-the-meter.mjs
import { parsePlan, solvePlan } from '@postvolt/core';
import { parseReadings, trace } from '@postvolt/core/studies';

const input = {
  formatVersion: 1,
  units: 'metric',
  title: 'Hazel Bank',
  target: 'cattle',
  soil: 'loam',
  energizer: { at: 'shed', class: '3 J', groundRods: { count: 3 } },
  junctions: ['shed', 'ford'],
  builds: { plain: { post: 'wood', postSpacing: '12 m', wire: '2.5 mm', strands: [{ name: 'top', height: '85 cm' }] } },
  runs: { bank: { from: 'shed', to: 'ford', length: '1.8 km', build: 'plain' } },
  conditions: { damp: { surface: 'damp', growth: 'light' } },
};
const plan = parsePlan(input);
const fence = parsePlan({
  ...input,
  faults: [{ kind: 'wire on ground', run: 'bank', span: 96, resistance: '600 ohm' }],
});

const strands = solvePlan(fence).conditions[0].posts.flatMap((post) =>
  post.strands.filter(({ run }) => run === 'bank'),
);
strands.sort((a, b) => a.post - b.post);
const last = strands.length - 1;
const numberOf = (id) => (id === 'shed' ? 0 : id === 'ford' ? last : Number(id.split('/')[1]));

/** What a meter would show there: kilovolts, and the amps that flow on towards `wireTo`, to a tenth. */
function read({ post, wireTo }) {
  const [here, there] = [numberOf(post), numberOf(wireTo)];
  const amps = there > here ? strands[here].spanAmps : -strands[there].spanAmps;
  const tenth = (value) => Math.round(value * 10) / 10;
  return { post, kV: tenth(strands[here].voltsToEarth / 1000), amps: tenth(amps), towards: wireTo };
}

const readings = [];
for (;;) {
  const { sentence, next } = await trace(plan, parseReadings({ condition: 'damp', readings }, plan));
  console.log(`after ${readings.length} readings: ${sentence}`);
  if (next === null || readings.length === 6) break;
  readings.push(read(next));
}
