// Draws of a fence of a thousand posts: what the study adds to the engine's own numeric passes.
import { openFence, parsePlan } from '../../packages/core/dist/index.js';
import { spread } from '../../packages/core/dist/studies.js';
import { median } from './measure.mjs';

/** Two runs of two strands each, aged insulators on wood, growth on both strands: 1 000 posts, 3 000 nodes. */
const plan = () =>
  parsePlan({
    formatVersion: 1,
    title: 'A thousand posts',
    units: 'metric',
    target: 'cattle',
    soil: 'loam',
    energizer: { at: 'home', class: '6 J', leadOut: { length: '20 m' }, groundRods: { count: 3, length: '2 m' } },
    junctions: ['home', 'corner', 'end'],
    builds: {
      'two strands': {
        post: 'wood',
        postSpacing: '12 m',
        wire: '12.5 ga',
        insulator: 'nail-on claw',
        insulatorState: 'aged',
        strands: [
          { name: 'top', height: '90 cm' },
          { name: 'low', height: '50 cm' },
        ],
      },
    },
    runs: {
      north: { from: 'home', to: 'corner', length: '5988 m', build: 'two strands' },
      west: { from: 'corner', to: 'end', length: '6000 m', build: 'two strands' },
    },
    conditions: { wet: { soil: 'wet', surface: 'wet', growth: 'light' } },
  });

/** Of processor time: what one core needs, whatever else the machine does. */
const milliseconds = async (action) => {
  globalThis.gc?.();
  const start = process.cpuUsage();
  await action();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e3;
};

/** Five rounds at most: each is ten thousand draws. */
export const spreadDraws = (draws = 10_000) => ({
  name: 'draws of the tables’ ranges, a thousand posts of two strands',
  async run(repeats) {
    const fence = plan();
    const { circuit } = openFence(fence, fence.conditions[0]);
    const nodes = circuit.network.nodeCount;
    const passes = () => {
      for (let d = 0; d < draws; d++) {
        circuit.valuesChanged();
        circuit.solve();
      }
    };
    await spread(fence, { draws: 500 });
    const [study, bare] = [[], []];
    for (let i = 0; i < Math.min(repeats, 5); i++) {
      study.push(await milliseconds(() => spread(fence, { draws, seed: i })));
      bare.push(await milliseconds(passes));
    }
    const ours = median(study);
    return [
      { part: `${draws} draws`, nodes, ours, theirs: 5000, against: 'five seconds of one core', aim: 1 },
      { part: `${draws} draws`, nodes, ours, theirs: median(bare), against: 'as many of our numeric passes', aim: 3 },
    ];
  },
});
