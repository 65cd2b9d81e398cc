import { openFence, readResolvedPlan, solvePlan, toNetlist } from '@postvolt/core';
import { drivingPoints } from '@postvolt/core/engine';
import { expectedReadings, lossesByCause, spread } from '@postvolt/core/studies';
import { describe, expect, test } from 'vitest';
import { exact, plainPlan } from '../support/fence.js';

/** The plain plan with a spark across the insulator of the last post that fires at so many volts, 50 Ω once alight. */
function ticking(volts: number) {
  const plan = plainPlan();
  plan.faults = [
    {
      id: 'tick',
      kind: 'ticking insulator',
      run: 'north',
      post: 2,
      on: 'post',
      strand: 'top',
      otherStrand: null,
      ohms: exact(50, 'Ω'),
      gapVolts: exact(volts, 'V'),
      conditions: null,
    },
  ];
  return plan;
}

const unfaulted = solvePlan(plainPlan()).conditions[0]!;
const end = (result: typeof unfaulted) => result.posts.find((post) => post.junction === 'b')!;

describe('a ticking insulator', () => {
  test('does nothing while the volts across it stay under its threshold', () => {
    const dark = solvePlan(ticking(5000)).conditions[0]!;
    expect(end(dark).strands[0]!.voltsToEarth).toBe(end(unfaulted).strands[0]!.voltsToEarth);
    expect(dark.leaks.find((leak) => leak.kind === 'fault')!.amps).toBe(0);
  });

  test('carries (V − threshold) / ohms beside the insulator once it fires, and every law holds', () => {
    const lit = solvePlan(ticking(1000)).conditions[0]!;
    const post = end(lit);
    const across = post.strands[0]!.voltsToEarth - post.bodyVolts;
    const spark = (across - 1000) / 50;
    // Insulator 2000 Ω in parallel, post 1000 Ω after both.
    expect(Math.abs(post.bodyAmps / (spark + across / 2000) - 1)).toBeLessThan(1e-9);
    expect(lit.leaks.find((leak) => leak.cause.startsWith('ticking'))!.amps).toBeCloseTo(spark, 9);
    expect(lit.leaks.reduce((sum, leak) => sum + leak.amps, 0)).toBeCloseTo(lit.energizer.amps, 9);
    expect(lit.residuals.kirchhoff).toBeLessThan(1e-12);
    expect(lit.residuals.powerBalance).toBeLessThan(1e-12);
    expect(post.strands[0]!.voltsToEarth).toBeLessThan(end(unfaulted).strands[0]!.voltsToEarth);
  });

  test('costs what mending it wins back', () => {
    const plan = ticking(1000);
    const solved = openFence(plan, plan.conditions[0]!);
    const node = solved.network.layout.runs[0]!.nodes[0]![2]!;
    const cost = lossesByCause(solved, node).find(({ cause }) => cause.startsWith('ticking'))!;
    const won = end(unfaulted).strands[0]!.voltsToEarth - end(solvePlan(plan).conditions[0]!).strands[0]!.voltsToEarth;
    expect(Math.abs(cost.volts / won - 1)).toBeLessThan(1e-9);
  });

  test('stands in the deck and survives the resolved plan’s own reader', () => {
    const plan = ticking(1000);
    expect(toNetlist(plan, 'usual')).toMatch(/^B\d+ j1_hot j1_body I = \(max\(0, V\(j1_hot,j1_body\)-1000\)/m);
    const read = readResolvedPlan(JSON.parse(JSON.stringify(plan)));
    expect(read.ok && read.value).toEqual(plan);
  });

  test('without any resistance has finite amps, shares and draws: a spark is next to a short', async () => {
    const plan = ticking(1000);
    plan.faults[0]!.ohms = exact(0, 'Ω');
    const { posts, leaks, residuals } = solvePlan(plan).conditions[0]!;
    const last = posts.find((post) => post.junction === 'b')!;
    // A milliohm of spark leaves next to nothing over the threshold.
    expect(last.strands[0]!.voltsToEarth - last.bodyVolts).toBeCloseTo(1000, 1);
    const spark = leaks.find((leak) => leak.cause.startsWith('ticking'))!;
    // All that the post's body takes to the soil, less what goes through the insulator / 2000 Ω.
    expect(spark.amps).toBeCloseTo(last.bodyAmps - (last.strands[0]!.voltsToEarth - last.bodyVolts) / 2000, 9);
    expect(leaks.reduce((sum, { percent }) => sum + percent, 0)).toBeCloseTo(100, 9);
    expect(residuals.kirchhoff).toBeLessThan(1e-6);
    expect((await spread(plan, { draws: 100 })).conditions[0]!.weakest.p50).toBeGreaterThan(0);
  });

  test('is read by a meter as it stands in the solution', async () => {
    const plan = ticking(1000);
    const { lines } = (await expectedReadings(plan)).conditions[0]!;
    const volts = end(solvePlan(plan).conditions[0]!).strands[0]!.voltsToEarth;
    expect(lines.find(({ post }) => post === 'north/2')!.volts.typical).toBeCloseTo(volts, 6);
    expect(volts).toBeLessThan(end(unfaulted).strands[0]!.voltsToEarth - 100);
  });

  test('that an animal’s touch puts out does not count in what the animal gets', () => {
    const plan = ticking(3500);
    const { animalOhms, sourceOhms, openVolts } = thevenin(plan);
    const { strands } = end(solvePlan(plan).conditions[0]!);
    // The touch takes the volts under the threshold: what it gets is that of the fence without the spark.
    const amps = openVolts / (sourceOhms + animalOhms);
    expect(amps * animalOhms).toBeLessThan(3500);
    expect(strands[0]!.animalAmps).toBeCloseTo(amps, 9);
  });
});

/** The end of the plan without its spark as a source behind a resistance, with the ohms of the animal that may touch. */
function thevenin(plan: ReturnType<typeof ticking>) {
  const fence = openFence({ ...plan, faults: [] }, 'usual');
  const node = fence.layout.runs[0]!.nodes[0]![2]!;
  const animalOhms = 1 / fence.formulaSiemens[fence.network.animalToEarth[0]![2]!]!;
  const sourceOhms = drivingPoints(fence.circuit).nodeOhms[node]!;
  return { animalOhms, sourceOhms, openVolts: fence.volts[node]! };
}
