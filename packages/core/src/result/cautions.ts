import { type CautionRow, standardTables } from '@postvolt/tables';
import type { ResolvedPlan } from '../plan/resolved.js';
import type { PlanResult } from './result.js';

/** The cautions that a plan calls for; the usual ones always stand. */
export function cautionsOf(plan: ResolvedPlan): PlanResult['cautions'] {
  const poly = plan.builds.every((b) => b.strands.every((s) => plan.rows.wires[s.wire]!.kind === 'poly'));
  const touches: Record<CautionRow['when'], boolean> = {
    always: true,
    'two energizers': true,
    rods: true,
    temporary: poly,
    'overhead line': plan.near.includes('overhead line'),
    buildings: plan.near.includes('buildings') || plan.energizer.leadOut !== null,
    'public way': plan.near.includes('public way'),
    'barbed wire': plan.near.includes('barbed wire'),
  };
  return standardTables.cautions
    .filter((row) => touches[row.when])
    .map(({ id, text, source }) => ({ id, text, source }));
}
