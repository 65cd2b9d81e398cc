import { hangingOf, postAtEnd } from '../network/hanging.js';
import { type Layout, spanLengthM } from '../network/layout.js';
import { LocalConditions } from '../network/local-conditions.js';
import type { ResolvedPlan } from '../plan/resolved.js';
import type { Counts } from './result.js';

/** Counts posts, insulators and wire of a plan, with the stretches that hold in every condition. */
export function countPlan(plan: ResolvedPlan, layout: Layout): Counts {
  const posts: Record<string, number> = {};
  const lineInsulators: Record<string, number> = {};
  const endInsulators: Record<string, number> = {};
  const wireM: Record<string, number> = {};
  const lengths = { hot: 0, grounded: 0 };
  const add = (tally: Record<string, number>, id: string, amount: number) => {
    tally[id] = (Object.hasOwn(tally, id) ? tally[id]! : 0) + amount;
  };
  const lasting = { ...plan, stretches: plan.stretches.filter((s) => s.conditions === null) };
  const local = layout.runs.map((run) => new LocalConditions(lasting, plan.conditions[0]!, run));
  const hanging = hangingOf(layout);
  const gateSpans = layout.runs.map(
    ({ run }) => new Set(plan.gates.flatMap((gate) => (gate.run === run.id ? [gate.post] : []))),
  );
  const hang = (r: number, i: number) => {
    const hangs = hanging(r, i);
    if (hangs === 'elsewhere') return;
    layout.runs[r]!.strands.forEach((_, s) => {
      const { row, count } = local[r]!.insulator(s, i, hangs === 'end');
      add(hangs === 'end' ? endInsulators : lineInsulators, row, count);
    });
  };
  layout.ends.forEach((ends, j) => {
    const first = ends[0];
    if (first === undefined) return;
    const atM = layout.runs[first.run]!.positionsM[postAtEnd(layout, first)]!;
    add(posts, plan.junctions[j]!.post ?? local[first.run]!.post(atM), 1);
    for (const end of ends) hang(end.run, postAtEnd(layout, end));
  });
  layout.runs.forEach((run, r) => {
    for (let i = 1; i < run.spans; i++) {
      add(posts, local[r]!.post(run.positionsM[i]!), 1);
      hang(r, i);
    }
    for (let k = 0; k < run.spans; k++) {
      // A gate's cable stands in place of the wire there.
      if (gateSpans[r]!.has(k)) continue;
      const lengthM = spanLengthM(run, k);
      run.strands.forEach(({ role }, s) => {
        lengths[role] += lengthM;
        add(wireM, local[r]!.wire(s, run.positionsM[k]!), lengthM);
      });
    }
  });
  const cables = [
    plan.energizer.leadOut,
    plan.energizer.groundLead,
    ...plan.gates.map((g) => g.cable),
    ...plan.links.map((l) => l.cable),
  ];
  for (const cable of cables) if (cable !== null) add(wireM, cable.wire, cable.lengthM);
  return {
    posts,
    lineInsulators,
    endInsulators,
    wireM,
    hotStrandM: lengths.hot,
    groundedStrandM: lengths.grounded,
    runM: plan.runs.reduce((sum, { lengthM }) => sum + lengthM, 0),
  };
}
