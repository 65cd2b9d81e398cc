import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { scenario } from '@postvolt/scenarios';
import { expect, test } from 'vitest';
import { folder, postvolt } from './run.js';

const plan = scenario('demo farm').plan;

test('netlist writes the deck of the condition asked for, of the first where none was', async () => {
  const [first, wet] = await Promise.all([
    postvolt(['netlist', '-'], { input: plan }),
    postvolt(['netlist', '-', '--condition', 'Wet Autumn'], { input: plan }),
  ]);
  expect(first).toMatchObject({ code: 0, stderr: '' });
  expect(first.stdout).toMatch(/^Fence network: Pennywhistle Flats, dry summer\n/);
  expect(first.stdout).toMatch(/\n\.op\n\.end\n$/);
  expect(wet.stdout).toMatch(/^Fence network: Pennywhistle Flats, wet autumn\n/);
});

test('netlist writes a file and says so; solve names the same nodes', async () => {
  const cwd = folder();
  writeFileSync(join(cwd, 'plan.yaml'), plan);
  expect(await postvolt(['netlist', 'plan.yaml', '-c', 'wet spring', '-o', 'deck.cir'], { cwd })).toEqual({
    code: 0,
    stdout: 'Wrote deck.cir: Pennywhistle Flats, condition "wet spring".\n',
    stderr: '',
  });
  const deck = readFileSync(join(cwd, 'deck.cir'), 'utf8');
  const { stdout } = await postvolt(['solve', 'plan.yaml', '-c', 'wet spring', '--json'], { cwd });
  const { posts } = JSON.parse(stdout).conditions[0] as { posts: { strands: { node: string }[] }[] };
  const nodes = posts.flatMap(({ strands }) => strands.map(({ node }) => node));
  expect(nodes.length).toBeGreaterThan(1000);
  const named = new Set(deck.match(/^\* \w+(?=:)/gm));
  for (const node of nodes) expect(named).toContain(`* ${node}`);
});

test('netlist refuses a condition that the plan does not have, and to write over the plan', async () => {
  const cwd = folder();
  writeFileSync(join(cwd, 'plan.yaml'), plan);
  const unknown = await postvolt(['netlist', 'plan.yaml', '-c', 'monsoon'], { cwd });
  expect(unknown).toMatchObject({ code: 2, stdout: '' });
  expect(unknown.stderr).toContain('found condition "monsoon", expected one of the plan\'s: "dry summer"');
  const over = await postvolt(['netlist', 'plan.yaml', '-o', './plan.yaml'], { cwd });
  expect(over).toMatchObject({ code: 2, stdout: '' });
  expect(over.stderr).toContain('that is the plan itself');
  expect(readFileSync(join(cwd, 'plan.yaml'), 'utf8')).toBe(plan);
});
