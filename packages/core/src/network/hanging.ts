import type { Layout, RunEnd } from './layout.js';

/** How a run's strands hang at one of its posts. `elsewhere`: the run before it passes through and hangs them there. */
export type Hanging = 'line' | 'end' | 'elsewhere';

/** Number of the post at one end of a run. */
export const postAtEnd = (layout: Layout, { run, end }: RunEnd): number =>
  end === 'from' ? 0 : layout.runs[run]!.spans;

/**
 * Whether strands end at a post of a run, by numbers: at its junctions and on both sides of a gate they do, at a `through`
 * post the first two runs listed there are one fence that passes by.
 */
export function hangingOf(layout: Layout): (run: number, post: number) => Hanging {
  const { junctions, gates } = layout.plan;
  const atGate = layout.runs.map(() => new Set<number>());
  for (const { run, post } of gates) atGate[layout.runOf.get(run)!]!.add(post).add(post + 1);
  const passing = layout.runs.map(() => new Map<number, Hanging>());
  layout.ends.forEach((ends, j) => {
    if (!junctions[j]!.through) return;
    const [first, second] = ends;
    if (first !== undefined) passing[first.run]!.set(postAtEnd(layout, first), 'line');
    if (second !== undefined) passing[second.run]!.set(postAtEnd(layout, second), 'elsewhere');
  });
  return (r, i) => {
    const { spans } = layout.runs[r]!;
    if (i === 0 || i === spans) return passing[r]!.get(i) ?? 'end';
    return atGate[r]!.has(i) ? 'end' : 'line';
  };
}
