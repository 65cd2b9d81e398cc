import { standardTables } from '@postvolt/tables';
import { Pacer } from '../../engine/pacer.js';
import { pickConditions } from '../../fence/pick-conditions.js';
import { layOut } from '../../network/layout.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import { checkOptions, soilsOf } from './check-options.js';
import { FenceWithoutSupply } from './fence-without-supply.js';
import { GroundTester } from './ground-test.js';
import type { SupplyOptions } from './options.js';
import type { ClassChoice, GroundTest, SupplyResult, TradeOff } from './result.js';
import { RodArrays, rodKind } from './rods.js';
import { ownGround, perfectGround, SupplyInAllConditions } from './supply-in-all-conditions.js';
import { supplySentence } from './words.js';

const usualCounts = [1, 2, 3, 4, 6, 8, 12, 16, 24];
/** 3 ft of rod for each joule, and never fewer than three rods: a rule of the farm press. */
const ruleMetresPerJoule = 0.9144;
const ruleLeastRods = 3;

/**
 * How much energizer and how many ground rods a fence needs: the least output that holds the target in every condition, the
 * fewest rods, and the trade-off between the two; and the field test of the ground system with its probe. Volts, ohms, metres.
 *
 * The fence is factored once a condition. What is left of it at its two terminals answers for every energizer and every
 * number of rods in closed form; with spark gaps, which bend it, each answer is a solve. Rods are H. B. Dwight's (1936) in
 * even soil, the probe's potential that of the rods' own field. All values are typical ones.
 *
 * @throws PlanError for a condition or soil that is not known, or a number out of range. Rejects with the signal's reason
 * when it is aborted.
 */
export async function supply(plan: ResolvedPlan, options: SupplyOptions = {}): Promise<SupplyResult> {
  const { probeM = 1, shortAtM = 100, shortVolts = 2000, mostRods = 24, tables = standardTables } = options;
  const conditions = pickConditions(plan, options.conditions);
  const arrays = new RodArrays(rodKind(plan, options.rod));
  const counts = [...new Set(options.counts ?? usualCounts.filter((count) => count <= mostRods))].sort((a, b) => a - b);
  checkOptions({ probeM, shortAtM, shortVolts, mostRods, counts }, arrays.kind);
  const withSoils = soilsOf(plan, options.soils ?? [], tables);
  const classRows = [...tables.energizers].sort((a, b) => a.joules - b.joules);
  const pacer = new Pacer(options);
  const work = 2 * conditions.length + counts.length + classRows.length;
  let done = 0;
  const pause = async () => {
    done++;
    if (pacer.due) await pacer.step(done / work);
  };

  const layout = layOut(plan);
  const fences: FenceWithoutSupply[] = [];
  for (const condition of conditions) {
    fences.push(new FenceWithoutSupply(plan, condition, layout, classRows));
    await pause();
  }
  const asked = new SupplyInAllConditions(plan, fences, classRows, arrays, mostRods);
  const own = new RodArrays(rodKind(plan));
  const setting = { plan: withSoils.plan, own, asked: arrays, shortAtM, shortVolts, probeM, mostRods };
  const testers = fences.map((fence) => new GroundTester(fence, setting));

  const tradeOff: TradeOff[] = [];
  for (const rods of counts) {
    const groundOf = asked.rods(rods);
    const ohms = fences.map((fence) => 1 / groundOf(fence));
    tradeOff.push({
      rods,
      ...asked.leastOutput(groundOf),
      leastOhms: Math.min(...ohms),
      mostOhms: Math.max(...ohms),
      holds: asked.holds(groundOf),
      testVolts: Math.max(...testers.map((tester) => tester.readVolts(rods, plan.soil))),
    });
    await pause();
  }
  const classes: ClassChoice[] = [];
  for (const c of classRows.keys()) {
    classes.push(asked.classChoice(c));
    await pause();
  }
  const { ground, joules } = plan.energizer;
  // Measured ohms are those of the soil that they were measured in.
  const soils = ground.kind === 'rods' ? withSoils.soils : [plan.soil];
  const groundTests: GroundTest[] = [];
  for (const tester of testers) {
    for (const soil of soils) groundTests.push(tester.test(soil));
    await pause();
  }
  const result: Omit<SupplyResult, 'sentence'> = {
    format: 'postvolt supply',
    formatVersion: 1,
    title: plan.title,
    units: plan.units,
    target: plan.target,
    present: {
      voltsAt500: asked.labelVolts,
      class: plan.energizer.row,
      rods: ground.kind === 'rods' ? ground.count : null,
      holds: asked.holds(ownGround),
    },
    rod: arrays.kind,
    mostRods,
    leastOutput: asked.leastOutput(ownGround),
    perfectGround: asked.leastOutput(perfectGround),
    leastRods: asked.fewestRods(),
    tradeOff,
    classes,
    conditions: fences.map((fence) => fence.asIs(asked.labelVolts)),
    groundTests,
    ruleOfThumbRods: joules === null ? null : rodsByRule(joules, arrays.kind.lengthM),
    probeM,
  };
  options.onProgress?.(1);
  return { ...result, sentence: supplySentence(result) };
}

const rodsByRule = (joules: number, rodM: number): number =>
  Math.max(ruleLeastRods, Math.ceil((joules * ruleMetresPerJoule) / rodM - 1e-9));
