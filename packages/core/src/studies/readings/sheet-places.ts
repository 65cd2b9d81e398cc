import type { Layout } from '../../network/layout.js';
import { geodesicM, type LonLat } from '../../plan/geodesic.js';
import { nearestPost } from '../../plan/posts.js';
import type { ResolvedRun } from '../../plan/resolved.js';
import type { SheetReason } from './result.js';

/** A post of a run that belongs on the sheet. */
export interface SheetPlace {
  readonly run: number;
  readonly post: number;
  readonly reason: SheetReason;
  readonly name: string;
}

/** Posts are added until no two neighbours on the sheet are further apart than this part of their run, if the run has as many. */
const widestGap = 1 / 4;
/** Turns of a line smaller than this, degrees, are no corners. */
const leastTurn = 15;

/** Ends, junctions, gate posts and corners of every run, and posts between them; run by run, in the order of its posts. */
export function sheetPlaces(layout: Layout): SheetPlace[] {
  const { plan } = layout;
  const home = layout.junctionOf.get(plan.energizer.junction)!;
  return layout.runs.flatMap((run, r) => {
    if (!run.strands.some(({ role }) => role === 'hot')) return [];
    const { spans } = run;
    const places = new Map<number, SheetPlace>();
    const add = (post: number, reason: SheetReason, name = '') => {
      if (!places.has(post)) places.set(post, { run: r, post, reason, name });
    };
    for (const [post, junction] of [
      [0, run.from],
      [spans, run.to],
    ] as const) {
      const reason = junction === home ? 'energizer' : layout.ends[junction]!.length === 1 ? 'end' : 'junction';
      add(post, reason, plan.junctions[junction]!.id);
    }
    for (const gate of plan.gates) {
      if (gate.run !== run.run.id) continue;
      for (const post of [gate.post, gate.post + 1]) add(post, 'gate', gate.id);
    }
    for (const post of cornerPosts(run.run)) add(post, 'corner');
    const gap = Math.max(1, Math.ceil(spans * widestGap));
    const known = [...places.keys()].sort((a, b) => a - b);
    for (let k = 1; k < known.length; k++) {
      const [from, to] = [known[k - 1]!, known[k]!];
      const parts = Math.ceil((to - from) / gap);
      for (let part = 1; part < parts; part++) add(from + Math.round((part * (to - from)) / parts), 'between');
    }
    return [...places.values()].sort((a, b) => a.post - b.post);
  });
}

/** Posts nearest to the places where a run's line turns. */
function cornerPosts(run: ResolvedRun): number[] {
  const { line } = run;
  if (line === null) return [];
  const lengths = line.slice(1).map((end, i) => geodesicM(line[i]!, end));
  const total = lengths.reduce((sum, length) => sum + length, 0);
  const corners: number[] = [];
  let at = 0;
  for (let i = 1; i < line.length - 1; i++) {
    at += lengths[i - 1]!;
    // The plan's own length may differ from the line's.
    if (turn(line[i - 1]!, line[i]!, line[i + 1]!) >= leastTurn)
      corners.push(nearestPost(run, (at / total) * run.lengthM));
  }
  return corners;
}

/** Degrees by which a line changes its course at `b`, on the plane that touches the earth there. */
function turn(a: LonLat, b: LonLat, c: LonLat): number {
  const scale = Math.cos((b[1] * Math.PI) / 180);
  const course = (p: LonLat, q: LonLat) => Math.atan2((q[0] - p[0]) * scale, q[1] - p[1]);
  const change = Math.abs(course(b, c) - course(a, b)) * (180 / Math.PI);
  return Math.min(change, 360 - change);
}
