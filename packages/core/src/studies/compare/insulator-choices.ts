import { fitsPost, type InsulatorRow, type Tables } from '@postvolt/tables';
import type { ResolvedPlan } from '../../plan/resolved.js';
import type { PlanChange, PlanVariant } from './change.js';

/** Insulators to follow through the years. */
export type InsulatorChoice = PlanVariant;

type Material = InsulatorRow['material'];

/** Line insulators by material, and the row at ends. */
const usual: readonly (readonly [name: string, line: Material, end: string])[] = [
  ['dense plastic, porcelain ends', 'dense plastic', 'porcelain bullnose'],
  ['dense plastic, tube ends', 'dense plastic', 'wrap-around tube'],
  ['cheap plastic, tube ends', 'cheap plastic', 'wrap-around tube'],
  ['glazed ceramic', 'glazed ceramic', 'glazed ceramic'],
  ['porcelain', 'porcelain', 'porcelain bullnose'],
];

/**
 * The insulators of the plan, and the usual ones in their place wherever they go on its posts: good against cheap, tube
 * against porcelain at the ends, glazed ceramic against porcelain. A choice that goes on none of its posts is left out.
 */
export function usualChoices(plan: ResolvedPlan, tables: Tables): InsulatorChoice[] {
  const choices = usual.flatMap(([name, material, end]): InsulatorChoice[] => {
    const lines = plan.runs.flatMap(({ id, build }): PlanChange[] => {
      const post = plan.rows.posts[plan.builds.find((b) => b.id === build)!.post]!;
      const row = tables.insulators.find(
        (other) => other.material === material && other.place !== 'end' && fitsPost(other, post),
      );
      return row === undefined ? [] : [{ what: 'insulator', row: row.id, run: id }];
    });
    if (lines.length === 0) return [];
    const endRow = tables.insulators.find(({ id }) => id === end);
    const ends = plan.runs.flatMap(({ id, build }): PlanChange[] => {
      const post = plan.rows.posts[plan.builds.find((b) => b.id === build)!.post]!;
      return endRow === undefined || !fitsPost(endRow, post)
        ? []
        : [{ what: 'end insulator', row: endRow.id, run: id }];
    });
    return [{ name, changes: [...lines, ...ends] }];
  });
  return [{ name: 'as planned', changes: [] }, ...choices];
}
