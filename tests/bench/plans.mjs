// From resolved plan to result, held against the engine's own work on the same network.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Circuit } from '../../packages/core/dist/engine.js';
import { openFence, solvePlan, verdictOf } from '../../packages/core/dist/index.js';
import { readPlanText } from '../../packages/core/dist/yaml.js';
import { scenario } from '../../packages/scenarios/dist/index.js';
import { median, medians } from './measure.mjs';

function read(text) {
  const outcome = readPlanText(text);
  if (!outcome.ok) throw new Error(outcome.issues[0].found);
  return outcome.value;
}

/** A run of so many posts of two strands, growth, wood and rain: every kind of element that fences have many of. */
const longFence = (posts) =>
  read(`
formatVersion: 1
units: metric
target: cattle
soil: loam
energizer: { at: barn, class: 12 J, groundRods: { count: 8, length: 2 m, spacing: 3 m } }
junctions: [barn, far]
builds:
  two: { post: wood, postSpacing: 10 m, wire: 2.5 mm, strands: [{ name: top, height: 0.9 m }, { name: low, height: 0.5 m }] }
runs: { line: { from: barn, to: far, length: ${((posts - 1) * 10) / 1000} km, build: two } }
conditions: { wet: { soil: wet, surface: wet, growth: trace, growthHeight: 0.7 m } }
`);

/** A whole result, every post of it, against ordering and solving the same network. */
export const wholeResult = (posts) => ({
  name: `solvePlan, ${posts} posts of two strands`,
  run(repeats) {
    const plan = longFence(posts);
    const { network, source } = openFence(plan, 'wet').circuit;
    const { ours, theirs } = medians(
      { ours: () => solvePlan(plan), theirs: () => new Circuit(network, source).solve() },
      Math.min(repeats, 9),
    );
    return [{ nodes: network.nodeCount, ours, theirs, aim: 12, against: 'first contact of the engine' }];
  },
});

/** One element changed, and the weakest post or the whole verdict asked for. */
export const changeAndAsk = (posts) => ({
  name: `a change of an open fence, ${posts} posts`,
  run(repeats) {
    const fence = openFence(longFence(posts), 'wet');
    let n = 0;
    const change = () => fence.setElement(5, 1e-5 * (1 + (n++ % 7)));
    const { numeric, lowest, verdict } = medians(
      {
        numeric() {
          fence.circuit.valuesChanged();
          fence.circuit.solve();
        },
        lowest() {
          change();
          fence.lowest();
        },
        verdict() {
          change();
          verdictOf(fence);
        },
      },
      repeats,
    );
    const nodes = fence.layout.nodeCount;
    return [
      { part: 'weakest post', nodes, ours: lowest, theirs: numeric, aim: 3, against: 'one numeric pass' },
      { part: 'verdict in words', nodes, ours: verdict, theirs: numeric, against: 'one numeric pass' },
    ];
  },
});

/** The demo farm in its four conditions, warm, and by the command line as a whole process, in processor time. */
export const demoFarm = () => ({
  name: 'demo farm, four conditions',
  run(repeats) {
    const plan = read(scenario('demo farm').plan);
    const { ours } = medians({ ours: () => solvePlan(plan) }, Math.min(repeats, 15));
    const folder = mkdtempSync(join(tmpdir(), 'bench-'));
    const file = join(folder, 'farm.yaml');
    writeFileSync(file, scenario('demo farm').plan);
    const program = fileURLToPath(new URL('../../packages/cli/bin/postvolt.js', import.meta.url));
    const times = Array.from({ length: 9 }, () => {
      const { stdout } = spawnSync(
        'sh',
        ['-c', '"$0" "$1" solve "$2" > "$3"; times', process.execPath, program, file, join(folder, 'out')],
        { encoding: 'utf8' },
      );
      const [user, system] = [
        ...stdout
          .trim()
          .split('\n')
          .at(-1)
          .matchAll(/(\d+)m([\d.]+)s/g),
      ].map(([, m, s]) => 60 * m + +s);
      return 1000 * (user + system);
    });
    rmSync(folder, { recursive: true });
    return [
      { part: 'solvePlan, warm', ours, theirs: 60, aim: 1, against: 'sixty milliseconds' },
      {
        part: '`postvolt solve`, whole process',
        ours: median(times),
        theirs: 600,
        aim: 1,
        against: '0.6 s of processor time',
      },
    ];
  },
});
