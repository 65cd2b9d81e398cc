import type { Layout } from '../network/layout.js';
import { LocalView } from '../network/local.js';
import type { ResolvedPlan } from '../plan/resolved.js';
import type { Counts } from './result.js';

/** Counts posts, insulators and wire of a plan, with the stretches that hold in every condition. */
export function countPlan(plan: ResolvedPlan, layout: Layout): Counts {
  const posts: Record<string, number> = {};
  const lineInsulators: Record<string, number> = {};
  const endInsulators: Record<string, number> = {};
  const wireM: Record<string, number> = {};
  const lengths = { hot: 0, grounded: 0 };
  let runM = 0;
  const add = (tally: Record<string, number>, id: string, amount: number) => {
    tally[id] = (tally[id] ?? 0) + amount;
  };
  const lasting = { ...plan, stretches: plan.stretches.filter((s) => s.conditions === null) };
  const views = layout.runs.map((run) => new LocalView(lasting, plan.conditions[0]!, run));
  const gatePosts = new Set(plan.gates.flatMap((g) => [`${g.run}|${g.post}`, `${g.run}|${g.post + 1}`]));
  const hang = (r: number, i: number, atEnd: boolean) => {
    layout.runs[r]!.strands.forEach((_, s) => {
      const { row, count } = views[r]!.insulator(s, i, atEnd);
      add(atEnd ? endInsulators : lineInsulators, row, count);
    });
  };
  layout.ends.forEach((ends, j) => {
    const first = ends[0];
    if (first === undefined) return;
    const place = (end: { run: number; end: string }) => (end.end === 'from' ? 0 : layout.runs[end.run]!.spans);
    const { post, through } = plan.junctions[j]!;
    add(posts, post ?? views[first.run]!.post(layout.runs[first.run]!.positionsM[place(first)]!), 1);
    ends.forEach((end, n) => {
      if (through && n === 1) return;
      hang(end.run, place(end), !(through && n === 0));
    });
  });
  layout.runs.forEach((run, r) => {
    runM += run.run.lengthM;
    for (let i = 1; i < run.spans; i++) {
      add(posts, views[r]!.post(run.positionsM[i]!), 1);
      hang(r, i, gatePosts.has(`${run.run.id}|${i}`));
    }
    run.strands.forEach((strand, s) => {
      lengths[strand.role] += run.run.lengthM;
      for (let k = 0; k < run.spans; k++) {
        add(wireM, views[r]!.wire(s, run.positionsM[k]!), run.positionsM[k + 1]! - run.positionsM[k]!);
      }
    });
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
    runM,
  };
}
