import { openFence, type ResolvedPlan, toNetlist, wordIssue } from '@postvolt/core';
import { nodeNames } from '@postvolt/core/network';
import { readPlanText } from '@postvolt/core/yaml';
import { scenarios } from '@postvolt/scenarios';
import { expect, test } from 'vitest';
import { against } from './support/accuracy.js';
import { simulate } from './support/circuit-simulator.js';
import { everyFeature } from './support/every-feature.js';
import { exact, plainPlan, plainValues } from './support/fence.js';

const check = against(import.meta.url, {
  title: 'ngspice, a general circuit simulator',
  about:
    'ngspice, compiled to WebAssembly (npm package eecircuit-engine 1.8.0), finds the operating point of the deck that ' +
    '`postvolt netlist` writes, with the whole output curve of the energizer. Every node above 10⁻⁹ of the source volts ' +
    'is compared; the node with the largest difference stands for its deck.',
  basis: 'program',
});

/** Theirs and ours at the node where they differ most; throws where a node is missing, or is zero for one of us only. */
async function worstNode(plan: ResolvedPlan, conditionId: string): Promise<{ theirs: number; ours: number }> {
  const condition = plan.conditions.find(({ id }) => id === conditionId)!;
  const { volts, network: fence, circuit } = openFence(plan, condition);
  const floor = 1e-9 * circuit.source.volts[0]!;
  const simulated = await simulate(toNetlist(plan, conditionId));
  let worst = { theirs: Number.NaN, ours: Number.NaN, off: -1 };
  nodeNames(fence.layout).forEach((name, node) => {
    const theirs = simulated.get(name);
    const ours = volts[node]!;
    if (theirs === undefined) throw new Error(`the simulator has no node ${name}`);
    if (Math.abs(ours) <= floor) {
      if (Math.abs(theirs) > 1.01 * floor) throw new Error(`${name}: ours ${ours} V, theirs ${theirs} V`);
      return;
    }
    const off = Math.abs(ours / theirs - 1);
    if (off > worst.off) worst = { theirs, ours, off };
  });
  return worst;
}

function compare(quantity: string, plan: ResolvedPlan, conditionId: string, inLongForm = false): void {
  let once: ReturnType<typeof worstNode> | undefined;
  const run = () => {
    once ??= worstNode(plan, conditionId);
    return once;
  };
  check({
    quantity,
    unit: 'V',
    theirs: async () => (await run()).theirs,
    ours: async () => (await run()).ours,
    tolerance: { relative: 1e-6 },
    inLongForm,
    reason:
      'The simulator iterates to 10⁻⁹ and eliminates with some ten digits where spans of 0.1 Ω meet leaks of gigaohms.',
  });
}

for (const { id, plan: text } of scenarios) {
  const outcome = readPlanText(text);
  if (!outcome.ok) throw new Error(`scenario ${id}: ${outcome.issues.map((issue) => wordIssue(issue)).join(' ')}`);
  // The short form simulates one condition of each small farm.
  for (const [c, condition] of outcome.value.conditions.entries())
    compare(`${id}: ${condition.name}`, outcome.value, condition.id, c > 0 || id === 'demo farm');
}

for (const condition of everyFeature.conditions)
  compare(`a plan with every feature: ${condition.name}`, everyFeature, condition.id);

interface Curve {
  readonly name: string;
  /** Volts by test load. */
  readonly loads: readonly (readonly [ohms: number | null, volts: number])[];
  /** Leaks of a post, one a segment, that put the operating point on each in turn; the last lies beyond the last point. */
  readonly postOhms: readonly number[];
}

// biome-ignore format: a curve a row
const curves: readonly Curve[] = [
  { name: 'two points', loads: [[null, 7000], [500, 3500]], postOhms: [3000] },
  { name: 'a bulging curve', loads: [[null, 9000], [500, 8000], [100, 5000], [20, 1500]], postOhms: [3000, 600, 100] },
  { name: 'a hollow curve', loads: [[null, 6000], [500, 1100], [100, 300], [20, 65]], postOhms: [3000, 600, 3] },
  { name: 'a curve that bends both ways', loads: [[null, 9000], [1000, 5000], [400, 4700], [100, 2000], [40, 900]], postOhms: [30_000, 2000, 600, 3] },
];

const curvePlan = ({ loads }: Curve, postOhms: number): ResolvedPlan => {
  const plan = plainPlan({}, { ...plainValues, ohmsPerMetre: 0.1, insulatorOhms: 1, postOhms, groundOhms: 5 });
  plan.energizer.loads = loads.map(([ohms, volts]) => ({ ohms, volts: exact(volts, 'V') }));
  return plan;
};

for (const curve of curves) {
  curve.postOhms.forEach((ohms, segment) => {
    compare(`${curve.name}, segment ${segment + 1}`, curvePlan(curve, ohms), 'usual');
  });
}

test('the curves are met on each of their segments', () => {
  for (const curve of curves) {
    const met = curve.postOhms.map((ohms) => {
      const plan = curvePlan(curve, ohms);
      return openFence(plan, plan.conditions[0]!).circuit.solve().segment;
    });
    expect(met, curve.name).toEqual(Array.from({ length: curve.loads.length - 1 }, (_, segment) => segment));
  }
});

test('the comparison would see a span that is a ten-thousandth too long, and a part that floats', async () => {
  const deck = toNetlist(plainPlan(), 'usual');
  const longer = deck.replace(
    /^(R2 .*) (\S+)$/m,
    (_, span: string, ohms: string) => `${span} ${Number(ohms) * 1.0001}`,
  );
  const right = await simulate(deck);
  const wrong = await simulate(longer);
  const off = [...right].map(([node, volts]) => Math.abs(wrong.get(node)! / volts - 1));
  expect(Math.max(...off)).toBeGreaterThan(1e-6);
  await expect(simulate('floating\nI1 0 a 1\nR1 a 0 1\nR2 b c 1\n.op\n.end\n')).rejects.toThrow('singular matrix');
});
