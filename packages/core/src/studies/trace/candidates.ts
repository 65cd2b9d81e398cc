import { isMetal, kindCode, openBy } from '../../network/elements.js';
import { hotNodes } from '../../result/leaks.js';
import type { MeterFence, PlacedFault } from '../meter/meter-fence.js';

/** A place where a fault may be, and how likely it is before any reading. */
export interface Candidate {
  readonly kind: PlacedFault['kind'];
  /** Node of a leak, branch of the others. */
  readonly place: number;
  /** Numbers in the plan; −1 where they do not apply (a lead-out). */
  readonly run: number;
  readonly post: number;
  readonly strand: number;
  /** Posts (global numbers) that it lies at or between. */
  readonly posts: readonly [number, number];
  readonly prior: number;
}

/** Share of faults that are leaks, that part or choke the wire, or that join two strands; an engineering estimate. */
const shares = { leak: 0.7, series: 0.3, contact: 0.2 } as const;

/** Every place where a fault may be: hot strands at posts, hot metal between them, and grounded strands beside hot ones. */
export function faultCandidates(meter: MeterFence): Candidate[] {
  const { fence, open, contactBranches } = meter;
  const { layout, elements } = fence;
  const hot = hotNodes(fence);
  const live = (node: number) => hot[node] === 1 && Number.isFinite(open.distanceM[node]!);
  const found: (Omit<Candidate, 'prior'> & { group: string })[] = [];
  const seen = new Set<number>();
  layout.runs.forEach((run, r) => {
    run.strands.forEach((_, s) => {
      run.nodes[s]!.forEach((node, i) => {
        if (seen.has(node) || !live(node)) return;
        seen.add(node);
        const post = run.posts[i]!;
        found.push({ kind: 'leak', place: node, run: r, post: i, strand: s, posts: [post, post], group: `p${post}` });
      });
    });
  });
  const home = layout.junctionOf.get(fence.plan.energizer.junction)!;
  for (let e = 0; e < elements.count; e++) {
    const [a, b] = [elements.nodeA[e]!, elements.nodeB[e]!];
    if (!isMetal(elements.kind[e]!) || elements.open[e] !== openBy.nothing || !live(a) || !live(b)) continue;
    const [r, i, s] = [elements.run[e]!, elements.post[e]!, elements.strand[e]!];
    const isJoint = elements.kind[e] === kindCode.joint;
    const junctionAt = (node: number) => Math.max(layout.hotBus.indexOf(node), -1);
    const posts: [number, number] =
      r >= 0
        ? [layout.runs[r]!.posts[i]!, layout.runs[r]!.posts[isJoint ? i : i + 1]!]
        : [junctionAt(a) < 0 ? home : junctionAt(a), junctionAt(b) < 0 ? home : junctionAt(b)];
    const place = open.branchOf[e]!;
    found.push({ kind: 'series', place, run: r, post: i, strand: s, posts, group: r >= 0 ? `s${r}|${i}` : `e${e}` });
  }
  const contacts = new Set(contactBranches);
  for (let e = 0; contacts.size > 0 && e < elements.count; e++) {
    const place = open.branchOf[e]!;
    if (!contacts.has(place) || !live(elements.nodeA[e]!)) continue;
    const [r, i, s] = [elements.run[e]!, elements.post[e]!, elements.strand[e]!];
    const post = layout.runs[r]!.posts[i]!;
    found.push({ kind: 'contact', place, run: r, post: i, strand: s, posts: [post, post], group: `c${post}` });
  }
  return weigh(found);
}

/** A kind's share is spread evenly over its posts or spans, and theirs over their strands. */
function weigh(found: readonly (Omit<Candidate, 'prior'> & { group: string })[]): Candidate[] {
  const members = new Map<string, number>();
  for (const { group } of found) members.set(group, (members.get(group) ?? 0) + 1);
  const groups = { leak: new Set<string>(), series: new Set<string>(), contact: new Set<string>() };
  for (const { kind, group } of found) groups[kind].add(group);
  const present = (Object.keys(shares) as Candidate['kind'][]).filter((kind) => groups[kind].size > 0);
  const total = present.reduce((sum, kind) => sum + shares[kind], 0);
  return found.map(({ group, ...candidate }) => ({
    ...candidate,
    prior: shares[candidate.kind] / total / groups[candidate.kind].size / members.get(group)!,
  }));
}
