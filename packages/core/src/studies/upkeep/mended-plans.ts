import { findRow, fitsPost, type Tables } from '@postvolt/tables';
import { defaults } from '../../plan/defaults.js';
import type { ResolvedPlan } from '../../plan/resolved.js';
import { applyChanges, withState } from '../compare/apply-change.js';
import type { PlanChange } from '../compare/change.js';

/** Joints worse than this are worth remaking, Ω. */
export const goodJointOhms = 1;

/** The plan with everything of one sort put right; all have the elements of the plan without faults, one for one. */
export interface MendedPlans {
  readonly plan: ResolvedPlan;
  /** Without faults. */
  readonly sound: ResolvedPlan;
  /** And with insulators of the same kinds new, clean and whole, and good joints. */
  readonly renewed: ResolvedPlan;
  /** And with good insulators in place of cheap ones and of tubes. */
  readonly better: ResolvedPlan;
}

/** Makes the plans that repairs lead to. */
export function mendedPlans(plan: ResolvedPlan, tables: Tables): MendedPlans {
  const sound = { ...plan, faults: [] };
  const jointed = withGoodJoints(sound, tables);
  const clean = {
    ...jointed,
    stretches: jointed.stretches.map((s) => ({ ...s, set: { ...s.set, fouledFraction: null } })),
  };
  const all = new Set(plan.runs.map(({ id }) => id));
  const renewed = withState(clean, 'new', all, true);
  return { plan, sound, renewed, better: applyChanges(renewed, betterInsulators(plan, tables), tables) };
}

function withGoodJoints(plan: ResolvedPlan, tables: Tables): ResolvedPlan {
  const { joints } = plan.rows;
  const good = (id: string) => joints[id] ?? findRow(tables, 'joints', id)!;
  const remade = (joint: string, by: string) => (joints[joint]!.ohms.typical > goodJointOhms ? by : joint);
  const [clamp, closed] = [good(defaults.jumper), good(defaults.switch)];
  return {
    ...plan,
    jumpers: plan.jumpers.map((item) => ({ ...item, joint: remade(item.joint, clamp.id) })),
    gates: plan.gates.map((item) => ({ ...item, joint: remade(item.joint, clamp.id) })),
    switches: plan.switches.map((item) => ({ ...item, joint: remade(item.joint, closed.id) })),
    rows: { ...plan.rows, joints: { ...joints, [clamp.id]: clamp, [closed.id]: closed } },
  };
}

/** Dense plastic in place of cheap plastic on line posts, porcelain in place of tubes at ends, run by run where it fits. */
function betterInsulators(plan: ResolvedPlan, tables: Tables): PlanChange[] {
  return plan.runs.flatMap(({ id: run, build: name }): PlanChange[] => {
    const build = plan.builds.find(({ id }) => id === name)!;
    const post = plan.rows.posts[build.post]!;
    const hot = build.strands.filter(({ role }) => role === 'hot');
    const isCheap = (row: string) => plan.rows.insulators[row]!.material === 'cheap plastic';
    const own = plan.stretches.filter((s) => s.run === run && s.set.insulator !== null);
    const changes: PlanChange[] = [];
    // A run with both keeps what it has: one change would touch the good ones too.
    if ([...hot.map(({ insulator }) => insulator), ...own.map(({ set }) => set.insulator!)].every(isCheap)) {
      const dense = tables.insulators.filter(
        (row) => row.material === 'dense plastic' && row.place !== 'end' && fitsPost(row, post),
      );
      // The one of the same shape where there is one.
      const good = dense.find(({ id }) => `cheap ${id}` === hot[0]!.insulator) ?? dense[0];
      if (good !== undefined) changes.push({ what: 'insulator', row: good.id, run });
    }
    const ends = findRow(tables, 'insulators', defaults.endInsulator);
    const isTube = hot.every(({ endInsulator }) => endInsulator === 'wrap-around tube' || isCheap(endInsulator));
    if (isTube && ends !== undefined && fitsPost(ends, post))
      changes.push({ what: 'end insulator', row: ends.id, run });
    return changes;
  });
}
