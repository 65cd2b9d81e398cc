import type { RunLayout } from '../../network/layout.js';
import type { ResolvedPlan, ResolvedStretch } from '../../plan/resolved.js';

/** A piece of a run, in metres from its start. */
export interface Section {
  readonly fromM: number;
  readonly toM: number;
}

type Field = keyof ResolvedStretch['set'];

/** The pieces into which stretches that set one of these fields cut a run; the whole run where none does. */
export function sectionsOf(plan: ResolvedPlan, { run }: RunLayout, fields: readonly Field[]): Section[] {
  const cuts = new Set([0, run.lengthM]);
  for (const { run: id, set, fromM, toM } of plan.stretches) {
    if (id !== run.id || fields.every((field) => set[field] === null)) continue;
    for (const at of [fromM, toM ?? run.lengthM]) if (at > 0 && at < run.lengthM) cuts.add(at);
  }
  const places = [...cuts].sort((a, b) => a - b);
  return places.slice(0, -1).map((fromM, n) => ({ fromM, toM: places[n + 1]! }));
}

/** Number of the section that a place is in; the last takes the run's end in. */
export function sectionAt(sections: readonly Section[], atM: number): number {
  let n = 0;
  while (n < sections.length - 1 && atM >= sections[n]!.toM) n++;
  return n;
}
